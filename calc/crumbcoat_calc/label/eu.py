"""The EU nutrition declaration: per 100 g and, if wanted, per portion."""

from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.foods.composition import Mixture
from crumbcoat_calc.label.nutrients import NO_MORE, LabelLine, label_lines


@dataclass(frozen=True, slots=True, kw_only=True)
class EuLabel:
    """The lines for 100 g and for a portion of `portion_g`; `per_portion` is empty where no portion was given."""

    per_100g: tuple[LabelLine, ...]
    portion_g: float | None
    per_portion: tuple[LabelLine, ...]


def eu_label(mixture: Mixture, portion_g: float | None = None, more: Mapping[str, float] = NO_MORE) -> EuLabel:
    """The EU declaration of a mixture; a content missing from an ingredient is `not known`, never zero.

    Energy in kJ and in kcal, each from grams by its own factors; carbohydrate without fibre; salt = 2.5 sodium.

    Args:
        mixture: the finished batch, above 0 g.
        portion_g: above zero, or None.
        more: what is added to components of the whole mixture, see `eu_conversions`.

    Raises:
        InputError: if there is no mixture, or a portion of nothing.

    Source:
        eu-1169-2011, Annexes I, XIV and XV; rounding by ec-tolerances-2012.

    >>> from crumbcoat_calc.foods.composition import mixture_of
    >>> from crumbcoat_calc.foods.table import food
    >>> label = eu_label(mixture_of(food("milk_whole"), 1000))
    >>> [(line.nutrient.name, line.text) for line in label.per_100g[:3]]
    [('Energy', '255 kJ'), ('Energy', '61 kcal'), ('Fat', '3.3 g')]
    """
    return EuLabel(
        per_100g=label_lines("eu", mixture, 100.0, more),
        portion_g=portion_g,
        per_portion=() if portion_g is None else label_lines("eu", mixture, portion_g, more),
    )
