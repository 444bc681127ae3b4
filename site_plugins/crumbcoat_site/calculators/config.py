"""The options of the `calculators` plug-in."""

from mkdocs.config import base
from mkdocs.config import config_options as c


class CalculatorsConfig(base.Config):
    """What can be set under `calculators:` in mkdocs.yml."""

    cache = c.Type(str, default=".cache/crumbcoat")
    """Folder, relative to mkdocs.yml, that keeps the runtime and its snapshot until one of their inputs changes."""
