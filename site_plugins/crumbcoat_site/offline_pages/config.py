"""The options of the `offline_pages` plug-in."""

from mkdocs.config import config_options as option

from crumbcoat_site.plugin_options.config import PluginOptions


class OfflinePagesConfig(PluginOptions):
    """Options of `offline_pages` in mkdocs.yml."""

    large_files = option.ListOfItems(option.Type(str), default=[])
    """Patterns of large files, such as `assets/runtime/*`, that the browser keeps when they are first used. All other
    files that every page needs are kept ahead of use."""

    large_files_in_use = option.Type(str, default="")
    """A CSS selector, such as `recipe-calculator[data-state=live]`: a page that matches it has used the large files."""

    background = option.Type(str, default="#fcf7ef")
    """The colour of the installed site's frame, and of the screen before its first page appears."""
