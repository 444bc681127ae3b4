"""The label of a pack -> a food: what the label does not say follows from a kind, or has bounds."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import PROXIMATES
from crumbcoat_calc.foods.pack import KCAL, Declared, Pack
from crumbcoat_calc.foods.polyols import less_energy_of_polyols, with_polyols
from crumbcoat_calc.foods.ranges_by_kind import ranges_by_kind
from crumbcoat_calc.foods.table import Food, food_with
from crumbcoat_calc.values.display import list_text, plain_number_text

TOLERANCE_KCAL, TOLERANCE_SHARE = 10.0, 0.1
"""How far the energy may be off what the nutrients give, of 100 g and of the energy (common practice, no source)."""

ASH_PER_SODIUM = 2.305
"""The least ash per g of sodium, as its carbonate. Source: definition (molar masses)."""

MOST_ASH_PER_SODIUM, MOST_ASH_PER_SOLIDS, MOST_ASH_PER_SUGARS, MOST_ASH_BESIDE = 2.6, 0.12, 0.05, 0.5
"""The most ash: per g of sodium, of protein and other carbohydrate, of sugars, and in any case, in g per 100 g.

Source: usda-sr28, where 97.8 % of 2,293 foods in the groups that pastry is made of hold to it; raising agents do not.
"""

SALTY_G = 2.5
"""From this much sodium in 100 g on, ash is bounded by the rest alone: raising agents are salts."""

LEAST_ALIKE = 5.0
"""A kind with less than a fifth of the water and minerals is not like the food (common practice, no source)."""

_COMPONENT = {"fat": "fat_g", "saturates": "saturated_fat_g", "sugars": "sugars_g", "protein": "protein_g"}
_NONE = Declared(value=0.0, low=0.0, high=0.0)
_FIELD = {"saturated_fat": "saturates", "water": "carbohydrate"}


@dataclass(frozen=True, slots=True)
class _Rest:
    """What is left of 100 g at most, and what the energy leaves beside the lowest contents, least and most.

    `agrees` if the energy is one that the printed contents can have, rounding included.
    """

    most_g: float
    open_kcal: tuple[float, float] | None
    agrees: bool


def food_from_pack(base: Food | None, *, name: str, pack: Pack, stated: Mapping[str, float]) -> Food:
    """The food of a pack: what its label says with the range of its rounding, and the rest of 100 g.

    With a kind, water, ash and alcohol have its ratios in the rest, and parts follow it, at both ends of the rounding.
    Without one, ash is between that of the sodium and a bound, there is no alcohol if the energy agrees with the
    nutrients, and water is the rest.

    Args:
        base: the most similar kind, or None.
        name: what it is called.
        pack: the label for 100 g.
        stated: contents of 100 g that are known better than from the label, by component.

    Raises:
        InputError: at a field of the label, if the label is not possible.

    Source:
        derivation (mass balance); eu-1169-2011 and cfr-101-9 (what the figures mean).
    """
    figures = pack.figures
    _check_parts(pack)
    rest = _rest(pack, stated, base)
    better = {component: Declared(value=value, low=value, high=value) for component, value in stated.items()}
    fibre = better.get("fibre_g") or _fibre(pack, base, rest)
    known: dict[str, Declared] = {
        component: figures[field] for field, component in _COMPONENT.items() if field in figures
    }
    if "sodium" in figures:
        known["sodium_mg"] = figures["sodium"].times(1000)
    if fibre is not None:
        known["fibre_g"] = fibre
    if "carbohydrate" in figures:
        known["carbohydrate_g"] = _whole_carbohydrate(pack, fibre)
    known |= better
    whole = {"fat_g", "protein_g", "carbohydrate_g"} <= known.keys()
    by_kind = base is not None and None not in [base.content(component) for component in PROXIMATES]
    if base is not None and by_kind and whole:
        _check_kind(base, rest)
    if base is not None and by_kind:
        known |= _ash_of_salt(base, known)
    if whole and not by_kind:
        known |= _water_and_ash(known, rest, pack.us)
    values = _adding_up({component: declared.value for component, declared in known.items()})
    try:
        found = food_with(base, name=name, stated=values)
    except InputError as error:
        field = str(error.path[-1]) if error.path else "carbohydrate"
        raise error.at((_FIELD.get(field, field),)) from None
    ranges = {component: (known[component].low, known[component].high) for component in known}
    if base is not None:
        ranges |= ranges_by_kind(base, found, ranges)
    open_ranges = {component: span for component, span in ranges.items() if span[1] > span[0]}
    note = _note(name, base, rest, known)
    return replace(found, ranges=open_ranges, note=note, assumed=True, less_energy=less_energy_of_polyols(pack))


def _check_parts(pack: Pack) -> None:
    figures = pack.figures
    inside = [("saturates", "fat"), ("sugars", "carbohydrate"), ("polyols", "carbohydrate")]
    for part, whole in [*inside, ("fibre", "carbohydrate")] if pack.us else inside:
        if part in figures and whole in figures and figures[part].low > figures[whole].high + 1e-9:
            problem = f"{_g(figures[part])} of {part} are more than the {_g(figures[whole])} of {whole} in 100 g"
            remedy = f"copy `{part}` and `{whole}` from the pack again" + _other_rules(pack, part)
            raise InputError(problem, remedy, (part,))
    names = [field for field in ("fat", "carbohydrate", "protein") if field in figures]
    if not pack.us and "fibre" in figures:
        names.append("fibre")
    least = fsum([figures[field].low for field in names]) + ASH_PER_SODIUM * figures.get("sodium", _NONE).low
    if least > 100.05:
        largest = max(names, key=lambda field: figures[field].value)
        with_salt = [*names, "salt"] if "sodium" in figures else names
        problem = f"{list_text(with_salt)} add up to {plain_number_text(least, 1)} g or more in 100 g"
        remedy = "copy them from the column of the pack that `per` names" + _other_rules(pack, "fibre")
        raise InputError(problem, remedy, (largest,))


def _check_kind(base: Food, rest: _Rest) -> None:
    """Refuse a kind that has nearly none of what the label leaves: its ratios would make anything of it."""
    there = fsum([base.content(component) or 0.0 for component in ("water_g", "ash_g", "alcohol_g")])
    if rest.most_g > 5 and rest.most_g > LEAST_ALIKE * there:
        left = plain_number_text(rest.most_g, 1)
        problem = f"the label leaves {left} g of 100 g for water and minerals, and {base.name} has only {there:.2g} g"
        raise InputError(problem, "choose a `kind` that is more like it, or leave `kind` out")


def _other_rules(pack: Pack, part: str) -> str:
    if part == "fibre" and pack.us:
        return ", or write `rules: EU` if its carbohydrate does not include the fibre"
    if part == "fibre" and "fibre" in pack.figures:
        return ", or write `rules: US` if its carbohydrate includes the fibre"
    return ""


def _rest(pack: Pack, stated: Mapping[str, float], base: Food | None) -> _Rest:
    """What is left for water, ash and what is not named; the energy is checked on the way."""
    figures = pack.figures
    alcohol_g, fibre_g = stated.get("alcohol_g", 0.0), stated.get("fibre_g", 0.0)
    fibre = Declared(value=fibre_g, low=fibre_g, high=fibre_g) if fibre_g else figures.get("fibre", _NONE)
    counted = [figures.get(field, _NONE) for field in ("fat", "protein", "carbohydrate")]
    most = 100 - fsum([one.low for one in counted]) - alcohol_g
    if not pack.us:
        most -= fibre.low
    most = max(0.0, most)
    if pack.energy_kcal is None or not {"fat", "protein", "carbohydrate"} <= figures.keys():
        return _Rest(most, None, False)
    low = fsum([KCAL[field] * figures[field].low for field in ("fat", "protein", "carbohydrate")])
    high = fsum([KCAL[field] * figures[field].high for field in ("fat", "protein", "carbohydrate")])
    low, high = with_polyols(pack, *[end + KCAL["alcohol"] * alcohol_g for end in (low, high)])
    if pack.us:
        low -= 4 * fibre.high
    else:
        low, high = low + KCAL["fibre"] * fibre.low, high + KCAL["fibre"] * fibre.high
    below, above = low - pack.energy_kcal.high, pack.energy_kcal.low - high
    tolerance = max(TOLERANCE_KCAL, TOLERANCE_SHARE * pack.energy_kcal.value)
    not_named = base is not None and (base.content("alcohol_g") or 0.0) > 0
    if not pack.us and "fibre" not in figures:
        not_named = not_named or above <= tolerance + KCAL["fibre"] * most
    if below > tolerance or (above > tolerance and not not_named):
        _refuse_energy(pack, low, high)
    open_kcal = (max(0.0, pack.energy_kcal.low - low), max(0.0, pack.energy_kcal.high - low))
    return _Rest(most, open_kcal, below <= 0 and above <= 0)


def _refuse_energy(pack: Pack, low: float, high: float) -> None:
    assert pack.energy_kcal is not None
    shown = plain_number_text(low, 0) if round(low) == round(high) else f"{low:.0f} to {high:.0f}"
    remedy = "copy `energy`, `fat`, `carbohydrate` and `protein` from the pack again"
    if pack.energy_kcal.value > high:
        remedy += "; if it has alcohol, add `composition: {alcohol: …}` beside `pack`"
    else:
        remedy += "; if the pack lists polyols, add `polyols: …`"
    problem = f"the nutrients of 100 g give {shown} kcal, and the energy is {pack.energy_kcal.value:.0f} kcal"
    raise InputError(problem, remedy, ("energy",))


def _fibre(pack: Pack, base: Food | None, rest: _Rest) -> Declared | None:
    """The fibre: as printed, by the kind, or what the energy leaves for it."""
    figures = pack.figures
    if "fibre" in figures or "carbohydrate" not in figures:
        return figures.get("fibre")
    available = figures["carbohydrate"]
    whole, of_kind = (base.content("carbohydrate_g"), base.content("fibre_g")) if base else (None, None)
    if whole is not None and of_kind is not None:
        per_g = of_kind / whole if pack.us and whole > 0 else of_kind / (whole - of_kind) if whole > of_kind else 0.0
        return available.times(per_g)
    if pack.us:
        return None
    most = rest.most_g if rest.open_kcal is None else min(rest.most_g, rest.open_kcal[1] / KCAL["fibre"])
    return Declared(value=0.0, low=0.0, high=most)


def _whole_carbohydrate(pack: Pack, fibre: Declared | None) -> Declared:
    """The carbohydrate with the fibre: labels of the US include it, those of the EU do not."""
    available = pack.figures["carbohydrate"]
    if pack.us or fibre is None:
        return available
    return Declared(
        value=available.value + fibre.value,
        low=available.low + fibre.low,
        high=min(100.0, available.high + fibre.high),
    )


def _water_and_ash(known: Mapping[str, Declared], rest: _Rest, us: bool) -> dict[str, Declared]:
    """Water, ash and alcohol; organic acids are in the carbohydrate of a US label, and in no figure of an EU label."""
    fat, protein, carbohydrate = known["fat_g"], known["protein_g"], known["carbohydrate_g"]
    sodium = known.get("sodium_mg")
    least_ash = 0.0 if sodium is None else ASH_PER_SODIUM * sodium.low / 1000
    most_ash = rest.most_g
    if sodium is not None and sodium.high / 1000 <= SALTY_G:
        sugars = known.get("sugars_g", _NONE)
        solids = protein.high + max(0.0, carbohydrate.high - sugars.low)
        salts = MOST_ASH_PER_SODIUM * sodium.high / 1000 + MOST_ASH_BESIDE
        most_ash = min(most_ash, salts + MOST_ASH_PER_SOLIDS * solids + MOST_ASH_PER_SUGARS * sugars.high)
    least_ash = min(least_ash, most_ash)
    ash = known.get("ash_g") or Declared(value=(least_ash + most_ash) / 2, low=least_ash, high=most_ash)
    alcohol = known.get("alcohol_g")
    if alcohol is None:
        most = rest.most_g if rest.open_kcal is None else min(rest.most_g, rest.open_kcal[1] / KCAL["alcohol"])
        alcohol = _NONE if rest.agrees else Declared(value=0.0, low=0.0, high=most)
    counted = (fat, protein, carbohydrate, ash, alcohol)
    high = 100 - fsum([one.low for one in counted])
    low = 100 - fsum([one.high for one in counted])
    if rest.open_kcal is not None and not us:
        least_g, most_g = _beside_the_lowest(known.get("fibre_g", _NONE), rest.open_kcal)
        if rest.agrees:
            low, high = high - (ash.high - ash.low) - (alcohol.high - alcohol.low) - most_g, high - least_g
        else:
            low -= most_g
    value = max(0.0, 100 - fsum([one.value for one in counted]))
    water = known.get("water_g") or Declared(value=value, low=max(0.0, min(low, value)), high=max(high, value))
    return {"ash_g": ash, "alcohol_g": alcohol, "water_g": water}


def _ash_of_salt(base: Food, known: Mapping[str, Declared]) -> dict[str, Declared]:
    """The least ash of the sodium, where a kind's share of what is left is less than that: in salted butter."""
    sodium = known.get("sodium_mg")
    if sodium is None or "ash_g" in known:
        return {}
    fixed = [known[component] for component in PROXIMATES if component in known]
    there = fsum([base.content(component) or 0.0 for component in PROXIMATES if component not in known])
    share = (base.content("ash_g") or 0.0) / there if there > 0 else 0.0
    salts = sodium.times(ASH_PER_SODIUM / 1000)
    if salts.value <= share * (100 - fsum([one.value for one in fixed])):
        return {}
    return {"ash_g": replace(salts, high=max(salts.high, share * (100 - fsum([one.low for one in fixed]))))}


