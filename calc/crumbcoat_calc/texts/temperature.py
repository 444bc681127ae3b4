"""Texts about temperature: of the mixture, of the ingredient that must be colder or warmer, and how long to chill."""

from collections.abc import Sequence
from math import fsum
from typing import NamedTuple

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.forms.conditions import BEATEN_WITH_BUTTER, Conditions, condition_fields, degrees_text
from crumbcoat_calc.forms.our_readings import OurReading
from crumbcoat_calc.recipe.batch import Batch, Vessel, VesselPart
from crumbcoat_calc.science.between import covering
from crumbcoat_calc.science.carriers import brings
from crumbcoat_calc.science.chilling import COOLING, chilling_min, time_constant_min
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.dissolving_heat import Band, SugarPart, dissolving_heat_j, has_crystals
from crumbcoat_calc.science.ends import ends_of
from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.science.heat import HeatPart, combined, heat_content, mixer_work_j
from crumbcoat_calc.science.mixing import ingredient_temperature_c, mixing_temperature_c
from crumbcoat_calc.science.parts import UNMELTED_C, is_unmelted_fat, whipped_creams
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.agreed import agreed_text
from crumbcoat_calc.texts.estimates import estimate_text
from crumbcoat_calc.texts.our_readings import our_texts
from crumbcoat_calc.values.display import celsius_text, list_text, number_text

WHIPPED_CREAM = "whipped cream"
"""The family in which all cream is whipped."""

_LEAST_SHARE = 0.1
"""The least share of a batch by which its temperature can be set (common practice, no source)."""


def condition_texts(batch: Batch, conditions: Conditions) -> Texts:
    """The fields of the kitchen, `temperature.<key>`, and `tempered`, the ingredient to make colder or warmer.

    `heats.<key>` is `yes` for an ingredient whose own temperature counts in no stage: `heated` names these.
    """
    texts: Texts = dict(condition_fields(conditions))
    own = {part.key for vessel in batch.vessels for part in vessel.parts if not part.brought}
    for weighed in batch.weighed:
        t_c = weighed.temperature_c
        texts[f"temperature.{weighed.key}"] = "" if t_c is None else degrees_text(t_c)
        texts[f"heats.{weighed.key}"] = "" if weighed.key in own else "yes"
    cream = _whipped_cold(batch)
    heated = [
        one.name.partition(",")[0]
        for one in batch.weighed
        if one.key not in own and one.mass_g > 0 and one.key not in cream
    ]
    texts["heated"] = ""
    if heated:
        names = list_text(heated)
        texts["heated"] = (
            f"The recipe itself heats or cools {names}: how cold or warm that was before changes no figure."
        )
    if cream:
        cold = constants("whipping")
        texts["heated"] = (
            f"{texts['heated']} Common practice: whip cream at {cold['coldest']:g} to {cold['warmest']:g} °C; above "
            f"about {cold['too_warm']:g} °C it does not whip."
        ).lstrip()
    texts["tempered"] = conditions.tempered or wettest(batch)
    return texts | our_texts(conditions.ours)


def temperature_texts(batch: Batch, conditions: Conditions, looked_at: int) -> Texts:
    """`science.mixing_temperature`, `tempering` and `science.chilling`."""
    vessel, finished = batch.vessels[-1], _warmed_at_ends(batch.vessels[-1], conditions)
    mixed = finished_mixed = [_mixed(end, _work_j(conditions)) for end in finished]
    if looked_at < len(batch.vessels) - 1:
        vessel = batch.vessels[looked_at]
        mixed = [_mixed(end) for end in _warmed_at_ends(vessel, conditions)]
    tempered = conditions.tempered or wettest(batch)
    mixing = [mixing_text(vessel.parts, end, conditions) for end in mixed]
    tempering = [
        tempering_text(batch, end, as_it_is, conditions, tempered)
        for end, as_it_is in zip(finished, finished_mixed, strict=True)
    ]
    otherwise = "not given: the contents of some ingredients are not known exactly enough"
    return {
        "science.mixing_temperature": agreed_text(mixing, otherwise),
        "tempering": agreed_text(tempering, otherwise),
        "science.chilling": chilling_text(batch, conditions),
    }


def _whipped_cold(batch: Batch) -> set[str]:
    """The keys of cream that is whipped as cold as it comes, or would be if it were cold enough."""
    family = batch.recipe.family
    treated = [(part.food, part.mass_g, part.treatment) for part in batch.vessels[-1].parts if part.mass_g > 0]
    creams = treated if family == WHIPPED_CREAM else whipped_creams(treated, family)
    whipped = [one[:2] for one in creams if one[2].cooked_c is None]
    return {
        part.key
        for part in batch.vessels[-1].parts
        if (part.food, part.mass_g) in whipped and brings(part.food) == "clumped fat"
    }


class _Warmed(NamedTuple):
    """How each part of a vessel stores heat, with its temperature, None for one of no mass; the cold of dissolving."""

    parts: list[HeatPart | None]
    dissolving_j: Band


