"""Pictures as SVG text: elements, numbers in few decimals, words for screen readers, hatching that needs no colour.

Nothing here has a colour: classes begin with `cc-`, and a style sheet gives them one. A material also has its
own hatching, so that a picture in black and white shows the same.
"""

from collections.abc import Iterable, Sequence
from functools import cache, lru_cache
from html import escape

WIDTH = 320.0
"""The width of a picture in units, if it is not for a sheet of paper; one unit is one pixel on the narrowest screen."""

XMLNS = "http://www.w3.org/2000/svg"

TEXT, SMALL = 13.0, 11.0
"""Sizes of lettering, in units."""

MATERIALS: dict[str, tuple[float, float, str]] = {
    "fat": (6, 6, "M0 6L6 0M-1 1L1 -1M5 7L7 5"),
    "water": (12, 6, "M0 3Q3 .4 6 3T12 3"),
    "sugar": (6, 6, "M1.5 1.5h.01M4.5 4.5h.01"),
    "crystal": (8, 8, "M4 1.2L6.8 4L4 6.8L1.2 4Z"),
    "solids": (7, 7, "M0 0L7 7M7 0L0 7"),
    "protein": (5, 5, "M2.5 0V5"),
    "other": (8, 8, "M4 2.5V5.5M2.5 4H5.5"),
    "cake": (14, 11, "M2 3h1.6M8.5 1.8h1M11 7h1.6M5 8.4h1M6.5 5h.8"),
    "filling": (5, 5, "M0 0L5 5M4 -1L6 1M-1 4L1 6"),
    "dam": (4, 4, "M0 2H4"),
    "crumb-coat": (3, 3, "M1.5 0V3"),
    "final-coat": (1, 1, ""),
    "piping": (6, 6, "M0 3Q1.5 0 3 3T6 3"),
}
"""What has a hatching (width, height and path of its tile) and, in the style sheet, a colour of its own."""


@lru_cache(maxsize=512)
def number(value: float) -> str:
    """A coordinate with at most two decimals.

    >>> number(12.3456), number(-0.001), number(40.0)
    ('12.35', '0', '40')
    """
    shown = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


def element(tag: str, *children: str, **attributes: str | float) -> str:
    """An element; `children` are finished SVG, attribute values are escaped here.

    A `_` in an attribute's name becomes `-`, and one at its end is dropped (`class_`).

    >>> element("text", words("fat & water"), x=1.5, class_="cc-text")
    '<text x="1.5" class="cc-text">fat &amp; water</text>'
    """
    written = "".join(
        [
            f' {_written(name)}="{_safe(value) if isinstance(value, str) else number(value)}"'
            for name, value in attributes.items()
        ]
    )
    inside = "".join(children)
    return f"<{tag}{written}>{inside}</{tag}>" if inside else f"<{tag}{written}/>"


@cache
def _written(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


def _safe(value: str) -> str:
    # Looked for one by one: most values have none of them, and a picture asks a hundred times.
    if "&" in value or "<" in value or '"' in value or ">" in value or "'" in value:
        return escape(value)
    return value


def words(text: str) -> str:
    """Text escaped for use inside an element."""
    return escape(text, quote=False) if "&" in text or "<" in text or ">" in text else text


@lru_cache(maxsize=2048)
def label(x: float, y: float, text: str, *, kind: str = "cc-text", anchor: str = "start") -> str:
    """One line of lettering; `y` is its base line."""
    # Not by `element`: an edit changes two dozen of them, and this takes a quarter of the time.
    place = f'x="{number(x)}" y="{number(y)}" class="{kind}" text-anchor="{anchor}"'
    return f"<text {place}>{words(text)}</text>" if text else f"<text {place}/>"


@lru_cache(maxsize=1024)
def line(x1: float, y1: float, x2: float, y2: float, kind: str = "cc-rule") -> str:
    """A straight line."""
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, class_=kind)


