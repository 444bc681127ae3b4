"""The limits by which a label leaves a claim out are those by which the claim is judged."""

import pytest
from crumbcoat_calc.label.contradicted import LIMITS
from crumbcoat_site.recipe_cards.wording.tables import claim_rules


@pytest.mark.parametrize("claim", LIMITS)
def test_the_limits_are_those_of_the_claims(claim):
    """Regulation (EC) No 1924/2006, Annex; 21 CFR 101.60 to 101.62, as cited in claims.csv."""
    component, eu, us, us_g = LIMITS[claim]
    for rule in claim_rules()[claim]:
        if rule.test != "never":
            assert rule.figure == component
            assert float(rule.limit) == (us if rule.market == "US" else eu)
            if rule.market == "US":
                assert rule.per == (f"{us_g:g} g" if us_g else "2 tbsp")
