"""What has to be true of the figures and sentences of every recipe, as a list of what is not."""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cached_property
from typing import Any

from crumbcoat_calc.calculators import solve
from crumbcoat_calc.foods.allergens import allergen_assessment
from crumbcoat_calc.foods.table import Food, food, food_with
from crumbcoat_calc.forms.context import Context
from crumbcoat_calc.recipe.batch import Vessel
from crumbcoat_calc.science.between import StateBetween, state_at_ends
from crumbcoat_calc.science.emulsifier import droplet_sizes_um
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.texts.science import vessel_state

SUCROSE = food_with(
    None, name="sucrose",
    stated={"water_g": 0.0, "fat_g": 0.0, "protein_g": 0.0, "ash_g": 0.0, "carbohydrate_g": 100.0, "sugars_g": 100.0,
            "sucrose_g": 100.0, "sodium_mg": 0.0},
)  # fmt: skip
"""Without the trace of water that granulated sugar has, which would dissolve some more."""


def estimates_of(state: MixtureState) -> dict[str, Estimate]:
    """Every figure of a mixture that is given, whatever figures there are."""
    kind = type(state)
    computed = [name for name in dir(kind) if isinstance(getattr(kind, name), cached_property)]
    figures = {name: getattr(state, name) for name in (*_names_of(state), *computed)}
    return dict(_estimates({**figures, "emulsifiers": state.emulsifiers(droplet_sizes_um(), (0.0, 0.0))}))


def _estimates(figures: Mapping[str, Any]) -> Iterator[tuple[str, Estimate]]:
    for name, figure in figures.items():
        if isinstance(figure, Estimate):
            yield name, figure
        elif name != "ends":
            yield from _estimates({f"{name}.{part}": getattr(figure, part) for part in _names_of(figure)})


def _names_of(figures: Any) -> tuple[str, ...]:
    """The fields of a dataclass or a named tuple; none of anything else."""
    return tuple(field.name for field in fields(figures)) if is_dataclass(figures) else getattr(figures, "_fields", ())


def faults_of_figures(vessel: Vessel, t_c: float) -> Iterator[str]:
    """Figures that are not numbers, or outside their own band, and phases that are not the whole."""
    state = vessel_state(vessel, t_c)
    for name, (value, low, high, _) in estimates_of(state).items():
        if not all(map(math.isfinite, (value, low, high))):
            yield f"{name} is {value} ({low} to {high})"
        elif not low - 1e-9 <= value <= high + 1e-9:
            yield f"{name} = {value} is outside its band, {low} to {high}"
        elif low < 0:
            yield f"{name} goes down to {low}"
    phases = (
        state.fat_g, state.water_g, state.dissolved_sugar_g, state.undissolved_sugar_g, state.other_solids_g,
    )  # fmt: skip
    known = [phase.value for phase in phases if isinstance(phase, Estimate)]
    whole = math.fsum([*known, state.ethanol_g])
    # Foods whose own figures do not add up to 100 g are off by as much; see tests/reference/README.md.
    if len(known) == len(phases) and abs(whole - state.mass_g) > 0.005 * state.mass_g:
        yield f"the phases come to {whole:.2f} g of {state.mass_g:.2f} g"


TRENDS: tuple[tuple[Food, str, int], ...] = (
    (food("butter_oil_anhydrous"), "fat_g", 1),
    (food("butter_oil_anhydrous"), "fat_volume_percent", 1),
    (food("water_tap"), "water_g", 1),
    (food("water_tap"), "syrup_strength_percent", -1),
    (food("water_tap"), "water_activity", 1),
    (food("water_tap"), "fat_volume_percent", -1),
    (food("water_tap"), "undissolved_sugar_g", -1),
    (SUCROSE, "undissolved_sugar_g", 1),
    (SUCROSE, "syrup_strength_percent", 1),
    (SUCROSE, "water_activity", -1),
)
"""What more of an ingredient may only raise (1), or only lower (-1)."""


_MOSTLY_FAT = 99.0
"""Fat by volume, in %, that butter oil may lower: its 0.24 % of water dissolves up to three times as much sugar."""

_ALCOHOL_THINS = ("syrup_strength_percent", "water_activity")
"""Beside undissolved sugar, water thins the alcohol that kept sugar from dissolving, and the syrup gets stronger."""


def _alcohol_beside_crystals(state: MixtureState) -> bool:
    left = state.undissolved_sugar_g
    return state.ethanol_g > 0 and isinstance(left, Estimate) and left.value > 0


def faults_of_trends(vessel: Vessel, t_c: float, more_g: float) -> Iterator[str]:
    """Figures that go the wrong way with some g more fat, water or sugar, as far as they are given."""
    before = vessel_state(vessel, t_c)
    parts = [(part.food, part.mass_g) for part in vessel.parts]
    after = {
        added.name: state_at_ends([*parts, (added, more_g)], t_c, boiled_off_g=vessel.water_lost_g)
        for added in dict.fromkeys(added for added, _, _ in TRENDS)
    }
    for added, name, sign in TRENDS:
        first, then = getattr(before, name), getattr(after[added.name], name)
        if not isinstance(first, Estimate) or not isinstance(then, Estimate):
            continue
        if name == "fat_volume_percent" and sign > 0 and first.value > _MOSTLY_FAT:
            continue
        if added.key == "water_tap" and name in _ALCOHOL_THINS and _alcohol_beside_crystals(before):
            continue
        if sign * (then.value - first.value) < -1e-6 * max(1.0, abs(first.value)):
            yield f"{more_g:.4g} g more of {added.name} takes {name} from {first.value} to {then.value}"
    if isinstance(before, StateBetween):
        return  # Middles of bands do not add up.
    sugar_g, more_sugar_g = _sugars_g(before), _sugars_g(after[SUCROSE.name])
    if abs(more_sugar_g - sugar_g - more_g) > 1e-6 * more_sugar_g:
        yield f"{more_g:.4g} g more sugar takes all the sugar from {sugar_g} g to {more_sugar_g} g"


