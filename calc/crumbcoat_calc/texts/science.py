"""Texts about the science of a batch: phases, syrup, fat and water, what covers the fat, water activity, air."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.forms.conditions import Conditions
from crumbcoat_calc.pictures.phases import PhaseShare, StagePhases, phase_bars
from crumbcoat_calc.recipe.batch import Batch, Vessel
from crumbcoat_calc.science.between import StateBetween, state_at_ends
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.science.keeping import CAUTIONS, keeping_advice
from crumbcoat_calc.science.lactose import Lactose
from crumbcoat_calc.science.more_sugar import SugarEffect
from crumbcoat_calc.science.parts import Part
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.science.structure import Structure, structure_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.agreed import agreed_text
from crumbcoat_calc.texts.air import Air, overrun_text
from crumbcoat_calc.texts.cover import cover_texts
from crumbcoat_calc.texts.estimates import cell_text, estimate_text, mass_estimate_text
from crumbcoat_calc.texts.temperature import temperature_texts
from crumbcoat_calc.texts.warming import carried_by_fat, warming_texts
from crumbcoat_calc.texts.why import why_texts
from crumbcoat_calc.values.display import (
    celsius_text,
    list_text,
    mass_text,
    number_text,
    plain_number_text,
    range_text,
)

_SEEN_IN_A_BAR = 0.04
"""A share of a bar that can be seen (common practice, no source)."""

_OPEN_SUGAR = 0.1
"""Sugar that may be dissolved or not, as a share of a bar, from which the bar shows both as one (as above)."""


def science_texts(batch: Batch, conditions: Conditions, air: Air) -> Texts:
    """`science.<figure>` of the chosen stage, `rows.stages`, `picture.phases`, `why.<part>`, and the temperatures.

    The figures are those of texts/explained.py.

    Args:
        air: what is known of the air in the finished batch.
    """
    *before, last = batch.vessels
    looked_at, vessel, family, parts = len(before), last, batch.recipe.family, treated_parts(last)
    state = finished = vessel_state(last, conditions.bowl_c)
    structure = holding = structure_of(parts, family, finished)
    if conditions.looked_at is not None:
        looked_at, vessel = conditions.looked_at, batch.vessels[conditions.looked_at]
        state = vessel_state(vessel, conditions.bowl_c)
        structure = structure_of(treated_parts(vessel), family, state)
    texts = figure_texts(state, structure)
    texts["science.of"] = _of_text(batch, looked_at, state)
    if conditions.looked_at is None and batch.recipe.measured.water_activity is not None:
        measured = plain_number_text(batch.recipe.measured.water_activity)
        texts["science.water_activity"] = f"{texts['science.water_activity']}; measured on a finished batch: {measured}"
    texts["science.keeping"] = keeping_text(_sure_activity(vessel, state), conditions.ph)
    stages = [*[vessel_state(one, _stage_c(one, conditions)) for one in before], finished]
    texts["rows.stages"] = [
        [f"{_stage_name(batch, number)}, at {celsius_text(stage.at_c)}", *stage_cells(stage)]
        for number, stage in enumerate(stages)
    ]
    texts["picture.phases"] = _picture(batch, stages)
    texts |= why_texts(finished, parts, family, holding)
    texts["science.overrun"] = overrun_text(air, finished.density_g_per_ml, batch.recipe.made, conditions.ours.overrun)
    if holding.nothing_holds and not air.by_cup:
        texts["science.overrun"] = f"not given: at {celsius_text(conditions.bowl_c)}, nothing holds the air"
    texts |= warming_texts(batch, conditions, finished, air.density_g_per_ml, by_fat=carried_by_fat(holding))
    return texts | temperature_texts(batch, conditions, looked_at)


def _sure_activity(vessel: Vessel, state: MixtureState) -> Estimated:
    """The water activity, unless it rests on what is assumed of an ingredient: nothing about safety may."""
    assumed = list(dict.fromkeys([part.food.name for part in vessel.parts if part.food.assumed and part.mass_g > 0]))
    if not assumed:
        return state.sure_water_activity
    return Withheld(f"the composition of {list_text(assumed)} was worked out from a pack")


def treated_parts(vessel: Vessel) -> list[Part]:
    """What is in a vessel, with what was done to it."""
    return [(part.food, part.mass_g, part.treatment) for part in vessel.parts if part.mass_g > 0]


def vessel_state(vessel: Vessel, t_c: float) -> MixtureState:
    """The state of the contents of a vessel, at rest at one temperature."""
    masses_g = tuple([part.mass_g for part in vessel.parts])
    return _state(_Contents([part.food for part in vessel.parts], masses_g, vessel.water_lost_g), t_c)


@dataclass(frozen=True, slots=True)
class _Contents:
    """The contents of a vessel as the key of a cache: found by the masses, since hashing each food takes longer."""

    foods: Sequence[Food] = field(hash=False)
    masses_g: tuple[float, ...]
    water_lost_g: float


@lru_cache(maxsize=64)
def _state(contents: _Contents, t_c: float) -> MixtureState:
    """Cached for a few edits, since many of them leave some stages, or all, as they were."""
    parts = list(zip(contents.foods, contents.masses_g, strict=True))
    return state_at_ends(parts, t_c, boiled_off_g=contents.water_lost_g)


def figure_texts(state: MixtureState, structure: Structure) -> Texts:
    """`science.<figure>` of one mixture, each with its band, or "not given" with the reason."""
    cover, emulsified = structure.emulsifiers(state), structure.held_by_droplets
    return {
        "science.fat": mass_estimate_text(state.fat_g),
        "science.water": mass_estimate_text(state.water_g),
        "science.dissolved_sugar": mass_estimate_text(state.dissolved_sugar_g),
        "science.undissolved_sugar": mass_estimate_text(state.undissolved_sugar_g),
        **_lactose_texts(state.lactose),
        "science.other_solids": mass_estimate_text(state.other_solids_g),
        "science.syrup_strength": estimate_text(state.syrup_strength_percent, 1, "%"),
        "science.saturation": estimate_text(state.sucrose_saturation_percent, 1, "%"),
        "science.headroom": _at_ends(state, lambda end: headroom_text(end, emulsified)),
        "science.syrup_density": estimate_text(state.syrup_density_g_per_ml, 3, "g/mL"),
        "science.syrup_viscosity": _viscosity_text(state.syrup_viscosity_mpa_s),
        "science.fat_volume": estimate_text(state.fat_volume_percent, 0, "%"),
        "science.packing": _at_ends(state, packing_text),
        "science.inside": _at_ends(state, inside_text),
        "science.solid_fat": estimate_text(state.solid_fat_percent, 0, "%"),
        "science.density": estimate_text(state.density_g_per_ml, 2, "g/mL"),
        "science.water_activity": estimate_text(state.water_activity, 2, ""),
        "science.water_activity_norrish": estimate_text(state.water_activity_norrish, 3, ""),
        "science.water_activity_money_born": estimate_text(state.water_activity_money_born, 3, ""),
        **cover_texts(cover, structure.droplets[0]),
    }


def _at_ends(state: MixtureState, text: Callable[[MixtureState], str]) -> str:
    """A text in words, for which the ends of what is not known must agree."""
    if not isinstance(state, StateBetween):
        return text(state)
    otherwise = f"not given: what is not known of {state.unknown} leaves it open"
    return agreed_text([text(end) for end in state.ends], otherwise)


def inside_text(state: MixtureState) -> str:
    """Which phase can be inside, by amount."""
    return state.inner_phase.value if state.inner_phase else _reason(state.fat_volume_percent)


def headroom_text(state: MixtureState, emulsified: bool | None) -> str:
    """How much more sugar would dissolve, and the effect of more sugar."""
    headroom = state.headroom_g
    if isinstance(headroom, Withheld):
        return f"not given: {headroom.reason}"
    effect = state.sugar_effect(emulsified)
    if state.saturated:
        return "the syrup is saturated: more sugar stays undissolved and stiffens"
    much = mass_estimate_text(headroom)
    if effect is SugarEffect.DISSOLVES_AND_THINS:
        return f"{much} more would dissolve and make it runnier; beyond that, sugar stays undissolved and stiffens"
    if effect is SugarEffect.STIFFENS:
        return f"{much} more would dissolve in the little water inside the fat; more sugar only stiffens it"
    if state.saturated is None:
        return (
            f"{much} more would dissolve: whether the syrup is saturated, and so the effect of more sugar, is not known"
        )
    return f"{much} more would dissolve; beyond that, sugar stays undissolved and stiffens"


def packing_text(state: MixtureState) -> str:
    """How close the fat is packed, with the marks."""
    if state.packing is None:
        return _reason(state.fat_volume_percent)
    marks = constants("close-packing")
    return (
        f"{state.packing.value} (marks: {number_text(100 * marks['random'], 0)} % and "
        f"{number_text(100 * marks['ordered'], 0)} %; advice, not a verdict)"
    )


def keeping_text(water_activity: Estimated, ph: float | None) -> str:
    """What the keeping table says about this prediction, with its cautions; never a clearance."""
    advice = keeping_advice(water_activity, ph)
    if isinstance(advice, Withheld):
        return f"needs assessment: {advice.reason}. Only a laboratory's measurement counts."
    return ". ".join([advice.value, *[caution.rstrip(".") for caution in CAUTIONS]]) + "."


def stage_cells(state: MixtureState) -> list[str]:
    """A row of the table of stages: mass and phases in g, strength, fat by volume, water activity."""
    band = isinstance(state, StateBetween)
    phases = (
        state.fat_g, state.water_g, state.dissolved_sugar_g, state.undissolved_sugar_g, state.other_solids_g,
    )  # fmt: skip
    return [
        mass_text(state.mass_g),
        *[_mass_cell(phase, band) for phase in phases],
        cell_text(state.syrup_strength_percent, 1, "%", band=band),
        cell_text(state.fat_volume_percent, 0, "%", band=band),
        cell_text(state.water_activity, 2, "", band=band),
    ]


def _mass_cell(phase: Estimated, band: bool) -> str:
    if isinstance(phase, Withheld):
        return "not given"
    return range_text(mass_text(phase.low), mass_text(phase.high)) if band else mass_text(phase.value)


def _lactose_texts(lactose: Lactose) -> Texts:
    dissolved, crystals, times = lactose
    if isinstance(times, Estimate) and times.high <= 0:
        return dict.fromkeys(("science.lactose", "science.lactose_crystals", "science.lactose_supersaturation"), "none")
    shown = estimate_text(times, 1, "times")
    if isinstance(times, Estimate):
        shown = estimate_text(times, 1 if times.high >= 0.1 else 2, "times")
        if times.high <= 1:
            shown += ": it stays dissolved"
        elif times.low > 1:
            shown += ": crystals may form over days, sooner around crystals that are there already"
        else:
            shown += ": whether crystals form is not certain"
    return {
        "science.lactose": mass_estimate_text(dissolved),
        "science.lactose_crystals": mass_estimate_text(crystals),
        "science.lactose_supersaturation": shown,
    }


def _viscosity_text(viscosity: Estimated) -> str:
    if isinstance(viscosity, Withheld):
        return f"not given: {viscosity.reason}"
    return estimate_text(viscosity, 0 if viscosity.value >= 20 else 1, "mPa·s")


def _reason(answer: Estimated) -> str:
    return f"not given: {answer.reason}" if isinstance(answer, Withheld) else ""


def _of_text(batch: Batch, number: int, state: MixtureState) -> str:
    what = "The finished batch" if number == len(batch.vessels) - 1 else f"After stage {number + 1}"
    return f"{what}, {mass_text(state.mass_g)}, at rest at {celsius_text(state.at_c)}"


def _stage_name(batch: Batch, number: int) -> str:
    stage = batch.recipe.stages[number]
    return f"{number + 1}. {stage.title}{' (set aside)' if stage.makes else ''}"


def _stage_c(vessel: Vessel, conditions: Conditions) -> float:
    """The temperature that all of a vessel was brought to last, else that of the bowl."""
    brought = {part.temperature_c if part.brought else None for part in vessel.parts if part.mass_g > 0}
    only = brought.pop() if len(brought) == 1 else None
    return conditions.bowl_c if only is None else only


def _picture(batch: Batch, states: Sequence[MixtureState]) -> str:
    stages = [
        StagePhases(name=_stage_name(batch, number), text=mass_text(state.mass_g), shares=phase_shares(state))
        for number, state in enumerate(states)
    ]
    return phase_bars("phases", "Contents of the bowl after each stage, in g", stages)


def phase_shares(state: MixtureState) -> tuple[PhaseShare, ...]:
    """The phases of a mixture as parts of a bar; sugars and solids that cannot be separated are one part.

    So are dissolved and undissolved sugar where a tenth of the mass could be either. There is no bar where what is not
    known leaves more of the fat or water open than can be seen in it.
    """
    fat, water = state.fat_g, state.water_g
    if isinstance(fat, Withheld) or isinstance(water, Withheld):
        return ()
    if max(fat.high - fat.low, water.high - water.low) > _SEEN_IN_A_BAR * state.mass_g:
        return ()
    shares = [_share("Fat", fat.value, "fat"), _share("Water", water.value, "water")]
    dissolved, undissolved, solids = state.dissolved_sugar_g, state.undissolved_sugar_g, state.other_solids_g
    if isinstance(dissolved, Estimate) and isinstance(undissolved, Estimate) and isinstance(solids, Estimate):
        if dissolved.high - dissolved.low > _OPEN_SUGAR * state.mass_g:
            shares.append(_share("Sugar, dissolved or not", dissolved.value + undissolved.value, "filling"))
        else:
            shares.append(_share("Dissolved sugar", dissolved.value, "sugar"))
            shares.append(_share("Undissolved sugar", undissolved.value, "crystal"))
        shares.append(_share("Other solids", solids.value, "solids"))
    else:
        rest = state.mass_g - fat.value - water.value - state.ethanol_g
        shares.append(_share("Sugars and other solids together", max(0.0, rest), "protein"))
    if state.ethanol_g >= 0.5:
        shares.append(_share("Alcohol", state.ethanol_g, "other"))
    return tuple(shares)


def _share(name: str, mass_g: float, material: str) -> PhaseShare:
    return PhaseShare(name, mass_g, mass_text(mass_g), material)
