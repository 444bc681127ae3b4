"""What is usual for a family: rows that cannot be read are refused. The figures are common practice, no source."""

from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_calc.recipe.usual_figures import usual_fat


def test_every_family_but_other_has_a_range() -> None:
    assert set(usual_fat()) == set(FAMILIES) - {"other"}
