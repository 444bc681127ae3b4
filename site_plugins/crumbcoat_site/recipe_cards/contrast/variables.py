"""Style sheets -> the custom properties that a card has in one palette of a site."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from crumbcoat_site.recipe_cards.contrast.colours import split_arguments

CARD = ".cc-card"

_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_RULE = re.compile(r"([^{};]+)\{([^{}]*)\}")
_DECLARATION = re.compile(r"(?:^|[;\s])(--[\w-]+|color-scheme)\s*:\s*([^;]+)")
_SIMPLE = re.compile(r":not\(([^)]*)\)|\[([\w-]+)(?:=\"?([\w-]+)\"?)?\]|:root|html|body|\*|" + re.escape(CARD))


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """One entry of `theme.palette`, with the names that the theme writes into the page."""

    scheme: str = "default"
    primary: str = "indigo"
    accent: str = "indigo"

    @property
    def attributes(self) -> Mapping[str, str]:
        """The attributes of the page's body."""
        return {f"data-md-color-{kind}": getattr(self, kind) for kind in ("scheme", "primary", "accent")} | {
            "dir": "ltr"
        }


def palettes_of(setting: object) -> tuple[Palette, ...]:
    """The entries of `theme.palette` in mkdocs.yml, which is a mapping, a list of them, or nothing."""
    entries = setting if isinstance(setting, list | tuple) else [setting]
    found = []
    for entry in entries:
        chosen = entry if isinstance(entry, Mapping) else {}
        names = {key: str(chosen[key]).replace(" ", "-") for key in ("scheme", "primary", "accent") if chosen.get(key)}
        found.append(Palette(**names))
    return tuple(dict.fromkeys(found))


@dataclass(slots=True)
class Variables:
    """The custom properties of a card, as they are written; `dark` says which colour scheme is in use."""

    written: dict[str, str] = field(default_factory=dict)

    @property
    def dark(self) -> bool:
        """Whether the page is in the dark colour scheme of the browser."""
        return self.written.get("color-scheme", "").split()[:1] == ["dark"]

    def resolved(self, text: str, inside: frozenset[str] = frozenset()) -> str:
        """A value with every `var(…)` replaced; one that is not set stays as it is."""
        start = text.find("var(")
        if start < 0:
            return text
        depth = 0
        for end in range(start + 3, len(text)):
            depth += (text[end] == "(") - (text[end] == ")")
            if depth == 0:
                break
        name, *fallback = split_arguments(text[start + 4 : end], ",")
        known = None if name in inside else self.written.get(name)
        value = known if known is not None else ", ".join(fallback) or f"unset({name})"
        return self.resolved(text[:start] + self.resolved(value, inside | {name}) + text[end + 1 :], inside)


def variables_of(sheets: Iterable[str], palette: Palette) -> Variables:
    """What the sheets, in their order, set for a card on a screen in this palette.

    Only what rules for the page, its body and `.cc-card` set counts, and only on a screen.
    """
    found: list[tuple[tuple[int, bool, int, int], str, str]] = []
    for sheet in sheets:
        layers, plain = _parted(_COMMENT.sub("", sheet), "@layer")
        for layered, text in [*((True, layer) for layer in layers), (False, plain)]:
            for selectors, body in _RULE.findall(_parted(_parted(text, "@media print")[1], "@supports not")[1]):
                weights = [_weight(selector, palette.attributes) for selector in selectors.split(",")]
                if not any(weights):
                    continue
                nearest, weight = max(each for each in weights if each)
                for name, value in _DECLARATION.findall(body):
                    found.append(((nearest, not layered, weight, len(found)), name, value.strip()))
    return Variables({name: value for _, name, value in sorted(found)})


def _parted(sheet: str, at_rule: str) -> tuple[list[str], str]:
    """The bodies of at-rules that begin so, and the sheet without them."""
    bodies, rest, begin = [], "", 0
    while (start := sheet.find(at_rule, begin)) >= 0:
        opening, ending = sheet.find("{", start), sheet.find(";", start)
        if opening < 0 or 0 <= ending < opening:  # A statement, such as `@layer one, two;`.
            rest, begin = rest + sheet[begin:start], ending + 1
            continue
        end, depth = opening + 1, 1
        while depth and end < len(sheet):
            depth += (sheet[end] == "{") - (sheet[end] == "}")
            end += 1
        bodies.append(sheet[opening + 1 : end - 1])
        rest, begin = rest + sheet[begin:start], end
    return bodies, rest + sheet[begin:]


def _weight(selector: str, attributes: Mapping[str, str]) -> tuple[int, int] | None:
    """How near to the card a selector's element is, and what the selector weighs; None if it selects no such thing."""
    selector = selector.strip()
    weight = 0
    for compound in selector.split():
        position = 0
        for simple in _SIMPLE.finditer(compound):
            if simple.start() != position:
                return None
            position = simple.end()
            if simple[0].startswith(":not("):
                if _weight(simple[1], attributes):
                    return None
                weight += 1
            elif simple[2]:
                if simple[2] not in attributes or (simple[3] is not None and attributes[simple[2]] != simple[3]):
                    return None
                weight += 1
            elif simple[0] in (":root", CARD):
                weight += 1
        if position != len(compound) or not compound:
            return None
    last = selector.split()[-1] if selector else ""
    return (2 if CARD in last else 0 if last in (":root", "html", "*") else 1, weight) if selector else None
