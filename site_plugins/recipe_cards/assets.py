"""The style sheets and scripts of the pages, in a folder named for their content: no page meets another build's."""

import hashlib
from pathlib import Path

FOLDER = "assets/recipe_cards"
_ORDER = ("recipe_cards.css", "pictures.css", "science.css", "label.css", "handout.css", "amounts.css")
WHEN_USED = "bench.css"
"""The sheet that a script brings along."""

_FILES = Path(__file__).parent / "theme" / FOLDER


def asset_places() -> dict[str, str]:
    """Where each style sheet and script of the folder stands in the site, by its place in the theme."""
    listed = [path for path in _FILES.iterdir() if path.suffix in (".css", ".js")]
    order = {name: number for number, name in enumerate(_ORDER)}  # A later sheet leans on the earlier ones.
    found = sorted(listed, key=lambda path: (order.get(path.name, len(order)), path.name))
    whole = hashlib.sha256()
    for path in found:
        whole.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return {f"{FOLDER}/{path.name}": f"{FOLDER}/{whole.hexdigest()[:12]}/{path.name}" for path in found}
