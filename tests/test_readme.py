"""README.md names what its readers can use: every calculator, every option, every command."""

import re
from pathlib import Path

from crumbcoat_calc.calculators import CALCULATORS
from crumbcoat_site.calculators.config import CalculatorsConfig
from crumbcoat_site.offline_pages.config import OfflinePagesConfig
from crumbcoat_site.recipe_cards.config import RecipeCardsConfig

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_it_opens_with_the_job_in_one_paragraph() -> None:
    title, job, *_ = README.split("\n\n")
    assert title == "# Crumbcoat"
    assert len(job) > 300


def test_every_calculator_is_named() -> None:
    assert [name for name in CALCULATORS if f"`{name}`" not in README] == []


def test_every_option_is_named() -> None:
    for config in (RecipeCardsConfig, CalculatorsConfig, OfflinePagesConfig):
        options = [name for name, _ in config()._schema]
        assert [name for name in options if f"`{name}`" not in README] == []


def test_every_make_target_that_it_names_is_there() -> None:
    targets = re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.MULTILINE)
    named = re.findall(r"\bmake ([a-z]+)\b", "\n".join(re.findall(r"`[^`]*`|^    .*", README, re.MULTILINE)))
    assert named
    assert set(named) <= set(targets)