def polygon_path(points: Iterable[tuple[float, float]]) -> str:
    """The path data of a closed polygon."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "Z"


def filled(key: str, material: str, path: str) -> str:
    """A shape of one material: its tint, and its hatching with its outline over it."""
    return "".join(filled_apart(key, material, path))


def filled_apart(key: str, material: str, path: str) -> tuple[str, str]:
    """The tint of a shape, and its hatching with its outline, for shapes that overlap."""
    fill = f"url(#{hatching_id(key, material)})"
    return (
        f'<path d="{path}" class="cc-tint cc-{material}"/>',
        f'<path d="{path}" class="cc-hatched cc-{material}" fill="{fill}"/>',
    )


def box_path(x: float, y: float, width: float, height: float) -> str:
    """The path data of a box; `width` is zero or more."""
    wide = number(width)
    return f"M{number(x)} {number(y)}h{wide}v{number(height)}h{'0' if wide == '0' else f'-{wide}'}Z"


def hatching_id(key: str, material: str) -> str:
    """The id of a material's hatching in the picture of this key."""
    return f"cc-{key}-{material}"


def hatchings(key: str, materials: Iterable[str]) -> str:
    """The hatchings that a picture uses, each once, in the order of MATERIALS."""
    return _hatchings(key, frozenset(materials))


@lru_cache(maxsize=64)
def _hatchings(key: str, wanted: frozenset[str]) -> str:
    patterns = [
        element(
            "pattern",
            element("path", d=path, class_=f"cc-hatch cc-{material}") if path else element("g"),
            id=hatching_id(key, material), width=width, height=height, patternUnits="userSpaceOnUse",
        )
        for material, (width, height, path) in MATERIALS.items()
        if material in wanted
    ]  # fmt: skip
    return element("defs", *patterns) if patterns else ""


def picture(key: str, height: float, title: str, description: str, *children: str, width: float = WIDTH) -> str:
    """A whole picture.

    Args:
        key: a short name that is unique on the page; ids begin with `cc-` and it.
        height: in units.
        width: in units.
        title: what the picture is.
        description: all that it says, in words, for those who do not see it.
    """
    return element(
        "svg",
        element("title", words(title), id=f"cc-{key}-title"),
        element("desc", words(description), id=f"cc-{key}-desc"),
        *children,
        xmlns=XMLNS,
        class_="cc-picture",
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=width,
        height=height,
        role="img",
        aria_labelledby=f"cc-{key}-title cc-{key}-desc",
    )


_NARROW, _WIDE = frozenset("iljtfr.,:;'|!()[] ·-1"), frozenset("mwMWGOQ%@&—–⌀½¼¾⅓⅔")


@lru_cache(maxsize=2048)
def width_of(text: str, size: float = TEXT) -> float:
    """About how wide a line of lettering is, in units; rather too much than too little.

    >>> width_of("will") < width_of("mmmm")
    True
    """
    return size * sum([0.36 if letter in _NARROW else 0.92 if letter in _WIDE else 0.6 for letter in text])


def shortened(text: str, room: float, size: float = TEXT) -> str:
    """The text, cut with an ellipsis where it is too wide; the full text belongs into the description.

    >>> shortened("a rather long name of a stage", 60)
    'a rather…'
    """
    if width_of(text, size) <= room:
        return text
    while text and width_of(text + "…", size) > room:
        text = text[:-1]
    return text.rstrip() + "…"


@lru_cache(maxsize=1024)
def lines_of(text: str, room: float) -> tuple[str, ...]:
    """The text broken into lines that fit; a word wider than the room is cut.

    >>> lines_of("butter and sugar creamed", 90)
    ('butter and', 'sugar', 'creamed')
    """
    lines: list[str] = []
    for word in text.split():
        if lines and width_of(f"{lines[-1]} {word}") <= room:
            lines[-1] += f" {word}"
        else:
            lines.append(shortened(word, room))
    return tuple(lines)


def ticks(highest: float, wanted: int = 4) -> tuple[float, ...]:
    """Round numbers from zero to at least the highest value, in about `wanted` steps of 1, 2, 2.5 or 5 times tens.

    >>> ticks(83), ticks(7.2)
    ((0.0, 25.0, 50.0, 75.0, 100.0), (0.0, 2.0, 4.0, 6.0, 8.0))
    """
    if highest <= 0:
        return (0.0, 1.0)
    power = 10.0
    while power > highest / wanted:
        power /= 10
    while power * 10 <= highest / wanted:
        power *= 10
    step = next(step for step in (1, 2, 2.5, 5, 10) if step * power * wanted >= highest * (1 - 1e-9)) * power
    count = -int(-highest * (1 - 1e-9) // step)
    return tuple([round(step * n, 9) for n in range(count + 1)])


def sentence(title: str, facts: Sequence[str]) -> str:
    """A description from facts: `title: one; two; three.`"""
    return f"{title}: {'; '.join(facts)}." if facts else f"{title}."
