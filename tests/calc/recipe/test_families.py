"""The family of a recipe: what a writer may call it, and what is answered (common practice, no source)."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.families import family_from
from crumbcoat_calc.recipe.model import FAMILIES


@pytest.mark.parametrize("family", FAMILIES)
def test_a_family_is_itself_and_is_explained_to_who_writes_another(family: str) -> None:
    assert family_from(family.title()) == family
    with pytest.raises(InputError) as caught:
        family_from("zabaglione")
    assert f"`{family}` (" in caught.value.remedy


@pytest.mark.parametrize(
    ("written", "families"),
    [
        (
            "frosting",
            {
                "emulsified milk frosting",
                "sugar-and-butter frosting",
                "cream-cheese frosting",
                "cooked-flour buttercream",
            },
        ),
        (
            "American buttercream",
            {*(family for family in FAMILIES if "buttercream" in family), "sugar-and-butter frosting"},
        ),
        ("mousseline", {"custard buttercream"}),
        ("Chantilly", {"whipped cream"}),
        ("royal icing", {"glaze or icing", "sugar-and-butter frosting"}),
        ("emulsified milk frostng", {"emulsified milk frosting"}),
        ("ganach", {"ganache"}),
        ("lemon curd", {"curd or custard filling"}),
    ],
)
def test_the_families_that_a_word_may_mean_are_listed_with_what_they_are(written: str, families: set[str]) -> None:
    with pytest.raises(InputError) as caught:
        family_from(written)
    near, _, others = caught.value.remedy.partition(" The others: ")
    assert {family for family in FAMILIES if f"`{family}` (" in near} == families
    assert {family for family in FAMILIES if family in others.split(", ")} == set(FAMILIES) - families
