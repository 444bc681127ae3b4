"""Finished texts of a batch by name, one module a part of the page; the batch calculator puts them together."""

Section = dict[str, str | list[list[str]]]
"""One of several parts of a page that are all alike, with texts of its own."""

Texts = dict[str, str | list[list[str]] | list[Section]]
"""Finished texts by name; rows of cells fill a table; a name that begins with `picture.` holds SVG."""
