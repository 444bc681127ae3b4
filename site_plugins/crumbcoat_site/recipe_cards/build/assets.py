"""The style sheets and scripts of the pages, in a folder named for their content: no page meets another build's."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_site.minified import minified

FOLDER = "assets/recipe_cards"
_FILES = Path(__file__).parents[1] / "theme" / FOLDER

CARDS = "cards.css"
"""What every page needs, as one sheet, in this order: a later part leans on the earlier ones."""
_CARDS = ("recipe_cards.css", "pictures.css", "science.css", "label.css", "amounts.css", "reader.css", "paper.css")

PAGES, HANDOUT = "pages.css", "handout.css"
"""Style sheets for pages that are not cards, and for pages with a handout."""

_ALONE = (PAGES, HANDOUT, "pictures.css", "bench.css")
"""Those, and what stands outside the theme, or what a script opens."""


@dataclass(frozen=True, slots=True)
class Assets:
    """`content` by place in the site; `sources` are the places in the theme that they were made from."""

    folder: str
    content: dict[str, bytes]
    sources: frozenset[str]

    def place(self, name: str) -> str:
        """The path of a file in the site."""
        return f"{self.folder}/{name}"


def assets(accents: str = "") -> Assets:
    """The files of `theme/assets/recipe_cards`, smaller, and the sheet of all pages.

    Args:
        accents: a style sheet of the site's own accents (`palette.accents_css`).
    """
    read = {path.name: path.read_text(encoding="utf-8") for path in sorted(_FILES.iterdir())}
    written = {name: source for name, source in read.items() if name.endswith(".js") or name in _ALONE}
    read["pictures.css"] += accents
    written["pictures.css"] = read["pictures.css"]
    written[CARDS] = "\n".join([read[name] for name in _CARDS])
    smaller = {name: minified(name, source) for name, source in sorted(written.items())}
    whole = hashlib.sha256(b"\0".join([name.encode() + b"\0" + content for name, content in smaller.items()]))
    folder = f"{FOLDER}/{whole.hexdigest()[:12]}"
    sources = frozenset([f"{FOLDER}/{name}" for name in read if name.endswith((".js", ".css"))])
    return Assets(folder, {f"{folder}/{name}": content for name, content in smaller.items()}, sources)
