"""The options of the `findable_pages` plug-in."""

from mkdocs.config import config_options as option

from crumbcoat_site.plugin_options.config import PluginOptions


class FindablePagesConfig(PluginOptions):
    """Options of `findable_pages` in mkdocs.yml."""

    feeds = option.Type(bool, default=True)
    """Whether the site has feeds of its newest pages: `feed.xml` (Atom) and `feed.json` (JSON Feed). Recipes with a
    `published` date are in them, and other pages with one in their front matter. Feeds need `site_url`."""
