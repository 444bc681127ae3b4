"""The options of our plug-ins in mkdocs.yml that do not exist, with their places."""

import os

from crumbcoat_site.command.reports import Report
from crumbcoat_site.command.site_files import SiteFiles
from crumbcoat_site.plugin_options.written import options_in, unknown_parts
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.reference.options import PLUGINS


def option_reports(site: SiteFiles) -> list[Report]:
    """A report of mkdocs.yml, if it names an option that does not exist."""
    text, shown = site.config.read_text(encoding="utf-8"), os.path.relpath(site.config)
    problems = []
    for plugin, _, config in PLUGINS:
        known = [name for name, _ in config()._schema]
        wrong = [(name, line) for name, line in options_in(text, plugin).items() if name not in known]
        problems += [SourceError(shown, line, *unknown_parts(plugin, name, known)) for name, line in wrong]
    return [Report(shown, tuple(problems), ())] if problems else []
