"""Texts of a cake: the frosting it needs by use and by tier, how many batches that is, and the cake cut open."""

import math
from fractions import Fraction

from crumbcoat_calc.cakes.frosting_volumes import FrostingVolumes
from crumbcoat_calc.cakes.plan import (
    CHOICES,
    CUPCAKE_LENGTHS,
    MOST_TIERS,
    NO_TIER,
    SHARES,
    THICKNESSES,
    TIER_SHAPES,
    TIER_THICKNESSES,
    CakePlan,
    PlannedTier,
)
from crumbcoat_calc.cakes.thickness import allowances, thicknesses
from crumbcoat_calc.cakes.tiers import Cake
from crumbcoat_calc.kitchen.rounding import fraction_text
from crumbcoat_calc.pictures.cake_section import cake_section
from crumbcoat_calc.pictures.cupcake_section import cupcake_section
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.measures import cups_text
from crumbcoat_calc.texts.portions import batch_word
from crumbcoat_calc.values.display import list_text, mass_text, plain_number_text, volume_text

USE_NAMES = {
    "filling": "Filling",
    "dam": "Dam around the filling",
    "crumb_coat": "Crumb coat",
    "final_coat": "Final coat",
    "piping": "Piping",
    "loss": "Left in bowl and bag",
}
_OWN_NAMES = {"filling": "filling", "dam": "dam", "crumb": "crumb coat", "final": "final coat"}
_MM_PER_IN = 25.4


def length_text(mm: float, lengths: str) -> str:
    """A length in cm, or in inches to a sixteenth, as a ruler has them.

    >>> length_text(203.2, "in"), length_text(203.2, "cm"), length_text(47.6, "in"), length_text(30, "in")
    ('8 in', '20.32 cm', '1⅞ in', '1 3/16 in')
    """
    return _inches_text(mm) if lengths == "in" else f"{plain_number_text(mm / 10, 2)} cm"


def thickness_text(mm: float, lengths: str) -> str:
    """A thickness in mm, or in inches to a sixteenth.

    >>> thickness_text(4.5, "cm"), thickness_text(6, "in"), thickness_text(0.5, "in")
    ('4.5 mm', '¼ in', '0.02 in')
    """
    return _inches_text(mm) if lengths == "in" else f"{plain_number_text(mm, 2)} mm"


def _inches_text(mm: float) -> str:
    """To the nearest sixteenth; what is nearer to none than to one is in decimals."""
    sixteenths = Fraction(math.floor(16 * mm / _MM_PER_IN + 0.5 + 1e-9), 16)
    return f"{fraction_text(sixteenths) if sixteenths or not mm else plain_number_text(mm / _MM_PER_IN, 3)} in"


def field_texts(plan: CakePlan) -> Texts:
    """The text of each field; `usual.<field>`: the usual range; `follows.<field>`: the value of the cake."""
    lengths = plan.choice("lengths")
    texts: Texts = {name: plan.choice(name) for name in CHOICES}
    if plan.choice("under") == "no":
        texts["under"] = ""
    for name in THICKNESSES:
        texts[name] = thickness_text(plan.length_mm(name), lengths)
    for name in CUPCAKE_LENGTHS:
        texts[name] = length_text(plan.length_mm(name), lengths)
    for name in SHARES:
        texts[name] = f"{plain_number_text(100 * plan.share(name), 1)} %"
    texts["cupcakes"] = str(plan.cupcakes)
    texts["density"] = "" if plan.density_g_per_ml is None else f"{plain_number_text(plan.density_g_per_ml)} g/mL"
    texts["cup_weighs"] = "" if plan.cup_g is None else mass_text(plan.cup_g)
    for place in range(1, MOST_TIERS + 1):
        tier = plan.tiers[place - 1] if place <= len(plan.tiers) else None
        texts |= _tier_fields(f"tier.{place}", tier, lengths)
    for name in TIER_THICKNESSES:
        texts[f"follows.{name}"] = f"the cake: {thickness_text(plan.length_mm(name), lengths)}"
    return texts | _usual_texts(plan, lengths)


def amount_texts(
    plan: CakePlan, amounts: FrostingVolumes, tiers: tuple[FrostingVolumes, ...], cupcakes: FrostingVolumes | None
) -> Texts:
    """`cake.by_use` and `cake.by_tier` as rows, `cake.volume_needed`, `cake.mass_needed`."""
    density = plan.density()

    def mass(volume_ml: float) -> str:
        return "" if density is None else mass_text(volume_ml * density)

    rows = [
        [USE_NAMES[use], _volume_text(plan, volume_ml), mass(volume_ml)]
        for use, volume_ml in amounts.by_use().items()
        if volume_ml > 0
    ]
    rows.append(["All of it", _volume_text(plan, amounts.total_ml), mass(amounts.total_ml)])
    parts = [
        (f"Tier {place}, {_across_text(tier, plan.choice('lengths'))}", one)
        for place, (tier, one) in enumerate(zip(plan.tiers, tiers, strict=True), start=1)
    ]
    if cupcakes is not None:
        parts.append((f"{plan.cupcakes} cupcake{'s' if plan.cupcakes > 1 else ''}", cupcakes))
    return {
        "cake.by_use": rows,
        "cake.by_tier": [
            [name, _uses_text(plan, one), mass(one.total_ml) or _volume_text(plan, one.total_ml)] for name, one in parts
        ],
        "cake.volume_needed": _volume_text(plan, amounts.total_ml),
        "cake.mass_needed": mass(amounts.total_ml),
    }


