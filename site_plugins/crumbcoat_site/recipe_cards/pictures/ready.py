"""A picture that is ready for pages: its size, colour and widths, and where its files are in the site."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.pictures.formats import SHOWN

FOLDER = "assets/pictures"
SHAPES: Mapping[str, tuple[int, int]] = {"1x1": (1, 1), "4x3": (4, 3), "16x9": (16, 9)}
"""What is cut out of a cover for those who ask for a picture of a certain shape."""


def stem_of(name: str) -> str:
    """What the files of a picture are called: letters that an address has as they are, since `srcset` has spaces.

    >>> stem_of("two milks.2-1b"), stem_of("крем")
    ('two-milks-2-1b', 'picture')
    """
    return re.sub("[^A-Za-z0-9_-]+", "-", name).strip("-") or "picture"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """`key` is that of its files in the cache; `width` and `height` are those of the largest.

    `colour` is what fills its place until it is there, None if something shows through it. `shapes` are the sizes of
    what is cut out of a cover, by shape.
    """

    key: str
    width: int
    height: int
    colour: str | None
    widths: tuple[int, ...]
    shapes: Mapping[str, tuple[int, int]]

    @classmethod
    def of(cls, facts: Mapping[str, Any]) -> "Ready":
        """From what `facts` gave."""
        shapes = {shape: (size[0], size[1]) for shape, size in facts["shapes"].items()}
        return cls(**{**facts, "widths": tuple(facts["widths"]), "shapes": shapes})

    @property
    def facts(self) -> dict[str, Any]:
        """As plain data."""
        return asdict(self)

    def place(self, stem: str, part: str) -> str:
        """Where one of its files is in the site: below a name made of its content, so that it can be kept for ever.

        Args:
            stem: what the file is called, such as the name of its recipe.
            part: such as `480.avif`, or `1x1.jpg`.
        """
        return f"{FOLDER}/{self.key[:12]}/{stem}-{part}"

    def places(self, stem: str) -> Iterator[tuple[str, str]]:
        """Where each of its files is in the site, and its name in the cache."""
        parts = [f"{width}.{ending}" for width in self.widths for ending in SHOWN]
        for part in [*parts, *(f"{shape}.jpg" for shape in self.shapes)]:
            yield self.place(stem, part), part


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A picture on one page: `start` is the address of the page from the root of the site."""

    ready: Ready
    stem: str
    start: str
    alt: str
    caption: str | None = None
    credit: str | None = None
    largest: int | None = None

    @property
    def sources(self) -> list[tuple[str, str]]:
        """The media type and the `srcset` of each format, the smallest first."""
        return [(kind, self._srcset(ending)) for ending, kind in SHOWN.items()]

    @property
    def src(self) -> str:
        """The address for a browser that knows no `srcset`."""
        return self._address(self._widths[min(2, len(self._widths) - 1)], "jpg")

    @property
    def _widths(self) -> tuple[int, ...]:
        widths = self.ready.widths
        return tuple(width for width in widths if width <= (self.largest or widths[-1])) or widths[:1]

    def _srcset(self, ending: str) -> str:
        return ", ".join([f"{self._address(width, ending)} {width}w" for width in self._widths])

    def _address(self, width: int, ending: str) -> str:
        return relative_address(self.ready.place(self.stem, f"{width}.{ending}"), self.start)


def shape_places(picture: Shown) -> list[str]:
    """Where a cover is in the site in several shapes, for other programs: square, 4 to 3, 16 to 9.

    >>> ready = Ready(key="0123456789abcdef", width=1600, height=1200, colour="#eee", widths=(1600,), shapes=SHAPES)
    >>> shape_places(Shown(ready=ready, stem="veil", start="creams/veil/", alt="A veil"))[0]
    'assets/pictures/0123456789ab/veil-1x1.jpg'
    """
    return [picture.ready.place(picture.stem, f"{shape}.jpg") for shape in picture.ready.shapes]


def whole_place(picture: Shown) -> str:
    """Where a picture is in the site as JPEG, as wide as it is published."""
    return picture.ready.place(picture.stem, f"{picture.ready.widths[-1]}.jpg")
