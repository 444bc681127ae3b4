"""README.md and the reference pages mention everything that readers can use, and their examples work."""

import re
import textwrap
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import CALCULATORS
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_site.recipe_cards.pages.written_directives import BY_HAND, CARD, LISTS, WHOLE
from crumbcoat_site.recipe_cards.pages.written_directives import CALCULATORS as CALCULATOR_PAGES
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_it_opens_with_the_job_in_one_paragraph() -> None:
    title, job, *_ = README.split("\n\n")
    assert title == "# Crumbcoat"
    assert len(job) > 300


def test_every_calculator_is_described() -> None:
    page = (ROOT / "recipes" / "reference" / "calculators.md").read_text(encoding="utf-8")
    assert [name for name in CALCULATORS if f"**`{name}`**" not in page] == []


def test_every_directive_is_described() -> None:
    page = (ROOT / "recipes" / "reference" / "calculators.md").read_text(encoding="utf-8")
    named = {
        " ".join(words.split())
        for words in re.findall(r"^\| `<!-- crumbcoat: (.+?)(?: from .*| …)? -->` \|", page, re.M)
    }
    assert named == {*LISTS, BY_HAND, CARD, WHOLE, *CALCULATOR_PAGES}


def test_every_file_that_the_guides_link_is_there() -> None:
    missing = []
    for guide in (ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "bench").glob("*.md")):
        links = re.findall(r"\]\(([^)#:]+)\)", guide.read_text(encoding="utf-8"))
        missing += [(guide.name, link) for link in links if not (guide.parent / link).exists()]
    assert missing == []


def test_no_section_but_the_first_recipe_is_longer_than_a_screen() -> None:
    sections = re.split(r"^## ", README, flags=re.MULTILINE)
    assert {part.splitlines()[0]: part.count("\n") for part in sections if part.count("\n") > 50} == {}


def test_the_first_recipe_is_one_and_has_thirty_lines(tmp_path: Path) -> None:
    (block,) = [code for code in re.findall(r"(?:^    .*\n)+", README, re.MULTILINE) if "title:" in code]
    text = textwrap.dedent(block)
    (tmp_path / "recipe.yaml").write_text(text, encoding="utf-8")
    recipe, _ = load_recipe(tmp_path / "recipe.yaml", "recipe.yaml")
    assert text.count("\n") <= 33
    assert batch_of(recipe).total.mass_g == pytest.approx(560)  # 500 g of cream and half of USDA's 120 g per cup


def test_every_make_target_that_it_names_is_there() -> None:
    targets = re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.MULTILINE)
    named = re.findall(r"\bmake ([a-z]+)\b", "\n".join(re.findall(r"`[^`]*`|^    .*", README, re.MULTILINE)))
    assert named
    assert set(named) <= set(targets)
