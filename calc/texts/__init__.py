"""Finished texts of a batch by name, one module a part of the page; the batch calculator puts them together."""

Texts = dict[str, str | list[list[str]]]
"""Finished texts by name; rows of cells fill a table; a name that begins with `picture.` holds SVG."""
