"""JSON-LD -> items. No context is fetched: a name without an address is taken to be one of schema.org."""

import json
import re

from crumbcoat_site.bring_in.items import DEEPEST, MOST_ITEMS, Item, short_name

_AROUND = re.compile(r"^\s*(?:<!--|//\s*<!\[CDATA\[|<!\[CDATA\[)|(?://\s*\]\]>|\]\]>|(?://\s*)?-->)\s*;?\s*$")
_PLAIN = frozenset(("@type", "@id", "@context", "@graph", "@reverse", "@language"))


class JsonProblem(ValueError):
    """The text is not JSON: `line` is where, counted from 1 in the text."""

    def __init__(self, problem: str, line: int) -> None:
        super().__init__(problem)
        self.line = line


def items_of_json(text: str) -> list[Item]:
    """The items in the text of a script or a file.

    Line breaks inside texts, a comma too many and HTML comments around it all are common and are read.

    Raises:
        JsonProblem: if it is not JSON even so.

    >>> [item.types for item in items_of_json('{"@graph": [{"@type": "schema:Recipe", "name": "Veil",}]}')]
    [('Recipe',)]
    """
    whole, text = text, _AROUND.sub("", _AROUND.sub("", text.strip())).strip()
    try:
        data = _loaded(text)
    except json.JSONDecodeError as error:
        before = whole.count("\n", 0, max(0, whole.find(text)))
        raise JsonProblem(f"this is not JSON: {error.msg}", before + error.lineno) from None
    except RecursionError:
        raise JsonProblem("this is nested too deeply to be a recipe", 1) from None
    except ValueError as error:  # A number of thousands of digits.
        raise JsonProblem(f"this is not JSON: {error}", 1) from None
    reader = _Reader()
    return [value for value in reader.values(data, 0) if isinstance(value, Item)]


def _loaded(text: str) -> object:
    try:
        return json.loads(text, strict=False)
    except json.JSONDecodeError:
        return json.loads(_without_trailing_commas(text), strict=False)


def _without_trailing_commas(text: str) -> str:
    """The text without commas before a closing bracket, outside of texts."""
    return re.sub(
        r'("(?:[^"\\]|\\.)*+(?:"|$))|,(?=\s*[}\]])',
        lambda found: found[1] or "",
        text.removesuffix(";"),
        flags=re.DOTALL,
    )


class _Reader:
    def __init__(self) -> None:
        self._count = 0

    def values(self, data: object, depth: int) -> list[str | Item]:
        """The values in a piece of data: lists and wrappers of JSON-LD are taken apart."""
        if isinstance(data, list):
            return [value for entry in data for value in self.values(entry, depth + 1)] if depth < DEEPEST else []
        if isinstance(data, dict):
            return self._of_fields(data, depth)
        if data is None or isinstance(data, bool):
            return [] if data is None else [str(data).lower()]
        return [str(data) if not isinstance(data, float) else f"{data:.12g}"]

    def _of_fields(self, data: dict[str, object], depth: int) -> list[str | Item]:
        if depth >= DEEPEST or self._count >= MOST_ITEMS:
            return []
        for wrapper in ("@value", "@list", "@set"):
            if wrapper in data:
                return self.values(data[wrapper], depth + 1)
        self._count += 1
        item = Item(types=self._words(data.get("@type")), id=next(iter(self._words(data.get("@id"))), ""))
        for name, value in data.items():
            if name not in _PLAIN:
                for inner in self.values(value, depth + 1):
                    item.add(name, inner)
        inside = self.values(data["@graph"], depth + 1) if "@graph" in data else []
        return [*([item] if item.properties or item.types or item.id else []), *inside]

    @staticmethod
    def _words(value: object) -> tuple[str, ...]:
        listed = value if isinstance(value, list) else [value]
        return tuple([short_name(word) for word in listed if isinstance(word, str)])
