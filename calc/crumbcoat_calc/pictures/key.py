"""The key below a picture: a swatch, a name and a figure a line, joined by a thin rule."""

from dataclasses import dataclass
from functools import lru_cache

from crumbcoat_calc.pictures.drawing import SMALL, WIDTH, box_path, element, filled, label, line, lines_of, width_of

ROW, LINE, SWATCH = 26.0, 16.0, 16.0


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """A line of the key: the mark is a material with its hatching, or a number in a ring."""

    mark: str
    name: str
    text: str


def key_rows(key: str, entries: list[KeyEntry], top: float) -> tuple[str, float]:
    """The key as SVG, and where it ends; names that are too long take two lines or more.

    The rule from name to figure runs below both, and the style sheet clears it around the lettering.
    """
    drawn: list[str] = []
    y = top
    for entry in entries:
        figure = width_of(entry.text)
        names = lines_of(entry.name, WIDTH - SWATCH - 10 - figure - 14)
        base = y + 17
        last = base + (len(names) - 1) * LINE
        drawn.append(line(SWATCH + 12, last - 4, WIDTH - 2, last - 4, "cc-leader"))
        drawn.append(_mark(key, entry.mark, y + 5))
        drawn.extend([label(SWATCH + 10, base + n * LINE, name) for n, name in enumerate(names)])
        drawn.append(label(WIDTH, last, entry.text, kind="cc-text cc-figure", anchor="end"))
        y += ROW + (len(names) - 1) * LINE
    return "".join(drawn), y


@lru_cache(maxsize=512)
def _mark(key: str, mark: str, y: float) -> str:
    if mark.isdigit():
        ring = element("circle", cx=SWATCH / 2, cy=y + SWATCH / 2, r=SWATCH / 2, class_="cc-ring")
        base = y + SWATCH / 2 + SMALL * 0.36
        return ring + label(SWATCH / 2, base, mark, kind="cc-small", anchor="middle")
    return filled(key, mark, box_path(0.5, y + 0.5, SWATCH - 1, SWATCH - 1))
