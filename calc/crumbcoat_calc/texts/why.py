"""Why a mixture holds together, in plain words: what carries it, from figures, and nothing where nothing is known."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.science.between import StateBetween
from crumbcoat_calc.science.carriers import Carrier, Carries, brings, setting
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.dissolving import Syrup
from crumbcoat_calc.science.emulsifier import Emulsifiers, droplet_sizes_um
from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.science.fat_sorts import fats_of
from crumbcoat_calc.science.parts import Part
from crumbcoat_calc.science.solid_fat import not_known, solid_percents
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.science.structure import Outside, Structure, structure_of
from crumbcoat_calc.science.volumes import TABLE
from crumbcoat_calc.science.warming import falls_to, melting
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.agreed import agreed_text
from crumbcoat_calc.texts.estimates import mass_estimate_text
from crumbcoat_calc.texts.holds import holds_text
from crumbcoat_calc.texts.warming import degrees_of
from crumbcoat_calc.texts.why_sentences import OPEN, PARTS, Sentence, sentences
from crumbcoat_calc.values.display import celsius_text, list_text, mass_text, number_text, range_text, significant_text

_SLOW_SUGARS = {
    "lactose": "milk sugar (lactose)", "glucose": "dextrose (glucose)", "maltose": "maltose", "fructose": "fructose",
}  # fmt: skip
"""The sugars that crystallise slowly, as a reader knows them."""

_SOFT_STARCHES = ("potato starch", "tapioca starch")
"""Starches that thicken and do not set to a firm gel (from memory)."""


def why_texts(state: MixtureState, parts: Sequence[Part], family: str, structure: Structure | None = None) -> Texts:
    """`why.<part>` for each of PARTS: a sentence or a few each, or empty; and `why.short`.

    Where the ends of what is not known do not agree, a sentence says so.

    Args:
        structure: that of the state, if it has been worked out.
    """
    if isinstance(state, StateBetween):
        found = [_why_texts(end, structure_of(parts, family, end), family) for end in state.ends]
    else:
        found = [_why_texts(state, structure or structure_of(parts, family, state), family)]
    texts: Texts = {}
    for part in (*PARTS, "short"):
        otherwise = ""
        if isinstance(state, StateBetween) and part in OPEN:
            otherwise = f"What is not known of {state.unknown} leaves open {OPEN[part]}."
        texts[f"why.{part}"] = agreed_text([end[part] for end in found], otherwise)
    return texts


def _why_texts(state: MixtureState, structure: Structure, family: str) -> dict[str, str]:
    covers = structure.made_droplets and structure.outside is Outside.WATER
    cover = structure.emulsifiers(state) if covers else None
    figures = _figures(state, structure, cover)
    chosen = said(structure, figures, family)
    words = _words(state, structure, figures, cover)
    texts = dict.fromkeys(PARTS, "")
    names: dict[Carries, str] = {}
    for one in chosen:
        text = one.sentence.text.format_map(words | (_carrier_words(one.carrier) if one.carrier else {}))
        if one.carrier and one.sentence.part == "holds":
            names[one.carrier.carries] = text
        else:
            texts[one.sentence.part] += f" {text}" if one.carrier else text
    texts["carriers"] = texts["carriers"].strip()
    texts["holds"] = holds_text(structure, names, state)
    return {**texts, "short": texts["holds"] or _first(texts["fat"])}


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence that is said, and the carrier it is about."""

    sentence: Sentence
    carrier: Carrier | None = None


def said(structure: Structure, figures: dict[str, Estimated | None], family: str) -> list[Said]:
    """The sentences that apply: two for each carrier, the strongest first, and one of each other part."""
    found: list[Said] = []
    for part in PARTS:
        about: tuple[Carrier | None, ...] = structure.carriers if part in ("holds", "carriers") else (None,)
        for carrier in about:
            applies = (
                one for one in sentences() if one.part == part and _applies(one, structure, carrier, figures, family)
            )
            found += [Said(one, carrier) for one in list(applies)[:1]]
    return found


