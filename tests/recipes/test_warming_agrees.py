"""Recipes made at random, of every family: as they warm, figures, sentences and the picture agree with each other."""

import re

import pytest
from crumbcoat_calc.forms.conditions import conditions_from
from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_calc.science.structure import GELS, structure_of
from crumbcoat_calc.texts.air import Air
from crumbcoat_calc.texts.science import science_texts, treated_parts, vessel_state

from tests.recipes.random_recipes import batch_from, random_recipe

OPEN = re.compile(r"(\d+(?:\.\d)?) g \((\d+(?:\.\d)?) to (\d+(?:\.\d)?)\)")


@pytest.mark.parametrize("family", FAMILIES)
def test_as_they_warm(family: str) -> None:
    for number in range(30):
        batch = batch_from(random_recipe(family, number))
        shown = science_texts(batch, conditions_from(batch.recipe, {}), Air())
        before = float("inf")
        for row in shown["rows.warming"]:
            found = OPEN.fullmatch(row[1])
            value, low, high = map(float, found.groups() if found else [row[1].removesuffix(" g")] * 3)
            assert low <= value <= high, (number, row)
            assert value <= before, (number, row)
            before = value
        state = vessel_state(batch.vessels[-1], 20.0)
        held_by_gel = structure_of(treated_parts(batch.vessels[-1]), family, state).has(*GELS)
        marked = "slumps from" in str(shown["warming.marks"])
        assert marked or ">slumps<" not in str(shown["picture.warming"]), number
        assert not (held_by_gel and marked), number
        assert bool(shown["rows.warming"]) == bool(shown["picture.warming"]), number
