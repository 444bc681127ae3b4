"""The options of the `offline_pages` plugin."""

from mkdocs.config import base
from mkdocs.config import config_options as c


class OfflinePagesConfig(base.Config):
    """What can be set under `offline_pages:` in mkdocs.yml."""

    later = c.ListOfItems(c.Type(str), default=[])
    """Patterns of large files, such as `assets/runtime/*`, that are not kept ahead but when they are first used."""

    used = c.Type(str, default="")
    """A CSS selector: once something on a page matches it, the files of `later` have been used."""

    paper = c.Type(str, default="#fcf7ef")
    """The colour of the installed site's frame and of its first, empty page."""
