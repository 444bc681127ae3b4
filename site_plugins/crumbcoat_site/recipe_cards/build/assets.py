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
SHEETS = "sheets.css"
"""Of every page, of other pages than cards, of handouts, of pages outside the theme, of notebooks, of their sheets."""

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
    sheets = {name: sheet(*parts) for name, parts in _SHEETS.items()}
    smaller = {name: minified(name, source) for name, source in sorted((scripts | sheets).items())}
    whole = hashlib.sha256(b"\0".join([name.encode() + b"\0" + content for name, content in smaller.items()]))
    folder = f"{FOLDER}/{whole.hexdigest()[:12]}"
    sources = frozenset([f"{FOLDER}/{name}" for name in scripts])
    return Assets(folder, {f"{folder}/{name}": content for name, content in smaller.items()}, sources)


def sheet(*parts: str) -> str:
    """The parts of these names of all components as one style sheet; the tokens come with those called `shared`."""
    paths = [path for part in parts for path in sorted(COMPONENTS.glob(f"*/{part}.css"))]
    tokens = [COMPONENTS / "tokens.css"] if "shared" in parts else []
    return "\n".join([path.read_text(encoding="utf-8") for path in [*tokens, *paths]])