def _applies(
    sentence: Sentence,
    structure: Structure,
    carrier: Carrier | None,
    figures: dict[str, Estimated | None],
    family: str,
) -> bool:
    if sentence.carrier and not (carrier.carries is sentence.carrier if carrier else structure.has(sentence.carrier)):
        return False
    if sentence.outside not in (None, structure.outside) or structure.has(*sentence.unless):
        return False
    if sentence.families and family not in sentence.families:
        return False
    for within in sentence.within:
        figure = figures[within.figure]
        if within.figure == "weak" and carrier not in structure.weak:
            return False
        if not isinstance(figure, Estimate) or not (within.low <= figure.low and figure.high < within.high):
            return False
    return True


def _figures(state: MixtureState, structure: Structure, cover: Emulsifiers | None) -> dict[str, Estimated | None]:
    """The figures that conditions read, None for one that does not apply to this structure."""
    by_kind = {carrier.carries: carrier for carrier in structure.carriers}
    starch, cream = by_kind.get(Carries.STARCH_GEL), by_kind.get(Carries.CLUMPED_FAT)
    sets = starch and not any(brings(food) in _SOFT_STARCHES for food in starch.of)
    undissolved = _per_100g(state.undissolved_sugar_g, state.mass_g) if isinstance(state.syrup, Syrup) else None
    highest = _highest(undissolved)
    return {
        "bowl": _sure(state.at_c),
        "weak": _sure(float(len(structure.weak))),
        "viscosity": None if structure.nothing_holds else state.syrup_viscosity_mpa_s,
        "other_fat": _other_fat(state) if Carries.COCOA_BUTTER in by_kind else None,
        "fat": _per_100g(state.fat_g, state.mass_g),
        "fat_volume": state.fat_volume_percent,
        "strength": state.syrup_strength_percent,
        "undissolved": undissolved,
        "crystals": undissolved if state.saturated else None,
        "may_stay": highest if state.saturated is not False else None,
        "slow": highest if state.saturated is False else None,
        "cold_lactose": _highest(_per_100g(state.lactose.crystals_g, state.mass_g)),
        "holding_droplets": state.fat_volume_percent if structure.held_by_droplets else None,
        "gelling_starch": _sure(starch.figure) if starch and sets else None,
        "cream_fat": _sure(cream.figure) if cream else None,
        "finest": cover.finest_droplet_um if cover else None,
        "solid": structure.frame_solid_percent if structure.frame else None,
    }


def _words(
    state: MixtureState, structure: Structure, figures: dict[str, Estimated | None], cover: Emulsifiers | None
) -> dict[str, str]:
    """The words for the places in the templates."""
    cold = constants("whipping")
    solids = [solid_percents("milk", cold[end]) for end in ("coldest", "warmest")]
    fine, coarse = droplet_sizes_um()
    frame = structure.frame
    butter = frame and all((food.content("milk_fat_g") or 0.0) > 0 for food in frame.of)
    viscosity = state.syrup_viscosity_mpa_s
    times = ""
    if isinstance(viscosity, Estimate) and viscosity.value >= 3:
        times = f" (about {significant_text(viscosity.value)} times as viscous as water)"
    return {
        "at": celsius_text(state.at_c),
        "minutes": f"{constants('cooling')['chill_minutes']:g} min",
        "cold": f"{cold['coldest']:g} to {cold['warmest']:g} °C",
        "cold_solid": f"{number_text(solids[1][1], 0)} to {number_text(solids[0][2], 0)}",
        "white": _span("white begins to set"),
        "yolk": _span("yolk begins to set"),
        "gelatine": _span("gelatine melts"),
        "agar": _span("agar sets"),
        "agar_melts": _span("agar melts"),
        "cocoa": _span("cocoa butter melts"),
        **dict(zip(("softens", "slumps"), _softens(state) if figures["other_fat"] else ("", ""), strict=True)),
        "firm": f"{constants('solid-fat')['too_firm']:g}",
        "greasy": f"{constants('solid-fat')['greasy']:g}",
        "coconut": _span("coconut fat melts"),
        "whisked": f"{fine:g} to {coarse:g} µm",
        "fat_volume": _value(figures["fat_volume"]),
        "strength": _value(figures["strength"]),
        "times": times,
        "undissolved": mass_estimate_text(state.undissolved_sugar_g),
        "left": _grams(state.undissolved_sugar_g),
        "cold_lactose": _grams(state.lactose.crystals_g),
        "slow": _slow_text(state),
        "emulsifiers": _emulsifiers_text(cover) if cover else "",
        "finest": _band_text(figures["finest"], "µm"),
        "solid": _band(figures["solid"]),
        "frame_fat": "the butter's fat" if butter else "the fat in the frame",
    }


