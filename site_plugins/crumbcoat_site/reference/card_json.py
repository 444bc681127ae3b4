"""The reference of card.json."""

from crumbcoat_site.recipe_cards.card.card_fields import CARD_FIELDS
from crumbcoat_site.reference.markdown import page, table

INTRO = """
Beside the page of each recipe there is a file `card.json`, with the figures of one batch as published for other
programs. They are the figures that the page shows, before rounding. A predicted figure never shows that a food is
safe to keep or to serve.
"""


def card_json_page() -> str:
    """The page as Markdown."""
    rows = [(f"`{path}`", description) for path, description in CARD_FIELDS]
    return page("card.json", "Every field of card.json", INTRO, table(("field", "what it holds"), rows))
