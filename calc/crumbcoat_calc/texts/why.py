"""Why a mixture holds, in plain words driven by its figures; hedged where it is common practice or by amount only."""

from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.emulsifier import droplet_sizes_um
from crumbcoat_calc.science.emulsion import InnerPhase, Packing
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.more_sugar import SugarEffect
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.estimates import mass_estimate_text
from crumbcoat_calc.values.display import celsius_text, number_text

THICK_SYRUP, THIN_SYRUP = 55.0, 35.0
"""Strengths, in g per 100 g, from which a syrup is called thick or thin here (common practice, no source)."""

FIRM, SOFT = 35.0, 10.0
"""Solid milk fat, in g per 100 g, from which it is called firm, or below which soft (common practice, no source)."""


def why_texts(state: MixtureState, emulsified: bool | None) -> Texts:
    """`why.fat`, `why.syrup`, `why.sugar`, `why.cover`, `why.warmth`: a sentence or two each, or empty."""
    return {
        "why.fat": fat_sentence(state, emulsified),
        "why.syrup": syrup_sentence(state),
        "why.sugar": sugar_sentence(state, emulsified),
        "why.cover": cover_sentence(state, emulsified),
        "why.warmth": warmth_sentence(state),
    }


def fat_sentence(state: MixtureState, emulsified: bool | None) -> str:
    """Fat by volume against the packing marks, and which phase is inside by amount."""
    phi = state.fat_volume_percent
    if not isinstance(phi, Estimate):
        return ""
    share = number_text(phi.value, 0)
    if phi.value < 1:
        return "There is hardly any fat: what holds it is syrup, air and solids."
    if emulsified is False:
        return (
            f"Fat is {share} % of the volume of fat and water. In a frosting of this kind (common practice) it "
            "surrounds the water, and the fat is what holds everything."
        )
    if emulsified is None and state.inner_phase is InnerPhase.WATER:
        return f"Fat is {share} % of the volume of fat and water: by amount it surrounds the water and holds it."
    if state.packing is Packing.LOOSE:
        crowd = (
            "Its droplets, where it is in droplets, have room between them; the water phase and the air must do part "
            "of the holding."
            if phi.value < 50
            else "Its droplets, where it is in droplets, nearly touch, and that is already thick."
        )
    elif state.packing is Packing.CLOSE:
        crowd = "That is about as close as droplets pack: they lean on each other, and the frosting stands."
    else:
        crowd = "As droplets they would be squeezed out of shape: stiff, and quick to turn over if more fat comes."
    return f"Fat is {share} % of the volume of fat and water. {crowd}"


def syrup_sentence(state: MixtureState) -> str:
    """How strong the syrup is, and what that does."""
    strength = state.syrup_strength_percent
    if not isinstance(strength, Estimate):
        return ""
    shown = number_text(strength.value, 0)
    if strength.value >= THICK_SYRUP:
        thick = "thick, so water and droplets move slowly in it"
    elif strength.value >= THIN_SYRUP:
        thick = "fluid; it thickens little by itself"
    else:
        thick = "thin as a drink; what holds must be something else"
    viscosity = state.syrup_viscosity_mpa_s
    times = ""
    if isinstance(viscosity, Estimate) and viscosity.value >= 3:
        times = f" (about {number_text(viscosity.value, 0)} times as thick as water)"
    return f"The water holds a syrup of {shown} % sugar{times}: {thick}."


def sugar_sentence(state: MixtureState, emulsified: bool | None) -> str:
    """Undissolved sugar, and what more sugar would do."""
    left = state.undissolved_sugar_g
    if not isinstance(left, Estimate) or state.saturated is None:
        return ""
    if left.value >= 0.005 * state.mass_g:
        return (
            f"{mass_estimate_text(left)} of sugar stays undissolved: its fine crystals stiffen, and can be felt if "
            "they are coarse. More sugar only stiffens further."
        )
    effect = state.sugar_effect(emulsified)
    if effect is SugarEffect.DISSOLVES_AND_THINS:
        return "All the sugar is dissolved. More of it would make more syrup first: the frosting runnier, not stiffer."
    return "All the sugar is dissolved, so there is no grain."


def cover_sentence(state: MixtureState, emulsified: bool | None) -> str:
    """Whether protein and phospholipid can cover droplets as a whisk makes them."""
    finest = state.emulsifiers.finest_droplet_um
    fat = state.fat_g
    if emulsified is False or not isinstance(finest, Estimate) or not isinstance(fat, Estimate):
        return ""
    if fat.value < 0.02 * state.mass_g:
        return ""
    fine, coarse = droplet_sizes_um()
    shown = number_text(finest.value, 1 if finest.value < 10 else 0)
    if finest.value <= fine:
        enough = f"enough for all that a whisk makes ({fine:g} to {coarse:g} µm)"
    elif finest.value <= coarse:
        enough = f"enough for the coarser part of what a whisk makes ({fine:g} to {coarse:g} µm), not for the finest"
    else:
        enough = f"too little for what a whisk makes ({fine:g} to {coarse:g} µm): it may break when it is warm"
    return f"Milk protein and phospholipid can cover droplets down to about {shown} µm, {enough}."


def warmth_sentence(state: MixtureState) -> str:
    """How much of the milk fat is solid at the bowl's temperature, and what that feels like."""
    solid = state.solid_fat_percent
    fat = state.fat_g
    if not isinstance(solid, Estimate) or not isinstance(fat, Estimate):
        return ""
    if fat.value < 0.02 * state.mass_g:
        return ""
    low, high = number_text(solid.low, 0), number_text(solid.high, 0)
    at = celsius_text(state.at_c)
    if solid.value >= FIRM:
        feel = "a firm frame; beaten now it may look curdled, and comes together as it warms"
    elif solid.value >= SOFT:
        feel = "a frame that is soft enough to beat and strong enough to stand"
    elif solid.high > 0:
        minutes = constants("cooling")["chill_minutes"]
        feel = f"little frame is left; common practice: about {minutes:g} min in the refrigerator, then whisk again"
    else:
        minutes = constants("cooling")["chill_minutes"]
        return (
            f"At {at} all the milk fat is liquid and holds nothing up; common practice: about {minutes:g} min in the "
            "refrigerator, then whisk again."
        )
    return f"At {at} about {low} to {high} % of the milk fat is solid: {feel}."