_COCOA = ("cocoa_butter", "milk_chocolate")
"""Fats of solid_fat.csv that are cocoa butter, or mostly."""


def _other_fat(state: MixtureState) -> Estimate | None:
    """The fat that is not cocoa butter, in % of the fat."""
    fats = fats_of(state.parts)
    total_g = fsum([mass_g for _, mass_g in fats])
    if total_g <= 0 or not_known(fats, state.parts):
        return None
    return _sure(100 * fsum([mass_g for fat, mass_g in fats if fat not in _COCOA]) / total_g)


def _softens(state: MixtureState) -> tuple[str, str]:
    """The temperatures at which its fat is no longer firm, and at which it is greasy, by the typical curve."""
    melts, of = melting([state]), constants("solid-fat")
    if isinstance(melts, Withheld):
        return "", ""
    return degrees_of(falls_to(melts.of_fat, of["too_firm"])), degrees_of(falls_to(melts.of_fat, of["greasy"]))


def _first(text: str) -> str:
    """The first sentence of a text."""
    first, _, more = text.partition(". ")
    return f"{first}." if more else first


def _carrier_words(carrier: Carrier) -> dict[str, str]:
    heated = "" if carrier.heated_c is None else celsius_text(carrier.heated_c)
    unsure = carrier.carries is Carries.COCOA_BUTTER and any(food.content("milk_fat_g") is None for food in carrier.of)
    return {"figure": f"{'up to ' if unsure else ''}{significant_text(carrier.figure)}", "heated": heated}


def _emulsifiers_text(cover: Emulsifiers) -> str:
    """What can cover fat, by name, where there is some of it."""
    names = [
        ("milk protein", isinstance(cover.milk_protein_g, Estimate) and cover.milk_protein_g.value > 0),
        ("egg protein", cover.egg_protein_g[0] > 0),
        ("phospholipid", isinstance(cover.phospholipid_g, Estimate) and cover.phospholipid_g.value > 0),
    ]
    text = list_text([name for name, there in names if there])
    return text[:1].upper() + text[1:]


def _slow_text(state: MixtureState) -> str:
    """The sugars that are more than the water holds and crystallise slowly, where there is enough to be seen."""
    if not isinstance(state.syrup, Syrup):
        return ""
    slow = state.syrup.slow_g
    return list_text([_SLOW_SUGARS[name] for name in slow if slow[name] >= 0.0001 * state.mass_g / len(slow)])


def _span(what: str) -> str:
    span = setting(what)
    return f"{range_text(f'{span.low_c:g}', f'{span.high_c:g}')} °C"


def _sure(value: float) -> Estimate:
    return Estimate(value, value, value, TABLE)


def _highest(figure: Estimated | None) -> Estimate | None:
    return _sure(figure.high) if isinstance(figure, Estimate) else None


def _grams(amount: Estimated) -> str:
    if not isinstance(amount, Estimate):
        return ""
    low, high = mass_text(amount.low), mass_text(amount.high)
    return f"up to {high}" if low == "0 g" else range_text(low, high)


def _per_100g(amount: Estimated, mass_g: float) -> Estimated | None:
    if not isinstance(amount, Estimate) or mass_g <= 0:
        return None
    per = 100 / mass_g
    return Estimate(per * amount.value, per * amount.low, per * amount.high, amount.model)


def _value(figure: Estimated | None) -> str:
    return number_text(figure.value, 0) if isinstance(figure, Estimate) else ""


def _band(figure: Estimated | None) -> str:
    return range_text(number_text(figure.low, 0), number_text(figure.high, 0)) if isinstance(figure, Estimate) else ""


def _band_text(figure: Estimated | None, unit: str) -> str:
    if not isinstance(figure, Estimate):
        return ""
    return f"{range_text(significant_text(figure.low), significant_text(figure.high))} {unit}"
