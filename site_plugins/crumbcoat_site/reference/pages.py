"""Every reference page that is written from code, by its file."""

from collections.abc import Callable, Mapping
from pathlib import Path

from crumbcoat_site.reference.card_json import card_json_page
from crumbcoat_site.reference.card_sentences import card_sentences_page
from crumbcoat_site.reference.kinds import kinds_page
from crumbcoat_site.reference.options import options_page
from crumbcoat_site.reference.publishing import publishing_page
from crumbcoat_site.reference.recipe_file import recipe_file_page
from crumbcoat_site.reference.trial_file import trial_file_page
from crumbcoat_site.reference.why_this_holds import why_this_holds_page

FOLDER = Path(__file__).parents[3] / "recipes" / "reference"

PAGES: Mapping[str, Callable[[], str]] = {
    "recipe-file.md": recipe_file_page,
    "trial-file.md": trial_file_page,
    "kinds.md": kinds_page,
    "options.md": options_page,
    "card-json.md": card_json_page,
    "publishing.md": publishing_page,
    "why-this-holds.md": why_this_holds_page,
    "card-sentences.md": card_sentences_page,
}


def write_pages(folder: Path = FOLDER) -> list[Path]:
    """Write every page into the folder, and give the files."""
    files = []
    for name, text in PAGES.items():
        files.append(folder / name)
        files[-1].write_text(text(), encoding="utf-8")
    return files
