"""The files that the cache keeps of a page, by their endings."""

MARKDOWN, ISLANDS, CARD_JSON, HANDOUT = "page.md", "islands.html", "card.json", "handout.html"
"""Endings of what the cache keeps of a page as files: headings and words as Markdown, the islands of HTML, and two
files of the site."""
