"""Whether everything in a card can be read and seen in the palettes of a site: WCAG 2.2, 1.4.3 and 1.4.11."""

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from crumbcoat_site.recipe_cards.build.assets import COMPONENTS
from crumbcoat_site.recipe_cards.contrast.colours import Colour, UnknownColourError, colour_of, contrast, hex_of
from crumbcoat_site.recipe_cards.contrast.variables import Palette, Variables, variables_of

TEXT, GRAPHICS = 4.5, 3.0
"""The least contrast of text, and of what one must see to use or understand something."""

GROUNDS = ("paper", "leaf", "butter-leaf")
MATERIALS = (
    "fat",
    "water",
    "sugar",
    "crystal",
    "solids",
    "protein",
    "other",
    "cake",
    "crumb-coat",
    "final-coat",
)

PAIRS: Sequence[tuple[str, str, float]] = (
    *((front, ground, TEXT) for front in ("ink", "quiet", "accent", "rust") for ground in GROUNDS),
    *((front, "butter-leaf", TEXT) for front in ("sage",)),
    *(("accent-deep", ground, TEXT) for ground in ("paper", "leaf")),
    *(("paper", ground, TEXT) for ground in ("accent", "accent-deep")),
    ("ink", "butter", TEXT),
    *(("edge", ground, GRAPHICS) for ground in GROUNDS),
    ("sage", "leaf", GRAPHICS),
    *((material, "paper", GRAPHICS) for material in MATERIALS),
)
"""What is painted on what, by the names of tokens, and the contrast that it needs."""


def low_contrasts(sheets: Sequence[str], palette: Palette) -> Iterator[tuple[str, str, float, float]]:
    """Each pair of tokens with too little contrast in a palette, with the contrast it has and the one it needs.

    A colour that is written in a way that is not known here is passed over.

    Args:
        sheets: the theme's style sheets and the site's own, in their order.
    """
    variables = variables_of([(COMPONENTS / "tokens.css").read_text(encoding="utf-8"), *sheets], palette)
    for front, ground, least in PAIRS:
        try:
            found = contrast(_token(variables, front), _token(variables, ground))
        except UnknownColourError:
            continue
        if found < least:
            yield front, ground, found, least


def token_colours(palette: Palette, sheets: Sequence[str], names: Iterable[str]) -> dict[str, str]:
    """Tokens of cards in a palette, each as `#rrggbb`; one that is written in a way not known here is left out."""
    variables = variables_of([(COMPONENTS / "tokens.css").read_text(encoding="utf-8"), *sheets], palette)
    found = {}
    for name in names:
        try:
            found[name] = hex_of(_token(variables, name))
        except UnknownColourError:
            continue
    return found


def contrast_problems(palettes: Iterable[Palette], sheets: Sequence[str]) -> Iterator[str]:
    """For each palette in which something in a card cannot be read: the place, the problem and the remedy.

    Without a style sheet nothing is known of the site's colours.
    """
    for palette in palettes if sheets else ():
        low = sorted(low_contrasts(sheets, palette), key=lambda pair: pair[2] / pair[3])
        if low:
            front, ground, found, least = low[0]
            yield (
                f"mkdocs.yml: theme.palette: with scheme {palette.scheme!r}, primary {palette.primary!r} and accent "
                f"{palette.accent!r}, --cc-{front} on --cc-{ground} has a contrast of {found:.1f} to 1 in cards, and "
                f"{least:g} is the least{_others(len(low) - 1)}.\n    Fix: choose other colours, or set one of the two "
                "in a style sheet of your own: .cc-card { --cc-" + front + ": … }"
            )


_OF_THE_SITE = (
    ("links", "--md-typeset-a-color", "--md-default-bg-color"),
    ("the words of the header", "--md-primary-bg-color", "--md-primary-fg-color"),
    ("links under the pointer", "--md-accent-fg-color", "--md-default-bg-color"),
)
"""What a site can colour outside cards, and on what: in words, and by Material's variables."""


def site_contrast_problems(palettes: Iterable[Palette], theme: Sequence[str], own: Sequence[str]) -> Iterator[str]:
    """For each colour that a site's own style sheets set outside cards and that cannot be read: place, problem, remedy.

    What Material itself has is not judged here.
    """
    for palette in palettes if own else ():
        variables = variables_of([*theme, *own], palette)
        for words, front, ground in _OF_THE_SITE:
            if not any(name in sheet for name in (front, ground) for sheet in own):
                continue
            try:
                colours = [colour_of(variables.resolved(f"var({name})"), variables.dark) for name in (front, ground)]
            except UnknownColourError:
                continue
            found = contrast(*colours)
            if found < TEXT:
                yield (
                    f"extra_css: with scheme {palette.scheme!r}, {words} have a contrast of {found:.1f} to 1, and "
                    f"{TEXT:g} is the least.\n    Fix: choose another colour for {front} or {ground}."
                )


def theme_sheets(folders: Iterable[str]) -> list[str]:
    """The style sheets of Material that hold its colours, from the folders of a theme; none if it is another theme."""
    names = ("assets/stylesheets/main.*.css", "assets/stylesheets/palette.*.css")
    found = [path for name in names for folder in folders for path in sorted(Path(folder).glob(name))]
    return [path.read_text(encoding="utf-8") for path in found]


def _token(variables: Variables, name: str) -> Colour:
    return colour_of(variables.resolved(f"var(--cc-{name})"), variables.dark)


def _others(count: int) -> str:
    return "" if not count else f" ({count} more {'is' if count == 1 else 'are'} too low)"
