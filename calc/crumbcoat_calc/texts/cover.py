"""Texts about what can cover the fat of a mixture: emulsifiers, surface, and the finest droplets."""

from crumbcoat_calc.science.emulsifier import Emulsifiers
from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.estimates import mass_estimate_text
from crumbcoat_calc.values.display import mass_text, significant_text

_SURE = 0.99
"""The share of the fat that has to be in droplets for sure, for figures of their surface (an assumption)."""


def cover_texts(cover: Emulsifiers, in_droplets: float) -> Texts:
    """The figures of what covers the fat; none of a surface where fat may surround the water.

    Args:
        in_droplets: the share of the fat that surely is in droplets.
    """
    yolk = cover.egg_yolk_phospholipid_g
    surface = {
        "science.fat_surface": _significant_text(cover.fat_surface_m2, "m²"),
        "science.milk_protein_per_m2": _significant_text(cover.milk_protein_mg_per_m2, "mg/m²"),
        "science.phospholipid_per_m2": _significant_text(cover.phospholipid_mg_per_m2, "mg/m²"),
        "science.finest_droplet": _significant_text(cover.finest_droplet_um, "µm"),
    }
    known = isinstance(cover.fat_surface_m2, Estimate) and cover.fat_surface_m2.high > 0
    if known and in_droplets < _SURE:
        surface = dict.fromkeys(surface, "not given: the recipe leaves open how much of the fat is in droplets")
    return {
        "science.milk_protein": mass_estimate_text(cover.milk_protein_g),
        "science.egg_protein": _egg_protein_text(cover.egg_protein_g),
        "science.phospholipid": mass_estimate_text(cover.phospholipid_g),
        "science.yolk_phospholipid": mass_text(yolk) if yolk > 0 else "none",
        **surface,
    }


def _egg_protein_text(egg_protein_g: tuple[float, float]) -> str:
    least, most = egg_protein_g
    if most <= 0:
        return "none"
    return mass_text(most) if least == most else f"{mass_text(most)}, of which {mass_text(most - least)} has set"


def _significant_text(figure: Estimated, unit: str) -> str:
    """A figure and its band to two digits: more are not known of what covers fat."""
    if isinstance(figure, Withheld):
        return f"not given: {figure.reason}"
    shown, low, high = [significant_text(end) for end in figure[:3]]
    return f"{shown} {unit}" if low == shown == high else f"{shown} {unit} ({low} to {high})"
