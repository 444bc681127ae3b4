"""Why a mixture holds together, in plain words from its figures; each sentence says if it is only common practice."""

from crumbcoat_calc.science.between import StateBetween
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.emulsifier import droplet_sizes_um
from crumbcoat_calc.science.emulsion import InnerPhase, Packing
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.more_sugar import SugarEffect
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.agreed import agreed_text
from crumbcoat_calc.texts.estimates import mass_estimate_text
from crumbcoat_calc.values.display import celsius_text, list_text, mass_text, number_text, range_text

THICK_SYRUP, THIN_SYRUP = 55.0, 35.0
"""Strengths, in g per 100 g, from which a syrup is called thick, and below which thin (common practice, no source)."""

FIRM, SOFT = 35.0, 10.0
"""Solid milk fat, in g per 100 g, from which it is called firm, and below which weak (common practice, no source)."""


_SEEN_SUGAR = 0.005
"""Undissolved sugar, as a share of the mass, below which nothing is said about it (common practice, no source)."""

_SLOW_SUGARS = {
    "lactose": "milk sugar (lactose)", "glucose": "dextrose (glucose)", "maltose": "maltose", "fructose": "fructose",
}  # fmt: skip
"""The sugars that crystallise slowly, as a reader knows them."""

_ABOUT = {
    "fat": "how closely the fat is packed",
    "syrup": "how strong the syrup is",
    "sugar": "whether all the sugar dissolves",
    "cover": "whether the fat can be covered",
    "warmth": "how firm the fat is",
}
"""What each part is about, for a mixture of which not enough is known."""


def why_texts(state: MixtureState, emulsified: bool | None) -> Texts:
    """`why.fat`, `why.syrup`, `why.sugar`, `why.cover`, `why.warmth`: one or two sentences each, or empty.

    `why.short` is the share of fat alone. Where the ends of what is not known do not agree, a sentence says so.
    """
    if not isinstance(state, StateBetween):
        return {**_why_texts(state, emulsified)}
    ends = [_why_texts(end, emulsified) for end in state.ends]
    texts: Texts = {"why.short": agreed_text([end["why.short"] for end in ends], "")}
    for part, about in _ABOUT.items():
        otherwise = f"What is not known of {state.unknown} leaves open {about}."
        texts[f"why.{part}"] = agreed_text([end[f"why.{part}"] for end in ends], otherwise)
    return texts


def _why_texts(state: MixtureState, emulsified: bool | None) -> dict[str, str]:
    return {
        "why.short": share_sentence(state),
        "why.fat": fat_sentence(state, emulsified),
        "why.syrup": syrup_sentence(state),
        "why.sugar": sugar_sentence(state, emulsified),
        "why.cover": cover_sentence(state, emulsified),
        "why.warmth": warmth_sentence(state),
    }


def share_sentence(state: MixtureState) -> str:
    """Fat by volume, if it is known and there is some."""
    phi = state.fat_volume_percent
    if not isinstance(phi, Estimate) or phi.value < 1:
        return ""
    return f"Fat is {number_text(phi.value, 0)} % of the volume of fat and water."


def fat_sentence(state: MixtureState, emulsified: bool | None) -> str:
    """Fat by volume, how close it is packed, and which phase is inside by amount."""
    phi = state.fat_volume_percent
    if not isinstance(phi, Estimate):
        return ""
    share = share_sentence(state)
    if phi.value < 1:
        return "There is hardly any fat: syrup, air and solids hold it together."
    if emulsified is False:
        return (
            f"{share} In frostings of this kind (common practice) it surrounds the water and holds everything together."
        )
    if emulsified is None and state.inner_phase is InnerPhase.WATER:
        return f"{share.removesuffix('.')}: by amount, it surrounds the water and holds it."
    if state.packing is Packing.LOOSE:
        crowd = (
            "If it is in droplets, they have room between them, so the water phase and the air must do part of the "
            "holding."
            if phi.value < 50
            else "If it is in droplets, they nearly touch, which already makes the batch thick."
        )
    elif state.packing is Packing.CLOSE:
        crowd = "That is about as close as droplets can pack: they support each other, so the frosting holds its shape."
    else:
        crowd = "Droplets would be squeezed out of shape: stiff, and easily inverted (fat around water) by more fat."
    return f"{share} {crowd}"


