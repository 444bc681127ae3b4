"""The pictures next to a recipe file, found by their names."""

import re
from collections.abc import Collection, Iterable, Mapping
from pathlib import PurePosixPath

_SLOT = re.compile(r"[1-9][0-9]*-[1-9][0-9]*")
ENDINGS = (".avif", ".webp", ".jpg", ".jpeg", ".png")


def photo_name(name: str, stage: int, step: int) -> str:
    """The name of a step's picture without the ending; stages and steps are counted from 1.

    >>> photo_name("milk-emulsions/veil", 2, 1)
    'milk-emulsions/veil.2-1'
    """
    return f"{name}.{stage}-{step}"


def photos_by_recipe(media: Iterable[str]) -> Mapping[str, Mapping[str, str]]:
    """The pictures of each recipe: file names under `cover` or `stage-step`.

    Of two pictures that differ only in the ending, the one whose ending comes first in `ENDINGS` is used.

    Args:
        media: the paths in docs_dir of all files that are not pages.

    Returns:
        The pictures under the path of the recipe file in docs_dir without the ending.

    >>> photos_by_recipe(["milk-emulsions/veil.jpg", "milk-emulsions/veil.2-1.webp", "milk-emulsions/veil.pdf"])
    {'milk-emulsions/veil': {'2-1': 'veil.2-1.webp', 'cover': 'veil.jpg'}}
    """
    found: dict[str, dict[str, str]] = {}
    for path in sorted(media, key=lambda path: (path.rpartition(".")[0], -_rank(path))):
        if path.endswith(ENDINGS):
            name, slot = _recipe_and_slot(path)
            found.setdefault(name, {})[slot] = PurePosixPath(path).name
    return {name: dict(sorted(pictures.items())) for name, pictures in found.items()}


def is_photo_of(path: str, recipes: Collection[str]) -> bool:
    """Whether a file is a picture of one of the recipes, used or not.

    >>> is_photo_of("veil.2-1.png", {"veil"}), is_photo_of("veil.jpg", {"veil"}), is_photo_of("veils.jpg", {"veil"})
    (True, True, False)
    """
    return path.endswith(ENDINGS) and _recipe_and_slot(path)[0] in recipes


def _recipe_and_slot(path: str) -> tuple[str, str]:
    stem = path.rpartition(".")[0]
    name, dot, slot = stem.rpartition(".")
    return (name, slot) if dot and _SLOT.fullmatch(slot) else (stem, "cover")


def _rank(path: str) -> int:
    return next((number for number, ending in enumerate(ENDINGS) if path.endswith(ending)), len(ENDINGS))
