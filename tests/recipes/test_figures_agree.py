"""Figures and sentences agree with each other, on every card and on recipes made at random.

`make test-all` looks at 10,000 recipes of each family, every run at 40. On 27 November 2026 all 130,000
were looked at, in parts while other work went on, and had no fault; since the salts of milk count in the water
activity, the first 1,000 of each.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest
from coverage import Coverage
from crumbcoat_calc.forms.context import Context, context_from, published_from
from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.texts.science import vessel_state
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

from tests.recipes import figures_agree
from tests.recipes.figures_agree import faults_of_figures, faults_of_sentences, faults_of_trends
from tests.recipes.random_recipes import random_recipe

FOLDER = Path(__file__).parents[2] / "recipes"
FILES = sorted(FOLDER.glob("*/*.yaml"))
PARTS, OF_A_PART = 10, 1000
TEMPERATURES_C = (20.0, 4.0, 60.0)


def faults_of(context: Context, number: int) -> list[str]:
    """All that is wrong with a recipe, at one of three temperatures, and with a gram or a tenth of the batch more."""
    batch, t_c = context.published.batch, TEMPERATURES_C[number % 3]
    more_g = batch.total.mass_g / 10 if number % 2 else 1.0
    found = [fault for vessel in batch.vessels for fault in faults_of_figures(vessel, t_c)]
    return [*found, *faults_of_trends(batch.vessels[-1], t_c, more_g), *faults_of_sentences(context)]


def made(family: str, numbers: Iterable[int]) -> Iterable[tuple[int, Context]]:
    return ((number, context_from({"recipe": random_recipe(family, number)})) for number in numbers)


def faults_of_all(family: str, numbers: Iterable[int]) -> list[str]:
    recipes = made(family, numbers)
    return [f"{family}, {number}: {fault}" for number, context in recipes for fault in faults_of(context, number)]


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_every_card_agrees_with_itself(path: Path) -> None:
    recipe, data = load_recipe(path, path.name)
    context = Context(recipes={"recipe": published_from(data, recipe)})
    assert [fault for number in range(6) for fault in faults_of(context, number)] == []


@pytest.fixture
def unmeasured() -> Iterator[None]:
    """Every line is covered by one recipe: the others only take three times as long where lines are counted."""
    measured = Coverage.current()
    if measured:
        measured.stop()
    yield
    if measured:
        measured.start()


@pytest.mark.usefixtures("unmeasured")
@pytest.mark.parametrize("family", FAMILIES)
def test_recipes_made_at_random_agree_with_themselves(family: str) -> None:
    assert faults_of_all(family, range(40)) == []


@pytest.mark.full
@pytest.mark.usefixtures("unmeasured")
@pytest.mark.parametrize("part", range(PARTS))
@pytest.mark.parametrize("family", FAMILIES)
def test_ten_thousand_recipes_of_each_family_agree_with_themselves(family: str, part: int) -> None:
    assert faults_of_all(family, range(part * OF_A_PART, (part + 1) * OF_A_PART)) == []


@pytest.mark.parametrize("family", FAMILIES)
def test_most_recipes_made_at_random_have_figures(family: str) -> None:
    states = [vessel_state(context.published.batch.vessels[-1], 20.0) for _, context in made(family, range(20))]
    assert len([state for state in states if isinstance(state.undissolved_sugar_g, Estimate)]) >= 12


def test_a_wrong_figure_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    ((_, context),) = made("ganache", [17])
    vessel = context.published.batch.vessels[-1]
    right = vessel_state(vessel, 20.0)
    assert isinstance(right.fat_g, Estimate)
    for wrong, found in (
        (right.fat_g._replace(value=float("nan")), "fat_g is nan"),
        (right.fat_g._replace(low=right.fat_g.value + 1), "outside its band"),
        (right.fat_g._replace(value=right.fat_g.value + 30, high=1e3), "the phases come to"),
        (right.fat_g._replace(low=-1.0), "goes down to -1"),
    ):
        state = replace(right, fat_g=wrong)
        monkeypatch.setattr(figures_agree, "vessel_state", lambda vessel, t_c, state=state: state)
        assert found in " ".join(faults_of_figures(vessel, 20.0))
    more = replace(right, fat_g=right.fat_g._replace(value=1e3, high=1e3))
    monkeypatch.setattr(figures_agree, "vessel_state", lambda vessel, t_c: more)
    assert "more of butter oil" in " ".join(faults_of_trends(vessel, 20.0, 1.0))


@pytest.mark.parametrize(
    ("family", "number", "sentence", "found"),
    [
        pytest.param("glaze or icing", 3, "All the sugar is dissolved.", "all the sugar", id="dissolved"),
        pytest.param("ganache", 17, "5 g stays undissolved: its crystals stiffen it.", "crystals", id="crystals"),
        pytest.param("ganache", 17, "The egg sets it.", "'egg'", id="egg"),
        pytest.param("whipped cream", 1, "The cocoa butter sets it.", "'cocoa'", id="cocoa butter"),
        pytest.param("meringue buttercream", 0, "Boiled starch holds it.", "'starch'", id="starch"),
    ],
)
def test_a_wrong_sentence_is_found(
    monkeypatch: pytest.MonkeyPatch, family: str, number: int, sentence: str, found: str
) -> None:
    ((_, context),) = made(family, [number])
    right = figures_agree.solve("batch", context)
    assert list(faults_of_sentences(context)) == []
    wrong = SimpleNamespace(answer=right.answer, texts={**right.texts, "why.fat": sentence})
    monkeypatch.setattr(figures_agree, "solve", lambda name, context: wrong)
    assert found in " ".join(faults_of_sentences(context))
