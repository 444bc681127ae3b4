"""The class of the options of our plug-ins, on which each of them builds."""

import os
from pathlib import Path

from mkdocs.config.base import Config, ConfigErrors, ConfigWarnings, ValidationError

from crumbcoat_site.plugin_options.written import WHERE, line_of, unknown_option


class PluginOptions(Config):
    """Options in mkdocs.yml. MkDocs only warns of a name that is not among them, and names no place."""

    def validate(self) -> tuple[ConfigErrors, ConfigWarnings]:
        """As MkDocs does, with the place of each option that is wrong, and an error for each that does not exist."""
        failed, warnings = super().validate()
        known = [name for name, _ in self._schema]
        plugin = type(self).__module__.split(".")[-2]
        file = Path(self.config_file_path) if self.config_file_path else None
        text = file.read_text(encoding="utf-8") if file and file.is_file() else ""
        shown = os.path.relpath(file) if file else "the configuration"
        placed = [
            (
                name,
                _error(shown, line_of(text, plugin, name), f"{name}: {error}\n    Fix: write another value; {WHERE}."),
            )
            for name, error in failed
        ]
        unknown = [
            (name, _error(shown, line_of(text, plugin, name), unknown_option(plugin, name, known)))
            for name in map(str, self)
            if name not in known
        ]
        return [*placed, *unknown], [(name, words) for name, words in warnings if name in known]


def _error(file: str, line: int | None, words: str) -> ValidationError:
    """On a line of its own, so that an editor finds the place."""
    return ValidationError(f"\n{file}:{line}: {words}" if line else f"\n{file}: {words}")