def mixing_text(parts: Sequence[VesselPart], mixed: Estimated, conditions: Conditions) -> str:
    """The temperature of the mixture, and which ingredients are assumed to be at room temperature."""
    shown = estimate_text(mixed, 1, "°C")
    assumed = list(dict.fromkeys([part.food.name for part in parts if part.temperature_c is None and part.mass_g > 0]))
    if isinstance(mixed, Withheld) or not assumed:
        return shown
    names = list_text(assumed) if len(assumed) < 4 else f"{len(assumed)} ingredients"
    return f"{shown}, with {names} at room temperature, {celsius_text(conditions.room_c)}"


def mixed_temperature(vessel: Vessel, conditions: Conditions) -> Estimated:
    """The temperature of what is in a vessel, without the mixer's work, over the ends of what is not known."""
    ends = _warmed_at_ends(vessel, conditions)
    mixed = [mixing_temperature_c([part for part in end.parts if part], 0.0, end.dissolving_j) for end in ends]
    return covering(mixed, "some ingredients")


def wettest(batch: Batch) -> str:
    """The key of the ingredient to make colder or warmer: the heaviest liquid that goes in at its own temperature.

    A liquid is more than half water. Without one that is a tenth of the batch, it is what brings the most fat and
    water, such as butter: to warm or to cool dry sugar is hard.
    """
    weights: dict[str, tuple[bool, float]] = {}
    enough_g = _LEAST_SHARE * batch.total.mass_g
    for part in batch.vessels[-1].parts:
        if not part.brought:
            water, fat = part.food.content("water_g") or 0.0, part.food.content("fat_g") or 0.0
            moist_g = weights.get(part.key, (False, 0.0))[1] + part.mass_g * (water + fat) / 100
            weights[part.key] = (water > 50 and moist_g > enough_g, moist_g)
    return max(weights, key=lambda key: weights[key], default=batch.weighed[0].key)


def tempering_text(batch: Batch, warmed: _Warmed, mixed: Estimated, conditions: Conditions, key: str) -> str:
    """How cold or warm one ingredient must be for the wanted temperature; empty if there is none, or none can be.

    Not if it is less than a tenth of the batch, or mostly fat and too hard or too soft to beat, or so hot that it would
    melt the butter, or if what is not known of the temperature is more than it can be made colder or warmer by.

    Args:
        mixed: the temperature of the mixture as it is.
    """
    wanted = conditions.target_c
    parts = [(part, heat) for part, heat in zip(batch.vessels[-1].parts, warmed.parts, strict=True) if heat]
    if wanted is None or all(part.brought for part, _ in parts):
        return ""
    name = next(weighed.name for weighed in batch.weighed if weighed.key == key)
    own = [(part, heat) for part, heat in parts if part.key == key and not part.brought]
    if not own:
        return f"not given: {name} is heated or cooled with others, or left out; choose another ingredient"
    comes_out = _comes_out_text(mixed, conditions, wanted)
    own_g = fsum([part.mass_g for part, _ in own])
    mass = f"{number_text(own_g, 0)} g of {name}"
    if own_g < _LEAST_SHARE * fsum([part.mass_g for part, _ in parts]):
        return f"not given: {mass} is too little to change the mixture's temperature. {comes_out}"
    others = [heat for part, heat in parts if part.key != key or part.brought]
    content = combined([heat for _, (heat, _) in own])
    reading_k = constants("kitchen")["thermometer"]
    needed = ingredient_temperature_c(others, content, wanted, _work_j(conditions), warmed.dissolving_j, reading_k)
    if isinstance(needed, Withheld):
        return f"not given: {needed.reason}. {comes_out}"
    reason = _unsuitable([part for part, _ in own], [part for part, _ in parts], name, needed)
    if reason:
        return f"not given: {reason}. {comes_out}"
    some = "" if len(own) == len([part for part, _ in parts if part.key == key]) else "the part that goes in unheated, "
    return f"{some}{mass} at {estimate_text(needed, 1, '°C')} for a mixture at {celsius_text(wanted)}"


def _unsuitable(own: Sequence[VesselPart], all_parts: Sequence[VesselPart], name: str, needed: Estimate) -> str:
    """Why an ingredient should not go in at this temperature; empty if it can."""
    kitchen = constants("kitchen")
    coldest, warmest = kitchen["refrigerator"], constants("heat-balance")["highest_t"]
    shown = celsius_text(needed.value)
    unmelted = [part for part in all_parts if is_unmelted_fat((part.food, part.mass_g, part.treatment))]
    fat = fsum([(part.food.content("fat_g") or 0.0) * part.mass_g for part in own])
    if fat > 50 * fsum([part.mass_g for part in own]):
        coldest = kitchen["butter_hardest"]
        warmest = kitchen["butter_creamed" if any(part in unmelted for part in own) else "butter_softest"]
        # To the degree, as butter is measured.
        if not coldest - 0.5 <= needed.value < warmest + 0.5:
            return f"at {shown}, {name} would be too {'soft' if needed.value > warmest else 'hard'} to beat"
    elif unmelted:
        warmest = UNMELTED_C
        if needed.value > warmest:
            return f"at {shown}, {name} would melt the {'butter' if _all_butter(unmelted) else 'fat'}"
    if needed.high - needed.low > warmest - coldest:
        return f"how warm {name} would have to be is not known well enough"
    return ""


