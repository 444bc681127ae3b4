"""Texts about what can cover the fat of a mixture: emulsifiers, surface, and the finest droplets."""

from crumbcoat_calc.science.emulsifier import Emulsifiers
from crumbcoat_calc.science.estimate import Estimated, Withheld
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.estimates import estimate_text, mass_estimate_text
from crumbcoat_calc.values.display import mass_text, significant_text


def cover_texts(cover: Emulsifiers) -> Texts:
    """The figures of what covers the fat."""
    yolk = cover.egg_yolk_phospholipid_g
    return {
        "science.milk_protein": mass_estimate_text(cover.milk_protein_g),
        "science.egg_protein": _egg_protein_text(cover.egg_protein_g),
        "science.phospholipid": mass_estimate_text(cover.phospholipid_g),
        "science.yolk_phospholipid": mass_text(yolk) if yolk > 0 else "none",
        "science.fat_surface": estimate_text(cover.fat_surface_m2, 0, "m²"),
        "science.milk_protein_per_m2": estimate_text(cover.milk_protein_mg_per_m2, 1, "mg/m²"),
        "science.phospholipid_per_m2": estimate_text(cover.phospholipid_mg_per_m2, 1, "mg/m²"),
        "science.finest_droplet": _droplet_text(cover.finest_droplet_um),
    }


def _egg_protein_text(egg_protein_g: tuple[float, float]) -> str:
    least, most = egg_protein_g
    if most <= 0:
        return "none"
    return mass_text(most) if least == most else f"{mass_text(most)}, of which {mass_text(most - least)} has set"


def _droplet_text(size_um: Estimated) -> str:
    if isinstance(size_um, Withheld):
        return f"not given: {size_um.reason}"
    shown, low, high = [significant_text(end) for end in size_um[:3]]
    return f"{shown} µm" if low == shown == high else f"{shown} µm ({low} to {high})"
