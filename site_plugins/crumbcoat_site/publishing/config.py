"""The options of the `publishing` plug-in."""

from mkdocs.config import config_options as option

from crumbcoat_site.plugin_options.config import PluginOptions


class PublishingConfig(PluginOptions):
    """Options of `publishing` in mkdocs.yml."""

    host = option.Optional(option.Choice(("headers", "apache", "nginx", "pages")))
    """Where the site goes. `headers`: a host that reads a file `_headers`. `apache`: Apache, which reads `.htaccess`.
    `nginx`: nginx, which includes `nginx.conf`. `pages`: the pages of a forge, or another host that sends no headers
    of yours; each page then names the security policy itself. Without it no such file is written."""

    allow = option.Type(dict, default={})
    """Further sources by directive of the security policy, such as `{frame-src: [https://video.example]}`, for what
    your pages show from other sites."""
