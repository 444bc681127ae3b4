"""The names of pictures: whose they are, in which place, and which of them nothing shows."""

import difflib
import posixpath
import re
from collections.abc import Collection, Iterable, Mapping
from urllib.parse import quote

from crumbcoat_site.recipe_cards.pictures.formats import is_picture, rank

COVER = "cover"
_FILE = re.compile(r"""\bfile["']?[ \t]*:[ \t]*([^\n]+)""")
_SLOT = re.compile(r"([1-9][0-9]*-[1-9][0-9]*)(z*[a-z]?)")


def photo_name(name: str, slot: str, number: int = 0) -> str:
    """The name of a picture without its ending: that of the recipe, then the step, and letters after the first.

    >>> photo_name("milk-emulsions/veil", "2-1"), photo_name("veil", "2-1", 1), photo_name("veil", COVER)
    ('milk-emulsions/veil.2-1', 'veil.2-1b', 'veil')
    """
    return name if slot == COVER else f"{name}.{slot}{letters_for(number)}"


def letters_for(number: int) -> str:
    """The letters by which the pictures of one step differ in their names, from 0; in the order of the alphabet.

    >>> letters_for(0), letters_for(1), letters_for(25), letters_for(26), letters_for(52)
    ('', 'b', 'z', 'za', 'zza')
    """
    turns, place = divmod(number, 26)
    return "z" * turns + chr(ord("a") + place) if number else ""


def beside(name: str, media: Iterable[str]) -> Mapping[str, list[str]]:
    """The pictures that a recipe has by their names: paths from its folder, under `cover` or `stage-step`.

    Of two pictures that differ only in the ending, the one whose ending comes first in `ENDINGS` is used.

    Args:
        name: the path of the recipe file in docs_dir without the ending.
        media: the paths in docs_dir of all files that are not pages.

    >>> beside("creams/veil", ["creams/veil.JPG", "creams/veil.2-1.webp", "creams/veil.2-1b.jpg", "creams/veil.pdf"])
    {'cover': ['veil.JPG'], '2-1': ['veil.2-1.webp', 'veil.2-1b.jpg']}
    """
    found: dict[str, dict[str, str]] = {}
    for path in sorted(filter(is_picture, media), key=lambda path: (path.rpartition(".")[0], rank(path), path)):
        owner, slot, letter = _parts(path)
        if owner == name:
            found.setdefault(slot, {}).setdefault(letter, posixpath.basename(path))
    return {slot: [file for _, file in sorted(files.items())] for slot, files in found.items()}


def by_owner(media: Iterable[str]) -> Mapping[str, list[str]]:
    """The pictures of each recipe by their names: paths in docs_dir, under the path of the recipe file."""
    found: dict[str, list[str]] = {}
    for path in filter(is_picture, media):
        found.setdefault(_parts(path)[0], []).append(path)
    return found


def named_in(text: str, name: str) -> set[str]:
    """The paths in docs_dir of what a recipe's text names as a `file`, there or not; without reading it as YAML.

    >>> "creams/IMG_1.jpg" in named_in("cover: {file: IMG_1.jpg, credit: Ana}", "creams/veil")
    True
    >>> "creams/my, own.png" in named_in("photo: {file: 'my, own.png'}", "creams/veil")
    True
    """
    found = set()
    for written in _FILE.findall(text):
        block = written.partition("}")[0]
        for value in (written, block, written.partition(",")[0], block.partition(",")[0]):
            file = value.strip().strip("\"'").strip()
            if file:
                found.add(posixpath.normpath(posixpath.join(posixpath.dirname(name), file)))
    return found


def unused_photos(
    media: Iterable[str], recipes: Mapping[str, Collection[str]], used: Collection[str], mentioned: str
) -> list[tuple[str, str, str]]:
    """The pictures that a recipe seems to be meant by, and that nothing shows: path, problem and remedy.

    Args:
        media: the paths in docs_dir of all files that are not pages.
        recipes: the places of each recipe that a picture can have (`cover`, `1-1`, …), by its path without the ending.
        used: the paths of the pictures that recipes show.
        mentioned: the text of all other pages; a picture whose name is in it is theirs.

    >>> unused_photos(["veil.9-1.jpg", "viel.jpg"], {"veil": ["cover", "1-1"]}, [], "")
    [('veil.9-1.jpg', 'veil has no step 9-1', 'name it after a step, such as `veil.1-1.jpg`, or name it in the recipe: \
`photo: {file: veil.9-1.jpg}`'), ('viel.jpg', 'no recipe and no page shows this picture', "did you mean 'veil.jpg'?")]
    """
    folders = {posixpath.dirname(name) for name in recipes}
    found = []
    for path in sorted(filter(is_picture, media)):
        file = posixpath.basename(path)
        if path in used or posixpath.dirname(path) not in folders or file in mentioned or quote(file) in mentioned:
            continue
        owner, slot, _ = _parts(path)
        ending = path.rpartition(".")[2]
        if owner in recipes and slot not in recipes[owner]:
            steps = [step for step in recipes[owner] if step != COVER]
            example = posixpath.basename(photo_name(owner, steps[0] if steps else COVER))
            problem = f"{posixpath.basename(owner)} has no step {slot}"
            remedy = f"name it after a step, such as `{example}.{ending}`, or name it in the recipe"
            found.append((path, problem, f"{remedy}: `photo: {{file: {file}}}`"))
        elif owner in recipes:
            place = "cover" if slot == COVER else f"step {slot}"
            problem = f"the recipe shows another picture as its {place}"
            found.append((path, problem, "delete the one that is not wanted, or name this one in the recipe"))
        else:
            names = [f"{photo_name(name, slot)}.{ending}" for name, slots in recipes.items() for slot in slots]
            near = difflib.get_close_matches(path, names, n=1, cutoff=0.8)
            remedy = "name it after a recipe, name it in one (`photo: {file: …}`), or delete it"
            said = f"did you mean {posixpath.basename(near[0])!r}?" if near else remedy
            found.append((path, "no recipe and no page shows this picture", said))
    return found


def _parts(path: str) -> tuple[str, str, str]:
    """The recipe, the place and the letter that a picture's name says."""
    stem = path.rpartition(".")[0]
    name, dot, slot = stem.rpartition(".")
    found = _SLOT.fullmatch(slot) if dot else None
    return (name, found[1], found[2]) if found else (stem, COVER, "")