def _beside_the_lowest(fibre: Declared, open_kcal: tuple[float, float]) -> tuple[float, float]:
    """How much more than the lowest contents there is, in g, by the energy: least if it is fat, most if fibre or acids.

    Organic acids have 3 kcal per g and are in no figure of a label in the EU.
    """
    more_fibre = min(fibre.high - fibre.low, open_kcal[1] / KCAL["fibre"])
    acids = (open_kcal[1] - KCAL["fibre"] * more_fibre) / KCAL["organic acids"]
    return open_kcal[0] / KCAL["fat"], more_fibre + acids


def _adding_up(values: Mapping[str, float]) -> dict[str, float]:
    """The values without what rounding makes too much of: proximates above 100 g, parts above their whole."""
    adjusted = dict(values)
    proximates = [component for component in PROXIMATES if component in adjusted]
    if proximates:
        over = fsum([adjusted[component] for component in proximates]) - 100
        largest = max(proximates, key=lambda component: adjusted[component])
        adjusted[largest] -= max(0.0, over)
    for whole, parts in (("fat_g", ("saturated_fat_g",)), ("carbohydrate_g", ("fibre_g", "sugars_g"))):
        left = adjusted.get(whole, 100.0)
        for part in parts:
            if part in adjusted:
                adjusted[part] = min(adjusted[part], left)
                left -= adjusted[part]
    return adjusted


def _note(name: str, base: Food | None, rest: _Rest, known: Mapping[str, Declared]) -> str:
    """What is assumed, for the readers of a card."""
    if base is not None:
        return f"Worked out from the pack of {name}; what it does not say is as in {base.name}."
    if "water_g" not in known:
        return f"Worked out from the pack of {name}."
    ash = f"Worked out from the pack of {name}: water is what is left of 100 g"
    ash += f", with at most {plain_number_text(known['ash_g'].high, 1)} g of minerals"
    return f"{ash} and no alcohol, since the energy agrees." if rest.agrees else f"{ash}."


def _g(declared: Declared) -> str:
    return f"{plain_number_text(declared.value, 2)} g"
