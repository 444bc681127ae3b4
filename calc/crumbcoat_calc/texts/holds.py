"""Text about what holds a mixture, what of it is melting at the temperature of the bowl, and what has melted."""

from collections.abc import Mapping, Sequence

from crumbcoat_calc.science.carriers import Carrier, Carries
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.science.structure import FATS, Structure
from crumbcoat_calc.values.display import celsius_text, list_text


def holds_text(structure: Structure, names: Mapping[Carries, str], state: MixtureState) -> str:
    """What holds the mixture, the strongest first, and what is melting; or that all of it has melted."""
    at = f"At {celsius_text(state.at_c)}"
    firm = [carrier for carrier in structure.carriers if carrier not in structure.weak and carrier.carries in names]
    weak = [names[carrier.carries] for carrier in structure.weak if carrier.carries in names]
    if structure.nothing_holds:
        return f"{at}, nothing holds it: {_melted_text(structure, state)}."
    if not firm and not weak:
        return ""
    alone = any(carrier.strength >= 1 for carrier in firm)
    holding = ", then ".join([names[carrier.carries] for carrier in firm])
    if not weak and (alone or not _fats_of(structure.melted)):
        return f"What holds it: {holding}."
    are, add = ("is", "adds") if len(weak) == 1 else ("are", "add")
    if alone:
        return f"What holds it: {holding}. {at}, {list_text(weak)} {are} melting, and hardly {add} to that."
    why = f"{list_text(weak)} {are} melting" if weak else _melted_text(structure, state)
    rest = f"; {list_text([names[carrier.carries] for carrier in firm])} alone may not be enough" if firm else ""
    return f"{at}, little holds it: {why}{rest}."


def _fats_of(carriers: Sequence[Carrier]) -> bool:
    return any(carrier.carries in FATS for carrier in carriers)


def _melted_text(structure: Structure, state: MixtureState) -> str:
    """What has melted."""
    solid = state.solid_fat_percent
    if not _fats_of(structure.melted):
        return f"{list_text([carrier.carries.value for carrier in structure.melted])} has melted"
    liquid = isinstance(solid, Estimate) and solid.high < 0.01
    return "the fat is liquid" if liquid else "hardly any of the fat is solid"
