"""The whole label of a batch: nutrients by both regimes, ingredients, and what none of them contains."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.label.contradicted import is_contradicted
from crumbcoat_calc.label.eu import EuLabel, eu_label
from crumbcoat_calc.label.eu_conversions import eu_conversions
from crumbcoat_calc.label.ingredient_list import IngredientList, ListedIngredient, listed_ingredients_of
from crumbcoat_calc.label.market_list import lists_of
from crumbcoat_calc.label.suitable import ListedOrigin, listed_origins
from crumbcoat_calc.label.us import Serving, UsLabel, serving_of, us_label
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.claims import Claim


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchLabel:
    """`lists` are in the order of MARKETS; `person_g` is what one person eats; None is not known."""

    us: UsLabel
    eu: EuLabel
    lists: tuple[IngredientList, ...]
    origins: tuple[ListedOrigin, ...]
    claims: tuple[Claim, ...]
    person_g: float | None
    density_g_per_ml: float | None


def label_of(batch: Batch, density_g_per_ml: float | None) -> BatchLabel:
    """The label of a batch. A US serving is the reference amount; without a density, as if it weighed 30 g.

    Args:
        density_g_per_ml: of the finished food.
    """
    person_g = batch.recipe.person_g
    serving, lists, origins = serving_of(density_g_per_ml), lists_of(batch), _origins_of(batch)
    return BatchLabel(
        us=us_label(batch.total, serving),
        eu=eu_label(batch.total, person_g, eu_conversions(batch)),
        lists=lists,
        origins=origins,
        claims=_claims_of(batch, lists, origins, serving),
        person_g=person_g,
        density_g_per_ml=density_g_per_ml,
    )


def _claims_of(
    batch: Batch, lists: Sequence[IngredientList], origins: Sequence[ListedOrigin], serving: Serving
) -> tuple[Claim, ...]:
    """What the author claims of the recipe as published: nobody answers for it with another ingredient in the bowl.

    A claim that the ingredients or the figures contradict is left out.
    """
    as_published = all(
        weighed.food is ingredient.food
        for weighed, ingredient in zip(batch.weighed, batch.recipe.ingredients, strict=True)
    )
    if not as_published:
        return ()
    return tuple(
        [made for made in batch.recipe.claims if not is_contradicted(made.claim, batch, lists, origins, serving)]
    )


def _origins_of(batch: Batch) -> tuple[ListedOrigin, ...]:
    """What the ingredients of a batch and what is eaten with it come from: of a decoration nothing is certain."""
    decorations = [ListedIngredient(name=extra.what, mass_g=1.0) for extra in batch.recipe.decorations if extra.eaten]
    return listed_origins([*listed_ingredients_of(batch), *decorations], batch.recipe.may_contain)
