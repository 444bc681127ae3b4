"""The options of the `journal_skin` plug-in."""

from mkdocs.config import config_options as c

from crumbcoat_site.plugin_options.config import PluginOptions


class JournalSkinConfig(PluginOptions):
    """What can be set under `journal_skin:` in mkdocs.yml."""

    cover = c.Type(bool, default=True)
    """Whether the front page begins with a drawing of a cake."""
