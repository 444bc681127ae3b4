"""What the label on a pack says about 100 g: each figure with what its rounding leaves open."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.label_rounding import declared_range
from crumbcoat_calc.foods.table import AS_IT_COMES, Measure
from crumbcoat_calc.values.fields import mapping, one_of, only, take, take_or, text
from crumbcoat_calc.values.units import dimension, factor, grams, is_volume, millilitres, number_and_words, unit_name

RULES = ("EU", "US")
NUTRIENTS = ("fat", "saturates", "carbohydrate", "sugars", "polyols", "fibre", "protein", "salt", "sodium")
PACK_FIELDS = ("per", "rules", "energy", *NUTRIENTS)

KCAL = {"fat": 9.0, "protein": 4.0, "carbohydrate": 4.0, "fibre": 2.0, "alcohol": 7.0, "organic acids": 3.0}
"""Energy per g on a label. Source: eu-1169-2011, Annex XIV; cfr-101-9 (c)(1)(i), by which fibre may be left out."""

_RULES_OF = {
    "EU": {"saturates": "eu-saturates", "salt": "eu-salt"},
    "US": {"fat": "us-fat", "saturates": "us-fat", "protein": "us-protein", "sodium": "us-sodium"},
}
_OTHERWISE = {"EU": "eu-nutrient", "US": "us-carbohydrate"}
_BELOW = re.compile(r"(?:<|≤|less than|under)\s*", re.IGNORECASE)
_TRACES = ("trace", "traces", "tr")
_ENERGY = re.compile(r"(?P<number>.*?)\s*(?P<unit>kcal|cal|calories|kj)", re.IGNORECASE)
KJ_PER_KCAL = 4.184


@dataclass(frozen=True, slots=True, kw_only=True)
class Declared:
    """A figure of a label for 100 g: as printed, and the range of the values that are printed so."""

    value: float
    low: float
    high: float

    def times(self, scale: float) -> "Declared":
        return Declared(value=scale * self.value, low=scale * self.low, high=scale * self.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """The label of a pack for 100 g: figures in g, the energy in kcal; `us` if it follows the rules of the US.

    What the label does not have is missing from `figures`; salt is there as `sodium`.
    """

    us: bool
    figures: Mapping[str, Declared]
    energy_kcal: Declared | None


def pack_from(value: object, density_g_per_ml: float | None, measures: Sequence[Measure] = ()) -> Pack:
    """Read the label of a pack.

    Args:
        value: fields of PACK_FIELDS; `per` is a mass, one of the measures, or a volume if one is known by weight.
        density_g_per_ml: of the food; None if it is not known.
        measures: what measures of the food weigh.

    Raises:
        InputError: at a field that is missing, unknown or wrong, or contradicts another.

    >>> pack = pack_from({"per": "100 g", "rules": "EU", "fat": "3.6 g", "salt": "<0.01 g"}, None)
    >>> pack.figures["fat"]
    Declared(value=3.6, low=3.55, high=3.65)
    """
    fields = mapping(value)
    only(fields, PACK_FIELDS)
    rules = take(fields, "rules", lambda written: one_of(*RULES)(text(written).upper()))
    scale = 100 / take(fields, "per", lambda written: _per_g(written, density_g_per_ml, measures))
    stated = [name for name in NUTRIENTS if name in fields]
    if not stated:
        raise InputError("the pack states no nutrient", "copy `fat: …`, `carbohydrate: …` and so on from its label")
    if "salt" in stated and "sodium" in stated:
        raise InputError("the pack states both salt and sodium", "keep the one that its label prints", ("sodium",))
    figures = {name: take(fields, name, _reader(name, rules)).times(scale) for name in stated}
    if "salt" in figures:
        figures["sodium"] = figures.pop("salt").times(1 / 2.5)
    energy_kcal = take_or(fields, "energy", lambda written: _energy(written, rules), None)
    return Pack(us=rules == "US", figures=figures, energy_kcal=energy_kcal and energy_kcal.times(scale))


def _per_g(value: object, density_g_per_ml: float | None, measures: Sequence[Measure]) -> float:
    count, words = number_and_words(value, "100 g")
    unit = unit_name(words) if words else None
    if unit is not None and dimension(unit) == "mass":
        return _above_zero(grams(value))
    usual = [measure for measure in measures if measure.how == AS_IT_COMES]
    for measure in usual:
        if measure.unit == unit or (unit is None and measure.text in (words.lower(), words.lower().removesuffix("s"))):
            return _above_zero(float(count) * measure.grams)
    if unit is None or dimension(unit) != "volume":
        remedy = "write `100 g` or `100 mL`, or add what it weighs to the ingredient: `measures: {serving: 30 g}`"
        raise InputError(f"{text(value)[:40]!r} is not what figures on a pack are for", remedy)
    volumes = [measure for measure in usual if is_volume(measure.unit)]
    if density_g_per_ml is None and volumes:
        largest = max(volumes, key=lambda measure: factor(measure.unit, "millilitre"))
        density_g_per_ml = largest.grams / factor(largest.unit, "millilitre")
    if density_g_per_ml is None:
        remedy = "weigh 100 mL of it and add `density: 1.03 g/mL` to the ingredient, beside `pack`"
        raise InputError("the figures are for a volume, and the density is not known", remedy)
    return _above_zero(millilitres(value)) * density_g_per_ml


def _above_zero(amount: float) -> float:
    if amount <= 0:
        raise InputError("the figures are for nothing", "write `100 g` or `100 mL`")
    return amount


def _reader(name: str, rules: str) -> Callable[[object], Declared]:
    return lambda value: _declared(name, value, rules)


def _declared(name: str, value: object, rules: str) -> Declared:
    written = text(value)
    # Sodium of an EU label is as fine as salt: 0 g of salt is at most 0.0125 g.
    rule = "eu-salt" if (rules, name) == ("EU", "sodium") else _RULES_OF[rules].get(name, _OTHERWISE[rules])
    per_unit = Decimal(1000) if rule == "us-sodium" else Decimal(1)
    smallest = declared_range(rule, Decimal(0), 0)[1] / float(per_unit)
    if written.lower() in _TRACES:
        return Declared(value=smallest / 2, low=0.0, high=smallest)
    below = _BELOW.match(written)
    shown = written[below.end() :] if below else written
    count, words = number_and_words(shown, "3.6 g")
    unit = unit_name(words) if words else None
    if unit is None or dimension(unit) != "mass":
        problem = f"{written[:40]!r} has no unit" if not words else f"{words[:40]!r} is not a unit of mass"
        example = "150 mg" if name == "sodium" else "3.6 g"
        raise InputError(problem, f"write it as the label does, such as `{example}`")
    in_g = factor(unit, "gram")
    amount = float(count) * in_g
    if below:
        high = smallest if (rule, amount) == ("eu-salt", 0.01) else amount  # `<0.01 g` of salt is up to 0.0125 g.
        return Declared(value=high / 2, low=0.0, high=high)
    declared = Decimal(repr(amount)) * per_unit
    decimals = _decimals(shown) - _log10(in_g * float(per_unit))
    low, high = declared_range(rule, declared, decimals)
    return Declared(value=amount, low=low / float(per_unit), high=high / float(per_unit))


def _energy(value: object, rules: str) -> Declared:
    """Energy in kcal, or in kJ, or in both, of which the kcal count."""
    written = text(value)
    found: dict[str, Declared] = {}
    for part in re.split("[/=(]", written.rstrip(") ")):
        match = _ENERGY.fullmatch(part.strip())
        if match is None:
            raise InputError(f"{part.strip()[:40]!r} is not an energy", "write `1046 kJ / 250 kcal`, or one of the two")
        count, words = number_and_words(match["number"], "250 kcal")
        if words:
            raise InputError(f"unexpected {words[:40]!r} in the energy", "write `1046 kJ / 250 kcal`")
        unit = "kJ" if match["unit"].lower() == "kj" else "kcal"
        low, high = declared_range(f"{rules.lower()}-energy", Decimal(repr(float(count))), _decimals(match["number"]))
        per_kcal = KJ_PER_KCAL if unit == "kJ" else 1.0
        found[unit] = Declared(value=float(count) / per_kcal, low=low / per_kcal, high=high / per_kcal)
    if len(found) == 2 and abs(found["kJ"].value - found["kcal"].value) > 0.04 * found["kcal"].value + 2:
        problem = f"{written!r}: a kcal is 4.184 kJ, so these two do not belong together"
        raise InputError(problem, "copy both from the same column of the pack")
    return found.get("kcal") or found["kJ"]


def _decimals(number: str) -> int:
    decimals = re.search(r"[0-9][.,]([0-9]+)", number)
    return len(decimals[1]) if decimals else 0


def _log10(factor_of_ten: float) -> int:
    """The power of ten of a metric prefix; others count as whole units."""
    return {1e-6: -6, 1e-3: -3, 1.0: 0, 1e3: 3}.get(round(factor_of_ten, 9), 0)
