"""The files that the cache keeps for each recipe, by their endings."""

MARKDOWN = "page.md"
"""Front matter, headings and words: all that MkDocs reads."""

ISLANDS = "islands.html"
"""The HTML of the card, which goes into the finished page."""

CARD_JSON = "card.json"
HANDOUT = "handout.html"
EMBED = "embed.html"

NOTEBOOK_MARKDOWN, NOTEBOOK_ISLANDS = "notebook.md", "notebook.html"
"""The same of the page of a recipe's trials."""

TRIAL_SHEETS = "sheets.html"
"""The sheets of a notebook to print: a whole page."""
