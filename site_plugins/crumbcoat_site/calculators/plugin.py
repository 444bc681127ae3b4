"""The `calculators` plug-in: hooks that hand the browser's files to MkDocs."""

from pathlib import Path

from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files

from crumbcoat_site.calculators.artefacts import ArtefactError, artefacts
from crumbcoat_site.calculators.assets import assets
from crumbcoat_site.calculators.bundle import BundleError
from crumbcoat_site.calculators.config import CalculatorsConfig
from crumbcoat_site.calculators.node import NodeError

_LOG = get_plugin_logger("calculators")


class Calculators(BasePlugin[CalculatorsConfig]):
    """Adds the runtime, the worker and the calculator element to a site."""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Find the runtime, or make it, and add the script and the style sheet to every page."""
        try:
            self.runtime = artefacts(Path(config.config_file_path).parent / self.config.cache)
        except (ArtefactError, BundleError, NodeError) as error:
            raise PluginError(f"calculators: {error}") from None
        if self.runtime.drawback:
            _LOG.info(self.runtime.drawback)
        self.assets = assets(self.runtime)
        script = ExtraScriptValue(self.assets.script)
        script.type = "module"
        config.extra_javascript.append(script)
        config.extra_css.append(self.assets.style)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the runtime's files and the scripts."""
        for place, path in self.runtime.files.items():
            files.append(File.generated(config, place, abs_src_path=str(path)))
        for name, content in self.assets.content.items():
            files.append(File.generated(config, f"{self.assets.folder}/{name}", content=content))
        return files
