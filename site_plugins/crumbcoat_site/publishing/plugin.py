"""The `publishing` plug-in: the hook that puts into a finished site what its host needs."""

from pathlib import Path
from typing import Literal

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger

from crumbcoat_site.publishing.config import PublishingConfig
from crumbcoat_site.publishing.policy import allow_problem
from crumbcoat_site.publishing.site_files import publish

_LOG = get_plugin_logger("publishing")


class Publishing(BasePlugin[PublishingConfig]):
    """Writes the security policy and the headers of the finished site for its host."""

    serving = False

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """`mkdocs serve` puts a script of its own into pages."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Align the cells of Markdown's tables by an attribute that a strict policy lets be."""
        problem = allow_problem(self.config.allow)
        if problem:
            raise PluginError(f"publishing: allow: {problem}.")
        config.mdx_configs.setdefault("tables", {}).setdefault("use_align_attribute", True)
        return config

    @event_priority(-90)  # When every page is written, and before a service worker is made of them.
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Write the files of the host, and say what the policy would refuse."""
        if not self.serving:
            for note in publish(Path(config.site_dir), self.config.host, self.config.allow, config.site_url or ""):
                _LOG.warning(f"{note}.")
