"""The style sheets and scripts of the pages, in a folder named for their content: no page meets another build's."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_site.minified import minified

FOLDER = "assets/recipe_cards"
_PLUGIN = Path(__file__).parents[1]
_SCRIPTS = _PLUGIN / "theme" / FOLDER

COMPONENTS = _PLUGIN / "components"
"""One folder a component: its templates, its style sheet, an example of it and its test."""

CARDS, PAGES, HANDOUT, SHARED, NOTEBOOK = "cards.css", "pages.css", "handout.css", "shared.css", "notebook.css"
SHEETS, EMBED = "sheets.css", "embed.css"
"""Of every page, of other pages than cards, of handouts, of pages outside the theme, of notebooks, of their sheets, and
of cards in pages of other sites."""

_EMBED = _PLUGIN / "embed"

_SHEETS = {
    CARDS: ("shared", "card"),
    PAGES: ("page",),
    HANDOUT: ("handout",),
    SHARED: ("shared",),
    NOTEBOOK: ("notebook",),
    SHEETS: ("sheets",),
    "bench.css": ("bench",),
}
"""Each sheet of the site, and what the parts of it are called in the folders of components: `card` is every `card.css`.

Components come by name, and their order does not matter: none styles an element of another by a selector that weighs
no more than the other's. `bench.css` is loaded by the script that needs it."""


_NOT_EMBEDDED = frozenset(
    {"bakers_percentages", "cake", "class_card", "cost", "draft", "figures_table", "keep_trial", "known_figures",
     "label", "more_recipes", "picture", "science", "warming", "wide_table"}
)  # fmt: skip
"""Components that no card in a page of another site shows, so that their styles are not sent with it."""


@dataclass(frozen=True, slots=True)
class Assets:
    """`content` by place in the site; `sources` are the places in the theme that they were made from."""

    folder: str
    content: dict[str, bytes]
    sources: frozenset[str]

    def place(self, name: str) -> str:
        """The path of a file in the site."""
        return f"{self.folder}/{name}"


def assets() -> Assets:
    """The scripts and style sheets, smaller."""
    scripts = {path.name: path.read_text(encoding="utf-8") for path in sorted(_SCRIPTS.glob("*.js"))}
    sheets = {name: sheet(*parts) for name, parts in _SHEETS.items()} | {EMBED: _embed_sheet()}
    smaller = {name: minified(name, source) for name, source in sorted((scripts | sheets).items())}
    whole = hashlib.sha256(b"\0".join([name.encode() + b"\0" + content for name, content in smaller.items()]))
    folder = f"{FOLDER}/{whole.hexdigest()[:12]}"
    sources = frozenset([f"{FOLDER}/{name}" for name in scripts])
    return Assets(folder, {f"{folder}/{name}": content for name, content in smaller.items()}, sources)


def host_script() -> bytes:
    """The script for pages of other sites, smaller."""
    return minified("embed.js", (_EMBED / "host.js").read_text(encoding="utf-8"))


def _embed_sheet() -> str:
    ground = (_EMBED / "ground.css").read_text(encoding="utf-8")
    return ground + sheet("shared", "card", "embed", without=_NOT_EMBEDDED)


def sheet(*parts: str, without: frozenset[str] = frozenset()) -> str:
    """The parts of these names of all components as one style sheet; the tokens come with those called `shared`.

    Args:
        without: components that are left out.
    """
    paths = [path for part in parts for path in sorted(COMPONENTS.glob(f"*/{part}.css"))]
    paths = [path for path in paths if path.parent.name not in without]
    tokens = [COMPONENTS / "tokens.css"] if "shared" in parts else []
    return "\n".join([path.read_text(encoding="utf-8") for path in [*tokens, *paths]])