def _all_butter(parts: Sequence[VesselPart]) -> bool:
    return all((part.food.content("milk_fat_g") or 0.0) > 0 for part in parts)


def _comes_out_text(mixed: Estimated, conditions: Conditions, wanted_c: float) -> str:
    """At what temperature the mixture comes out as it is, and what brings it nearer to the wanted one."""
    if isinstance(mixed, Withheld):
        return "Choose another ingredient"
    warms = ", and beating warms it" if mixed.value < wanted_c and not _work_j(conditions) else ""
    return f"As it is, the mixture comes out at {estimate_text(mixed, 1, '°C')}{warms}"


def chilling_text(batch: Batch, conditions: Conditions) -> str:
    """How long to chill the bowl, from the reader's two readings; without them from our bowl, or common practice."""
    beaten = batch.recipe.family in BEATEN_WITH_BUTTER
    wanted = conditions.target_c
    if wanted is None:
        return "not given: enter what it should be at, and two temperatures that you measured in this bowl"
    readings = (conditions.chilled_from_c, conditions.chilled_to_c, conditions.chilled_min)
    tau: Estimated | None = None
    if readings[0] is not None and readings[1] is not None and readings[2] is not None:
        tau = time_constant_min(readings[0], readings[1], readings[2], conditions.cold_c)
        if isinstance(tau, Withheld):
            return f"not given: {tau.reason}"
    if conditions.bowl_c <= wanted:
        return "no need: the bowl is cold enough"
    ours = conditions.ours.chilling
    if tau is None and ours:
        return _in_our_bowl(conditions, wanted, ours, beaten)
    if tau is None and not beaten:
        return "not given: a time needs two temperatures measured in this bowl"
    needed = chilling_min(
        conditions.bowl_c, wanted, conditions.cold_c, tau.value if isinstance(tau, Estimate) else None
    )
    shown = estimate_text(needed, 0, "min")
    if isinstance(needed, Withheld):
        return shown
    return f"{shown} from {celsius_text(conditions.bowl_c)} to {celsius_text(wanted)}{_THEN if beaten else ''}"


_THEN = ", then whisk again"


def _in_our_bowl(conditions: Conditions, wanted_c: float, ours: OurReading, beaten: bool) -> str:
    """How long to chill, by the time constant of our bowl."""
    bowl_c, cold_c = conditions.bowl_c, conditions.cold_c
    needed = [chilling_min(bowl_c, wanted_c, cold_c, tau) for tau in (ours.value, ours.low, ours.high)]
    minutes = [end.value for end in needed if isinstance(end, Estimate)]
    if isinstance(needed[0], Withheld):
        return f"not given: {needed[0].reason}"
    shown = estimate_text(Estimate(minutes[0], minutes[1], minutes[2], COOLING), 0, "min")
    way = f"from {celsius_text(bowl_c)} to {celsius_text(wanted_c)}"
    return f"{shown} {way}, in our bowl and refrigerator ({ours.source}){_THEN if beaten else ''}"


def _warmed_at_ends(vessel: Vessel, conditions: Conditions) -> list[_Warmed]:
    """How a vessel stores heat, at each end of what is not known of its ingredients."""
    return [_warmed(vessel, foods, conditions) for foods in ends_of([part.food for part in vessel.parts])]


def _warmed(vessel: Vessel, foods: Sequence[Food], conditions: Conditions) -> _Warmed:
    heat: list[HeatPart | None] = []
    sugars: list[SugarPart] = []
    for part, food in zip(vessel.parts, foods, strict=True):
        t_c = conditions.room_c if part.temperature_c is None else part.temperature_c
        dry = not part.brought and has_crystals(food)
        heat.append(HeatPart(heat_content(food, part.mass_g, crystals=dry), t_c) if part.mass_g > 0 else None)
        sugars.append(SugarPart(food, part.mass_g, t_c, part.brought))
    return _Warmed(heat, dissolving_heat_j(sugars, vessel.water_lost_g))


def _mixed(warmed: _Warmed, work_j: float = 0.0) -> Estimated:
    """The temperature of a mixture, by temperatures that were read off a thermometer."""
    reading_k = constants("kitchen")["thermometer"]
    return mixing_temperature_c([part for part in warmed.parts if part], work_j, warmed.dissolving_j, reading_k)


def _work_j(conditions: Conditions) -> float:
    return mixer_work_j(conditions.mixer_w or 0.0, 60 * (conditions.mixer_min or 0.0))
