"""Every text of a recipe file that a reader sees, with its place; names of ingredients are not among them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from crumbcoat_calc.errors import Path
from crumbcoat_calc.values.marks import plain_text

_FRONT = frozenset(("title", "summary", "keywords", "yield"))
_PROSE = frozenset((
    "title", "summary", "keywords", "of", "do", "look_for", "why", "when_scaled", "note", "notes", "tips", "role",
    "preparation", "question", "answer", "passes", "sign", "remedy", "what", "photo",
))  # fmt: skip
_STRUCTURE = frozenset(("ingredients", "stages", "steps", "checkpoint", "troubles", "replacements", "storage", "yield",
                        "decorations"))  # fmt: skip


@dataclass(frozen=True, slots=True)
class PlacedText:
    """A text, its place in the file, and whether it is one by which readers choose the recipe."""

    path: Path
    text: str
    is_front: bool


def texts_of(data: Mapping[str, object], section: str = "") -> Iterator[PlacedText]:
    """The texts of a recipe's data, without marks of emphasis, in the order of the file.

    Args:
        section: the folder of the file, which readers see as a heading and in the address.
    """
    if section:
        yield PlacedText((), section.replace("-", " ").replace("_", " "), True)
    for field, value in data.items():
        yield from _texts(value, (field,), field, field in _FRONT)


def _texts(value: object, path: Path, field: str, is_front: bool) -> Iterator[PlacedText]:
    if isinstance(value, str):
        if field in _PROSE:
            yield PlacedText(path, plain_text(value), is_front)
    elif isinstance(value, Mapping):
        named = field in ("ingredients", "replacements")
        for name, inner in value.items():
            if named or name in _PROSE or name in _STRUCTURE:
                yield from _texts(inner, (*path, name), field if named and isinstance(inner, str) else name, is_front)
    elif isinstance(value, list):
        for position, inner in enumerate(value):
            yield from _texts(inner, (*path, position), field, is_front)
