"""Short forms that a writer may use in a recipe file, written out before it is read; lines stay those of the file.

`yield: 12 cupcakes`; one text where there can be a list; names with spaces and capitals, such as `Egg whites`; a plain
cup, tablespoon, pint or fluid ounce, where a site has a region.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from crumbcoat_calc.errors import Path
from crumbcoat_calc.values.region import measures_in

from crumbcoat_site.recipe_cards.source.yaml_text import Document

_YIELD = re.compile(r"(\d+)\s+(\D.*)", re.DOTALL)
_USE = re.compile(r"[A-Za-z][\w -]*(/\s*[A-Za-z][\w -]*)?")
_LISTS = frozenset(
    ("passes", "notes", "keywords", "allergens", "may_contain", "made_of", "moved_from", "tips", "equipment")
)
_NAMES = frozenset(("ingredients", "portions", "kept_back", "shares", "replacements", "weighed"))
_USES = frozenset(("add", "makes"))
_AMOUNTS = frozenset(("amount", "portions", "kept_back", "weighed"))


def written_out(document: Document, region: str | None = None) -> Document:
    """The document without short forms.

    Args:
        region: that of the site, if it has one: a plain spoon or cup is then the usual one there.
    """
    writer = _Writer(document.lines, region)
    return Document(writer.value(document.data, (), ()), writer.new_lines)


@dataclass(slots=True)
class _Writer:
    lines: Mapping[Path, int]
    region: str | None
    new_lines: dict[Path, int] = field(default_factory=dict)

    def value(self, value: object, old: Path, new: Path) -> object:
        """The value at a place, written out; `old` is the place in the file, `new` the one that it gets."""
        if old in self.lines:
            self.new_lines.setdefault(new, self.lines[old])
        if isinstance(value, dict):
            names = self._names(value, new)
            return {names[name]: self.value(inner, (*old, name), (*new, names[name])) for name, inner in value.items()}
        if isinstance(value, list):
            return [self.value(inner, (*old, place), (*new, place)) for place, inner in enumerate(value)]
        return self._text(value, new) if isinstance(value, str) else value

    def _names(self, fields: Mapping[str, object], place: Path) -> dict[str, str]:
        """What each field is called: the names that writers give are made short, unless two would be the same."""
        if not place or place[-1] not in _NAMES or (place[-1] == "portions" and place[0] == "yield"):
            return {name: name for name in fields}
        short = {name: short_name(name) for name in fields}
        return short if len(set(short.values())) == len(fields) else {name: name for name in fields}

    def _text(self, text: str, place: Path) -> object:
        fields = [step for step in place if isinstance(step, str)]
        last = fields[-1] if fields else ""
        count = _YIELD.fullmatch(text.strip()) if place == ("yield",) else None
        if count:
            self.new_lines |= {("yield", name): self.new_lines[place] for name in ("portions", "of")}
            return {"portions": count[1], "of": count[2]}
        if place and place[-1] in _LISTS and text.strip():
            parts = [part.strip() for part in text.split(",")] if last == "keywords" else [text]
            return [part for part in parts if part]
        if last in _USES:
            return "/".join(short_name(part) for part in text.split("/")) if _USE.fullmatch(text.strip()) else text
        is_amount = last in ("amount", "cup", "density") or (len(fields) > 1 and fields[-2] in _AMOUNTS)
        is_amount = is_amount or (len(place) == 3 and place[:2] == ("changed", "ingredients"))
        return measures_in(self.region, text) if is_amount else text


def short_name(name: str) -> str:
    """A name that writers give, such as `Egg whites`, as the one that other fields refer to.

    >>> short_name("Egg whites"), short_name("2 eggs")
    ('egg_whites', '2_eggs')
    """
    return re.sub(r"\s+", "_", name.strip().lower())
