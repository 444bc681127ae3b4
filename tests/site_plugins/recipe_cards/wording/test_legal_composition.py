"""Names that the law of composition keeps, against limits found in laws: tests/reference/legal_composition.csv."""

import csv
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_site.recipe_cards.wording.names import unlawful_names

REFERENCE = Path(__file__).parents[3] / "reference" / "legal_composition.csv"
REGIONS = {"US": "US", "UK": "UK", "Codex": "EU"}
NO_RULE = ("butter oil, ghee", "cream powder")
"""Products for whose names the check has no rule."""
NAMES = {"heavy (whipping) cream": "heavy cream", "cream (any)": "cream", "light (coffee/table) cream": "light cream"}
MARGIN = 1.0
"""In g per 100 g: packs are rounded, so a name is warned of only where its figures are clearly beside the limit."""


def fat_limits() -> Iterator[tuple[str, str, float, float]]:
    """Product, region, least and most milk fat of each row that a text was seen of, and that limits nothing else."""
    with REFERENCE.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            limit = re.fullmatch(r"(?:>=([0-9.]+) and <)?([0-9.]+)", row["limit"])
            of_fat = row["parameter"].replace(" ", "") in ("milkfatmin", "milkfat")
            known = row["product"] not in NO_RULE
            if limit and of_fat and known and "found" in row["provenance"] and row["jurisdiction"] in REGIONS:
                least, most = (limit[1], limit[2]) if limit[1] else (limit[2], "100")
                name = NAMES.get(row["product"], row["product"])
                yield name, REGIONS[row["jurisdiction"]], float(least), float(most)


LIMITS = tuple(fat_limits())


def warned_of(name: str, fat: float, region: str) -> bool:
    composition = {"fat": f"{fat:g} %", "milk_fat": f"{fat:g} %"}
    recipe = recipe_from(
        {
            "title": "Icing", "summary": "An icing.", "author": "the tests", "family": "other",
            "yield": {"portions": "10", "of": "cupcakes"},
            "ingredients": {"food": {"amount": "100 g", "name": name, "composition": composition}},
            "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": ["food"]}]}],
        }
    )  # fmt: skip
    return any(True for _ in unlawful_names(recipe, region))


def test_the_file_has_the_creams_of_two_countries_and_butter() -> None:
    assert len(LIMITS) >= 12
    assert {("butter", "US", 80.0, 100.0), ("double cream", "UK", 48.0, 100.0)} <= set(LIMITS)
    assert ("light whipping cream", "US", 30.0, 36.0) in LIMITS


@pytest.mark.parametrize(("name", "region", "least", "most"), LIMITS, ids=[f"{one[0]}, {one[1]}" for one in LIMITS])
def test_a_name_is_kept_for_the_fat_that_its_law_asks_for(name: str, region: str, least: float, most: float) -> None:
    assert warned_of(name, least - MARGIN, region)
    assert not warned_of(name, least, region)
    assert not warned_of(name, min(most, least + MARGIN), region)
    if most < 100:
        assert warned_of(name, most + MARGIN, region)