def syrup_sentence(state: MixtureState) -> str:
    """How strong the syrup is, and what that means."""
    strength = state.syrup_strength_percent
    if not isinstance(strength, Estimate):
        return ""
    shown = number_text(strength.value, 0)
    if strength.value >= THICK_SYRUP:
        thick = "thick, so water and droplets move slowly in it"
    elif strength.value >= THIN_SYRUP:
        thick = "fluid, so it adds little thickness"
    else:
        thick = "as thin as a drink, so something else must hold the batch together"
    viscosity = state.syrup_viscosity_mpa_s
    times = ""
    if isinstance(viscosity, Estimate) and viscosity.value >= 3:
        times = f" (about {number_text(viscosity.value, 0)} times as viscous as water)"
    return f"Water and dissolved sugar form a syrup of {shown} % sugar{times}: {thick}."


def sugar_sentence(state: MixtureState, emulsified: bool | None) -> str:
    """Undissolved sugar, what more sugar would do, and milk sugar that may crystallise in the cold."""
    left = state.undissolved_sugar_g
    if not isinstance(left, Estimate) or isinstance(state.syrup, Withheld):
        return ""
    seen = _SEEN_SUGAR * state.mass_g
    if left.high >= seen and state.saturated:
        return (
            f"{mass_estimate_text(left)} of sugar stays undissolved: its crystals stiffen the batch, and can be felt "
            "if they are coarse. More sugar only makes it stiffer."
        )
    if left.high >= seen and state.saturated is None:
        return f"It is not certain how much of the sugar dissolves: {_range(left)} stays undissolved."
    thins = state.sugar_effect(emulsified) is SugarEffect.DISSOLVES_AND_THINS
    more = " More sugar would first make more syrup, and so the frosting runnier, not stiffer." if thins else ""
    crystals = state.lactose.crystals_g
    cold = _range(crystals) if isinstance(crystals, Estimate) and crystals.high >= seen else ""
    if left.high >= seen:
        slow = state.syrup.slow_g
        names = list_text([_SLOW_SUGARS[name] for name in slow if slow[name] >= seen / len(slow)])
        in_cold = f" ({cold} of crystals in the cold)" if cold else ""
        return (
            f"Of the {names}, {_range(left)} is more than this water can keep dissolved. It may crystallise over "
            f"days{in_cold}, and feel sandy. The other sugars stay dissolved.{more}"
        )
    if cold:
        more += f" In the cold, {cold} of milk sugar (lactose) may crystallise over days, and feel sandy."
    return f"All the sugar is dissolved.{more}" if more else "All the sugar is dissolved, so nothing is grainy."


def _range(estimate: Estimate) -> str:
    return range_text(mass_text(estimate.low), mass_text(estimate.high))


def cover_sentence(state: MixtureState, emulsified: bool | None) -> str:
    """Whether protein and phospholipid can cover the droplets that a whisk makes."""
    finest = state.emulsifiers.finest_droplet_um
    fat = state.fat_g
    if emulsified is False or not isinstance(finest, Estimate) or not isinstance(fat, Estimate):
        return ""
    if fat.value < 0.02 * state.mass_g:
        return ""
    fine, coarse = droplet_sizes_um()
    shown = number_text(finest.value, 1 if finest.value < 10 else 0)
    if finest.value <= fine:
        enough = f"enough for all the droplets that a whisk makes ({fine:g} to {coarse:g} µm)"
    elif finest.value <= coarse:
        enough = f"enough for the coarser droplets that a whisk makes ({fine:g} to {coarse:g} µm), not for the finest"
    else:
        enough = f"not enough for what a whisk makes ({fine:g} to {coarse:g} µm): the batch may split when it is warm"
    return f"Milk protein and phospholipid can cover droplets down to about {shown} µm, {enough}."


def warmth_sentence(state: MixtureState) -> str:
    """How much of the milk fat is solid at the bowl's temperature, and how that feels."""
    solid = state.solid_fat_percent
    fat = state.fat_g
    if not isinstance(solid, Estimate) or not isinstance(fat, Estimate):
        return ""
    if fat.value < 0.02 * state.mass_g:
        return ""
    low, high = number_text(solid.low, 0), number_text(solid.high, 0)
    at = celsius_text(state.at_c)
    if solid.value >= FIRM:
        feel = "a firm framework, which may look curdled if beaten now and comes together as it warms"
    elif solid.value >= SOFT:
        feel = "a framework soft enough to beat and strong enough to hold its shape"
    elif solid.high > 0:
        minutes = constants("cooling")["chill_minutes"]
        feel = f"a weak framework; common practice: about {minutes:g} min in the refrigerator, then whisk again"
    else:
        minutes = constants("cooling")["chill_minutes"]
        return (
            f"At {at}, all the fat is liquid and supports nothing; common practice: about {minutes:g} min in the "
            "refrigerator, then whisk again."
        )
    return f"At {at}, about {low} to {high} % of the fat is solid: {feel}."
