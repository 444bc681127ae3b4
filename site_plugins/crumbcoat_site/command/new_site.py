"""A new site: a folder with everything that it needs, and nothing of ours in its words or pictures."""

import datetime
import json
import os
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from crumbcoat_site.command.choices import COLOURS, REGIONS, VOICES

FILES = Path(__file__).parent / "new_site_files"

_CURRENCIES = {"UK": "GBP", "EU": "EUR", "US": "USD"}
_FOR_A_CLASS = "docs/calculators/handout.md.jinja"
_SCHEMA = "recipe.schema.json"
_TRIAL_SCHEMA = "trial.schema.json"

Ask = Callable[[str, str, tuple[str, ...]], str]
"""Puts a question, with the usual answer and what can be chosen, and gives the answer."""


class SiteError(Exception):
    """The site was not begun; the text has place, problem and remedy."""


@dataclass(frozen=True, slots=True)
class SitePlan:
    """What a new site is to be."""

    folder: Path
    title: str
    author: str
    region: str
    voice: str
    colours: tuple[str, ...]
    today: str

    @staticmethod
    def of(folder: Path, given: Mapping[str, str], ask: Ask | None) -> "SitePlan":
        """The plan from what was given; what is missing is asked for, or what is usual is taken.

        Args:
            given: `title`, `author`, `region`, `voice` and `colours`, each if it was given.
            ask: how a question is put; None to put none.
        """
        usual_title = re.sub(r"[\W_]+", " ", folder.resolve().name).strip().capitalize() or "My kitchen"
        questions = (
            ("title", "The name of the site", usual_title, ()),
            ("author", "Who writes the recipes: a name (Enter: that of the site)", "", ()),
            ("region", "Whose words, units and labels come first", REGIONS[0], REGIONS),
            ("voice", "Cards for home, or for a class with handouts", VOICES[0], VOICES),
            ("colours", "Colours", next(iter(COLOURS)), tuple(COLOURS)),
        )
        chosen = dict(given)
        for name, question, usual, choices in questions:
            if name not in chosen:
                chosen[name] = ask(question, usual, choices) if ask else usual
        return SitePlan(
            folder=folder,
            title=" ".join(chosen["title"].split()),
            author=" ".join(chosen["author"].split()) or " ".join(chosen["title"].split()),
            region=chosen["region"],
            voice=chosen["voice"],
            colours=COLOURS[chosen["colours"]],
            today=datetime.date.today().isoformat(),
        )

    @property
    def version(self) -> str:
        """That of Crumbcoat."""
        return version("crumbcoat")

    @property
    def is_class(self) -> bool:
        """Whether there are handouts."""
        return self.voice == "class"

    @property
    def currency(self) -> str:
        """That of the region, by ISO 4217."""
        return _CURRENCIES[self.region]

    @property
    def on_header(self) -> tuple[str, str]:
        """White or near black, whichever is easier to read on the header, light and dark."""
        from crumbcoat_site.recipe_cards.contrast.colours import colour_of, contrast

        def best(ground: str) -> str:
            inks = ("#ffffff", "#1c1714")
            return max(inks, key=lambda ink: contrast(colour_of(ink, False), colour_of(ground, False)))

        return best(self.colours[0]), best(self.colours[3])


def write_site(plan: SitePlan) -> list[Path]:
    """Write the files of a site, and give their paths in its folder.

    Raises:
        SiteError: if the folder has something in it, or cannot be written.
    """
    shown = os.path.relpath(plan.folder)
    if plan.folder.exists() and (not plan.folder.is_dir() or any(plan.folder.iterdir())):
        problem = f"{shown}: this folder is not empty" if plan.folder.is_dir() else f"{shown}: this is a file"
        remedy = "name a new folder; to add cards to a site that you have, put the plug-ins into its mkdocs.yml"
        raise SiteError(f"{problem}.\n    Fix: {remedy}.")
    from crumbcoat_site.recipe_cards.source.schema import recipe_schema
    from crumbcoat_site.recipe_cards.source.trial_schema import trial_schema

    content = _rendered(plan)
    for name, schema in ((_SCHEMA, recipe_schema()), (_TRIAL_SCHEMA, trial_schema())):
        content[Path(name)] = json.dumps(schema, ensure_ascii=False, indent=1) + "\n"
    try:
        for path, text in content.items():
            (plan.folder / path).parent.mkdir(parents=True, exist_ok=True)
            (plan.folder / path).write_text(text, encoding="utf-8")
    except OSError as error:
        raise SiteError(f"{shown}: {error.strerror}.\n    Fix: choose a folder that you may write to.") from None
    return sorted(content)


def _rendered(plan: SitePlan) -> dict[Path, str]:
    templates = Environment(
        loader=FileSystemLoader(FILES), undefined=StrictUndefined, trim_blocks=True, keep_trailing_newline=True
    )
    templates.filters["yaml"] = json.dumps  # JSON is YAML: any title is one value.
    names = [name for name in templates.list_templates() if plan.is_class or name != _FOR_A_CLASS]
    return {Path(name.removesuffix(".jinja")): templates.get_template(name).render(plan=plan) for name in names}
