"""Texts of a formulation: amounts, binding bounds or collisions, and the recipe file; and of the Pearson square."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.composition import Mixture, mixed, mixture_of
from crumbcoat_calc.foods.figures import share_text
from crumbcoat_calc.forms.context import PublishedRecipe
from crumbcoat_calc.formulation.formulate import BoundedIngredient, Formula, Impossible
from crumbcoat_calc.formulation.pearson import leaner_to_add_g
from crumbcoat_calc.recipe.editing import with_amounts
from crumbcoat_calc.recipe.writing import recipe_text
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import list_text, mass_text, plain_number_text
from crumbcoat_calc.values.form_fields import state_number

_NEAR_G = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Formulated:
    """What was asked for: the recipe, `size` times its finished mass or `total_g`, its fat and most sugar in %."""

    published: PublishedRecipe
    ingredients: Sequence[BoundedIngredient]
    size: float
    total_g: float
    fat_percent: float
    sugar_percent: float | None

    def texts(self, outcome: Formula | Impossible) -> Texts:
        """`outcome`, `binds`, `rows.formula`, `rows.figures` and `file.recipe`."""
        formula = outcome if isinstance(outcome, Formula) else outcome.nearest
        texts: Texts = {"outcome": self._outcome_text(outcome), "binds": "", "file.recipe": ""}
        texts["rows.formula"] = texts["rows.figures"] = []
        if formula is None:
            return texts
        made = self._finished(formula)
        texts["binds"] = self._binds_text(formula, made)
        texts["rows.formula"] = [
            [
                name,
                mass_text(before_g),
                mass_text(mass_g),
                _change_text(mass_g - before_g),
            ]
            for name, before_g, mass_g in zip(self.published.names, formula.before_g, formula.masses_g, strict=True)
        ]
        before = self.published.batch.total
        texts["rows.figures"] = [
            [label, share_text(before, component), share_text(made, component)]
            for label, component in (("Fat", "fat_g"), ("Water", "water_g"), ("Sugars", "sugars_g"))
        ]
        texts["file.recipe"] = self._file(formula)
        return texts

    def _outcome_text(self, outcome: Formula | Impossible) -> str:
        wished = f"{mass_text(self.total_g)} with {plain_number_text(self.fat_percent, 2)} % fat"
        if isinstance(outcome, Formula):
            return f"{wished}: as near to the recipe as possible, with the smallest sum of changes."
        walls = list_text([self._collision_text(outcome, number) for number in range(len(outcome.collisions))])
        collide = f"{wished} is not possible: {walls} collide." if walls else f"{wished} is not possible."
        if outcome.nearest is None:
            return f"{collide} No other fat content helps: loosen one of them."
        nearest = share_text(self._finished(outcome.nearest), "fat_g")
        return f"{collide} The nearest that meets all other wishes has {nearest} fat, shown below."

    def _collision_text(self, outcome: Impossible, number: int) -> str:
        wall = outcome.collisions[number]
        if wall.kind == "total":
            return f"a total of {mass_text(self.total_g)}"
        if wall.kind == "balance":
            if wall.of == "fat_g":
                return f"fat {plain_number_text(self.fat_percent, 2)} %"
            return f"sugar at most {plain_number_text(self.sugar_percent or 0.0, 2)} %"
        name, one = self.published.names[int(wall.of)], self.ingredients[int(wall.of)]
        if one.low_g == one.high_g:
            return f"{name} fixed at {mass_text(one.low_g)}"
        bound_g = one.low_g if wall.kind == "low" else one.high_g or 0.0
        return f"{name} at {'least' if wall.kind == 'low' else 'most'} {mass_text(bound_g)}"

    def _finished(self, formula: Formula) -> Mixture:
        parts = [mixture_of(one.food, mass_g) for one, mass_g in zip(self.ingredients, formula.masses_g, strict=True)]
        return mixed(parts).without_water(self.size * self.published.batch.vessels[-1].water_lost_g)

    def _binds_text(self, formula: Formula, made: Mixture) -> str:
        binding = []
        for name, one, mass_g in zip(self.published.names, self.ingredients, formula.masses_g, strict=True):
            if one.low_g == one.high_g:
                continue
            if mass_g <= one.low_g + _NEAR_G:
                binding.append(f"{name} at its minimum, {mass_text(one.low_g)}")
            elif one.high_g is not None and mass_g >= one.high_g - _NEAR_G:
                binding.append(f"{name} at its maximum, {mass_text(one.high_g)}")
        sugar = made.percent("sugars_g")
        if self.sugar_percent is not None and sugar is not None and sugar >= self.sugar_percent - 1e-6:
            binding.append(f"sugar at its maximum, {plain_number_text(self.sugar_percent, 2)} %")
        return f"Limited by {list_text(binding)}." if binding else "No limit is reached."

    def _file(self, formula: Formula) -> str:
        recipe = self.published.recipe
        masses_g = dict(zip([one.key for one in recipe.ingredients], formula.masses_g, strict=True))
        if all(round(mass_g, 2) <= 0 for mass_g in masses_g.values()):
            return ""
        percent = share_text(self._finished(formula), "fat_g")
        note = f"Amounts calculated for a fat content of {percent}; not tried."
        return recipe_text(with_amounts(self.published.data, recipe, masses_g, self.size, note))


def square_texts(
    rich: float, lean: float, between: float, together: float, square_g: tuple[float, float] | InputError
) -> Texts:
    """`rich`, `lean`, `between`, `together` as fields, and `square`: how much of each of two."""
    fields = {"rich": rich, "lean": lean, "between": between, "together": together}
    texts: Texts = {name: state_number(value) for name, value in fields.items()}
    if isinstance(square_g, InputError):
        texts["square"] = f"not given: {square_g.problem}; {square_g.remedy}"
    else:
        one_g, other_g = square_g
        per_kg = mass_text(leaner_to_add_g(rich, lean, between, 1000.0)) if one_g > 0 else ""
        thinned = f", so {per_kg} of the leaner for each kilogram of the richer" if per_kg else ""
        texts["square"] = f"{mass_text(one_g)} of the richer and {mass_text(other_g)} of the leaner{thinned}"
    return texts


def _change_text(change_g: float) -> str:
    if abs(change_g) < 0.005:
        return "unchanged"
    return f"{mass_text(abs(change_g))} {'more' if change_g > 0 else 'less'}"