def batch_texts(plan: CakePlan, total_ml: float, batch_g: float) -> Texts:
    """`cake.batches` of the recipe, `cake.batches_text`, and `status`."""
    density = plan.density()
    needed = _volume_text(plan, total_ml)
    if density is None:
        missing = "Its mass is not known: give the density, or weigh a level cup of the frosting."
        return {"cake.batches": "", "cake.batches_text": missing, "status": f"{needed} of frosting. {missing}"}
    mass_g = total_ml * density
    status = f"{needed} of frosting, {mass_text(mass_g)}"
    batches = plain_number_text(mass_g / batch_g, 2)
    shown = f"{batches} {batch_word(batches)} of the recipe as published"
    return {"cake.batches": batches, "cake.batches_text": f"{shown}.", "status": f"{status}: {shown}."}


def picture_texts(plan: CakePlan, cake: Cake | None) -> Texts:
    """`picture.cake_section` and `picture.cupcake_section`, each empty if there is no such cake."""
    lengths = plan.choice("lengths")
    cupcakes = plan.cupcakes_asked()
    return {
        "picture.cake_section": ""
        if cake is None
        else cake_section(
            "cake-section",
            "The cake, cut down the middle",
            cake,
            length_text=lambda mm: length_text(mm, lengths),
            thickness_text=lambda mm: thickness_text(mm, lengths),
        ),
        "picture.cupcake_section": ""
        if cupcakes is None
        else cupcake_section(
            "cupcake-section",
            "A cupcake, cut down the middle",
            cupcakes,
            length_text=lambda mm: length_text(mm, lengths),
        ),
    }


def _tier_fields(head: str, tier: PlannedTier | None, lengths: str) -> Texts:
    names = ("height", *dict.fromkeys(name for shape in TIER_SHAPES.values() for name in shape))
    texts: Texts = {f"{head}.{name}": "" for name in names}
    texts[f"{head}.shape"], texts[f"{head}.layers"] = NO_TIER, ""
    if tier is not None:
        texts[f"{head}.shape"], texts[f"{head}.layers"] = tier.shape, str(tier.layers)
        texts |= {f"{head}.{name}": length_text(mm, lengths) for name, mm in tier.lengths_mm.items()}
    own = {} if tier is None else {name: thickness_text(mm, lengths) for name, mm in tier.own_mm.items()}
    texts |= {f"{head}.{name}": own.get(name, "") for name in TIER_THICKNESSES}
    shown = [f"{_OWN_NAMES[name]} {own[name]}" for name in TIER_THICKNESSES if name in own]
    texts[f"{head}.own"] = list_text(shown) if shown else "as the cake"
    return texts


def _usual_texts(plan: CakePlan, lengths: str) -> Texts:
    rows = thicknesses()
    of = {"filling": "filling", "dam": "dam", "crumb": "crumb_coat", "final": "final_coat",
          "top_border": "border", "bottom_border": "border",
          "topping_height": f"cupcake_{plan.choice('topping')}"}  # fmt: skip
    texts: Texts = {}
    for name, key in of.items():
        low, high = rows[key].lowest_mm, rows[key].highest_mm
        text = length_text if name == "topping_height" else thickness_text
        from_text, to_text = text(low, lengths), text(high, lengths)
        until = "" if from_text == to_text else f"{from_text.rpartition(' ')[0]} to "
        texts[f"usual.{name}"] = f"usual: {until}{to_text}"
    for name in SHARES:
        share = allowances()[f"{name}_share"]
        low_text, high_text = (plain_number_text(100 * bound, 0) for bound in (share.lowest, share.highest))
        texts[f"usual.{name}"] = f"usual: {low_text} to {high_text} %"
    return texts


def _across_text(tier: PlannedTier, lengths: str) -> str:
    names = [name for name in TIER_SHAPES[tier.shape] if not name.startswith(("bottom", "hole"))]
    return f"{tier.shape}, {' × '.join([length_text(tier.lengths_mm[name], lengths) for name in names])}"


def _volume_text(plan: CakePlan, volume_ml: float) -> str:
    """In mL; where lengths are in inches, in US cups with mL behind."""
    shown = volume_text(volume_ml)
    cups = cups_text(volume_ml) if plan.choice("lengths") == "in" else shown
    return shown if cups == shown else f"{cups} ({shown})"


def _uses_text(plan: CakePlan, amounts: FrostingVolumes) -> str:
    parts = [
        f"{USE_NAMES[use].lower()} {_volume_text(plan, volume_ml)}"
        for use, volume_ml in amounts.by_use().items()
        if volume_ml > 0
    ]
    return list_text(parts) if parts else "none"
