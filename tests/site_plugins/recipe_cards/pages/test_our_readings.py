"""A card of a recipe with trials: what our own batches say is printed, and is in the context that the browser gets."""

import html
import json
import re
import shutil
from datetime import date
from pathlib import Path

from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.values.spacing import unbroken
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.pages.kept_files import ISLANDS, MARKDOWN
from crumbcoat_site.recipe_cards.pages.recipe_pages import recipe_pages
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile

COMPONENTS = Path(__file__).parents[4] / "site_plugins" / "crumbcoat_site" / "recipe_cards" / "components"

TRIAL = """\
number: {number}
date: 2026-11-2{number}
chilling: [{{from: 30 °C, to: 2{number} °C, cold: 4 °C, time: 25 min}}]
"""


def text_of(folder: Path, *, has_trials: bool = True) -> str:
    """The page of the sample recipe, as Markdown with its islands."""
    file = RecipeFile(path=folder / "sample.yaml", name="sample", photos={}, has_trials=has_trials)
    cache = PageCache(folder / "cache")
    options = CardOptions(None, False)
    found = recipe_pages([file], folder / "prices.csv", options, None, cache, date(2026, 11, 27), with_drafts=True)
    assert found.problems == {}
    (page,) = found.pages
    return "".join(cache.path(page.key, ending).read_text(encoding="utf-8") for ending in (MARKDOWN, ISLANDS))


def test_the_card_says_it_and_its_context_gives_the_same_texts(tmp_path: Path) -> None:
    shutil.copy(COMPONENTS / "sample.yaml", tmp_path)
    trials = tmp_path / "sample.trials"
    trials.mkdir()
    for number in (1, 2):
        (trials / f"{number}.yaml").write_text(TRIAL.format(number=number), encoding="utf-8")
    text = text_of(tmp_path)
    assert "from 2 of our batches" in text
    (fields,) = {found for found in re.findall(r'context="([^"]*)"', text) if "&#34;readings" in found}
    given = json.loads(html.unescape(fields))
    assert list(given["readings"]) == ["chilling"]
    _, live = run("batch", context_from(given), {})
    assert unbroken(str(live["ours.chilling"])) in html.unescape(text)

    (trials / "3.yaml").write_text(TRIAL.format(number=3), encoding="utf-8")
    assert "from 3 of our batches" in text_of(tmp_path)
    (trials / "3.yaml").write_text("number: 3\n", encoding="utf-8")
    assert "from 2 of our batches" in text_of(tmp_path)
    assert "of our batches" not in text_of(tmp_path, has_trials=False)
