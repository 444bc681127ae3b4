"""Finds the site around a folder: its mkdocs.yml, its pages and its recipe files."""

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from crumbcoat_site.recipe_cards.source.trial_folders import FOLDER_ENDING, is_in_a_trial_folder
from crumbcoat_site.recipe_cards.source.usual_names import INGREDIENTS, PRICES, SUFFIX

NAMES = ("mkdocs.yml", "mkdocs.yaml", "properdocs.yml", "properdocs.yaml")


class _Loader(yaml.SafeLoader):
    """Reads a configuration of MkDocs; values with a tag, such as `!ENV`, are not needed here, and read as empty."""


_Loader.add_multi_constructor("", lambda loader, tag, node: None)


class SiteFilesError(Exception):
    """There is no site here, or no such file; the text has place, problem and remedy."""


@dataclass(frozen=True, slots=True)
class SiteFiles:
    """The settings of a site that say where its files are."""

    config: Path
    docs: Path
    site: Path
    prices: Path
    ingredients: Path
    suffix: str
    region: str | None
    title: str
    author: str
    url: str
    publishing: Mapping[str, Any]

    @property
    def recipes(self) -> list[Path]:
        """Every recipe file, in the order of the alphabet."""
        found = (path for path in recipes_below(self.docs, self.suffix) if path != self.ingredients)
        return [path for path in found if not any(part.startswith(".") for part in path.parts[len(self.docs.parts) :])]

    def name_of(self, recipe: Path) -> str:
        """The path of a recipe file in docs_dir, without its ending."""
        return recipe.relative_to(self.docs).as_posix().removesuffix(self.suffix)


def recipes_below(folder: Path, suffix: str) -> list[Path]:
    """The recipe files of a folder and those in it, in the order of the alphabet, without trials."""
    return sorted(path for path in folder.rglob(f"*{suffix}") if not is_in_a_trial_folder(path.as_posix()))


def site_of(file: Path) -> SiteFiles | None:
    """The site that a recipe file is in; None if it is in none, or its configuration cannot be read."""
    try:
        return site_around(file.resolve().parent)
    except SiteFilesError:
        return None


def site_around(folder: Path) -> SiteFiles:
    """The site in this folder or in one around it.

    Raises:
        SiteFilesError: if there is none, or if its configuration cannot be read.
    """
    for place in (folder, *folder.parents):
        for name in NAMES:
            if (place / name).is_file():
                return _site_of(place / name)
    problem = f"{_shown(folder)}: there is no {NAMES[0]} here or in a folder around it."
    raise SiteFilesError(
        f"{problem}\n    Fix: go to the folder of your site, or begin one: `crumbcoat new-site my-kitchen`."
    )


def files_of(named: Sequence[Path]) -> list[Path]:
    """The files that were named, with all recipe files of folders among them; of a folder of trials, the trials.

    Raises:
        SiteFilesError: if one does not exist.
    """
    files: list[Path] = []
    for path in named:
        if path.is_dir() and path.resolve().name.endswith(FOLDER_ENDING):
            files += sorted(path.glob(f"*{SUFFIX}"))
        elif path.is_dir():
            files += recipes_below(path, SUFFIX)
        elif path.is_file():
            files.append(path)
        else:
            raise SiteFilesError(f"{path}: there is no such file.\n    Fix: name a recipe file, or none to check all.")
    return files


def _site_of(config: Path) -> SiteFiles:
    try:
        settings = yaml.load(config.read_text(encoding="utf-8"), _Loader) or {}
    except yaml.YAMLError as error:
        raise SiteFilesError(f"{_shown(config)}: {error}.\n    Fix: put the line right.") from None
    options = _options(settings.get("plugins"), "recipe_cards")
    region = options.get("region")
    docs = config.parent / str(settings.get("docs_dir", "docs"))
    return SiteFiles(
        config=config,
        docs=docs,
        site=config.parent / str(settings.get("site_dir", "site")),
        prices=docs / str(options.get("prices", PRICES)),
        ingredients=docs / str(options.get("ingredients", INGREDIENTS)),
        suffix=str(options.get("suffix", SUFFIX)),
        region=str(region) if region else None,
        title=str(settings.get("site_name") or "This kitchen"),
        author=str(settings.get("site_author") or settings.get("site_name") or "This kitchen"),
        url=str(settings.get("site_url") or ""),
        publishing=_options(settings.get("plugins"), "publishing"),
    )


def _options(plugins: Any, wanted: str) -> dict[str, Any]:
    """The options of one of the plug-ins, however they are listed."""
    entries = plugins.items() if isinstance(plugins, dict) else ()
    listed = plugins if isinstance(plugins, list) else []
    for name, options in [*entries, *(pair for entry in listed if isinstance(entry, dict) for pair in entry.items())]:
        if name == wanted and isinstance(options, dict):
            return options
    return {}


def _shown(path: Path) -> str:
    return os.path.relpath(path)
