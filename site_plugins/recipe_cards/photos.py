"""Pictures that lie beside a recipe file, by their names."""

from collections.abc import Iterable, Mapping
from pathlib import PurePosixPath

ENDINGS = (".avif", ".webp", ".jpg", ".jpeg", ".png")


def photo_name(name: str, stage: int, step: int) -> str:
    """The name, without ending, of the picture of a step; stages and steps count from 1.

    >>> photo_name("low-fat/veil", 2, 1)
    'low-fat/veil.2-1'
    """
    return f"{name}.{stage}-{step}"


def photos_beside(name: str, media: Iterable[str]) -> Mapping[str, str]:
    """The pictures of one recipe: `cover` or `stage-step`, each with its file name.

    Args:
        name: the recipe file's path in docs_dir, without ending.
        media: the paths in docs_dir of all files that are no pages.

    >>> photos_beside("low-fat/veil", ["low-fat/veil.jpg", "low-fat/veil.2-1.webp", "low-fat/veil.pdf", "veil.jpg"])
    {'2-1': 'veil.2-1.webp', 'cover': 'veil.jpg'}
    """
    found: dict[str, str] = {}
    for path in sorted(media, reverse=True):
        if path.startswith(f"{name}.") and path.endswith(ENDINGS):
            stem = path.removeprefix(f"{name}.").rpartition(".")[0]
            found[stem or "cover"] = PurePosixPath(path).name
    return dict(sorted(found.items()))
