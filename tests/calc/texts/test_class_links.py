"""Links for phones: the group's own batch, its number, and the clock of the plan; a browser reads them (link.js)."""

from pathlib import Path
from urllib.parse import parse_qsl

import pytest
import yaml
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from

RECIPES = Path(__file__).parents[3] / "recipes"
COCOA = "buttercreams/plant-based-cocoa-frosting"
SWISS, MILK = "buttercreams/swiss-meringue-buttercream", "milk-emulsions/everyday-milk-frosting"


def phones(**edit):
    read = [
        yaml.load((RECIPES / f"{name}.yaml").read_text(encoding="utf-8"), yaml.BaseLoader) for name in (SWISS, MILK)
    ]
    context = context_from(dict(zip(("recipe", "second"), read, strict=True)))
    return run("handout", context, {}, {"students": "18", "groups": "6", "mixers": "3", **edit})[1]


def state_of(section):
    bench, _, state = section["fragment"].partition("&")
    assert bench == "bench"
    return dict(parse_qsl(state, strict_parsing=True, keep_blank_values=True))


@pytest.fixture(scope="module")
def both():
    return phones(batches="1.5")


def test_each_group_has_a_link_to_each_recipe_that_it_makes(both):
    assert [(one["title"], one["slot"]) for one in both["phones"]] == [
        (f"Group {group}", slot) for group in range(1, 7) for slot in ("recipe", "second")
    ]
    apart = phones(makes="one recipe")["phones"]
    assert [(one["title"], one["slot"]) for one in apart][:3] == [
        ("Group 1", "recipe"), ("Group 2", "second"), ("Group 3", "recipe")
    ]  # fmt: skip


def test_a_link_holds_the_amounts_the_group_and_the_clock_and_no_more(both):
    for section in both["phones"]:
        assert [*state_of(section)] == ["factor", "class:group", "class:at"]
        assert state_of(section)["factor"] == "1.5"
        assert len(section["fragment"]) < 200  # A QR code of it can be read from paper.


def test_the_clock_is_that_of_the_plan(both):
    steps = {row[0]: row[1] for row in reversed(both["group_sheets"][0]["steps"])}
    first = state_of(both["phones"][0])["class:at"].split(".")
    assert len(first) == sum(len(stage["steps"]) for stage in _recipe(SWISS)["stages"])
    clocks = [f"{one[:2]}:{one[2:]}" for one in first]
    assert clocks == sorted(clocks)
    for key, clock in (("A 1.1", clocks[0]), ("A 2.1", clocks[len(_recipe(SWISS)["stages"][0]["steps"])])):
        assert steps[key] == clock


def test_a_stage_made_beforehand_has_no_time():
    at = state_of(phones(beforehand="A 1")["phones"][0])["class:at"].split(".")
    count = len(_recipe(SWISS)["stages"][0]["steps"])
    assert at[:count] == [""] * count
    assert all(at[count:])


def test_a_group_that_avoids_an_allergen_gets_its_own_amounts():
    context = context_from({"recipe": _recipe(COCOA)})
    edit = {"groups": "2", "allergies": "soya", "without": "one group"}
    plain, without = run("handout", context, {}, edit)[1]["phones"]
    assert "instead.soya_drink" not in state_of(plain)
    assert state_of(without)["instead.soya_drink"] == "oat"
    assert "oat drink" in without["makes"]


def _recipe(name):
    return yaml.load((RECIPES / f"{name}.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)
