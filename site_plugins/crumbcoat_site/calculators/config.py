"""The options of the `calculators` plug-in."""

from mkdocs.config import config_options as option

from crumbcoat_site.plugin_options.config import PluginOptions


class CalculatorsConfig(PluginOptions):
    """Options of `calculators` in mkdocs.yml."""

    cache = option.Type(str, default=".cache/crumbcoat")
    """The folder, relative to mkdocs.yml, that keeps the runtime until Crumbcoat or a package in it changes."""