def _sugars_g(state: MixtureState) -> float:
    """Sugar that is dissolved or not; not a number if that is not given."""
    dissolved, undissolved = state.dissolved_sugar_g, state.undissolved_sugar_g
    if not isinstance(dissolved, Estimate) or not isinstance(undissolved, Estimate):
        return math.nan
    return dissolved.value + undissolved.value


_NAMED: Mapping[str, tuple[str, ...]] = {
    r"\beggs?\b|\byolks?\b|\bwhites?\b|meringue|albumen": ("egg",),
    r"\bmilk\b|(?<!cocoa )\bbutter\b|\bcreams?\b|casein|whey|lactose": ("milk",),
    r"gelatine?\b": ("gelatin_powder", "gelatin_sheet_fr"),
    r"chocolate|cocoa|cacao": ("chocolate", "cocoa_butter"),
    r"starch|flour": ("starch", "baked goods", "sugar_powdered", "sugar_icing_uk", "baking_powder_us"),
    r"xanthan|\bgums?\b|agar|pectin": ("thickener", "fruit", "preserve"),
    r"alcohol|ethanol|spirit": ("alcohol", "vanilla_extract"),
    r"coconut|palm|shortening": ("fat", "plant alternative", "nut", "chocolate", "confectionery"),
}
"""Words for ingredients, and what they come from, a group or a kind of which a recipe must have one for such a word."""

_NEGATIVE = re.compile(r"\b(no|not|none|without|neither|nor|never|apart from)\b")
"""A sentence that says of something that it is not there may name it."""


def faults_of_sentences(context: Context) -> Iterator[str]:
    """Sentences of the science that contradict the figures beside them, or are about what is not in the recipe."""
    solved = solve("batch", context)
    shown = {name: text for name, text in solved.texts.items() if isinstance(text, str)}
    said = {name: text for name, text in shown.items() if name.startswith(("why.", "science."))}
    everything = " ".join(said.values())
    foods = [ingredient.food for ingredient in context.published.recipe.ingredients]
    names = " ".join([food.name for food in foods] + [one.name for one in context.published.recipe.ingredients])
    about = {word for food in foods for word in (food.key, food.group, *_allergens(food))}
    for name, text in said.items():
        if re.search(r"[{}]| [,.;:]|\(\s*\)|  ", text):
            yield f"{name} has an empty place: {text}"
        for sentence in re.split(r"(?<=[.;:]) ", text):
            for pattern, needed in _NAMED.items():
                word = re.search(pattern, sentence, re.IGNORECASE)
                there = about & set(needed) or (word and word[0].lower() in names.lower())
                if word and not there and not _NEGATIVE.search(sentence):
                    yield f"{name} speaks of {word[0]!r}: {sentence}"
    state = vessel_state(solved.answer.batch.vessels[-1], solved.answer.question.conditions.bowl_c)
    yield from _faults_of_sugar(everything, state)
    yield from _faults_of_phases(said, state)


def _faults_of_sugar(everything: str, state: MixtureState) -> Iterator[str]:
    left, all_dissolved = state.undissolved_sugar_g, "All the sugar is dissolved" in everything
    if not isinstance(left, Estimate):
        if all_dissolved:
            yield "it says that all the sugar is dissolved, and gives no figure"
        return
    if all_dissolved and left.high > LEAST_SEEN * state.mass_g:
        yield f"it says that all the sugar is dissolved, and up to {left.high:.2f} g of {state.mass_g:.0f} g may not be"
    if "stays undissolved: its crystals" in everything and left.low <= 0:
        yield "it speaks of crystals, and there may be none"


LEAST_SEEN = 0.0001
"""A share of undissolved sugar that counts as none: 0.1 g in a kilogram."""


def _faults_of_phases(said: Mapping[str, str], state: MixtureState) -> Iterator[str]:
    """Sentences about droplets, syrup or fat where there are none, or with another figure than the one beside them."""
    why = " ".join(text for name, text in said.items() if name.startswith("why."))
    fat, water, strength = state.fat_g, state.water_g, state.syrup_strength_percent
    nothing = [isinstance(phase, Estimate) and phase.high <= 0 for phase in (fat, water)]
    if "droplet" in why and any(nothing):
        yield "it speaks of droplets without fat or without water"
    if re.search(r"\bfat\b", re.sub("hardly any fat", "", why)) and nothing[0]:
        yield "it speaks of fat, and there is none"
    shown = re.search(r"form a syrup of ([0-9.]+) % sugar", why)
    if shown and not isinstance(strength, Estimate):
        yield "it speaks of the strength of the syrup, and gives no figure"
    if shown and isinstance(strength, Estimate) and abs(float(shown[1]) - strength.value) > 0.51:
        yield f"a syrup of {shown[1]} % beside one of {strength.value:.1f} %"
    stays = re.search(r"(\S+ g(?: \([^)]*\))?) of sugar stays undissolved: its", why)
    if stays and stays[1] != said["science.undissolved_sugar"]:
        yield f"{stays[1]} of undissolved sugar beside {said['science.undissolved_sugar']}"


def _allergens(food: Food) -> tuple[str, ...]:
    assessed = allergen_assessment(food, "EU")
    return tuple(assessed.known.values()) if assessed else ()
