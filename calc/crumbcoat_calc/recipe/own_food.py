"""Outside data -> Food: a kind of the table, a stated composition, or the label of a pack; its own measures."""

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import COMPONENTS, FIELD_NAMES, composition_from
from crumbcoat_calc.foods.pack import pack_from
from crumbcoat_calc.foods.pack_composition import food_from_pack
from crumbcoat_calc.foods.table import AS_IT_COMES, OWN, STATED, Food, Measure, food, food_with
from crumbcoat_calc.kitchen.density import CUPS, density_of_measure
from crumbcoat_calc.values.fields import line, mapping, only, take, take_or, text
from crumbcoat_calc.values.units import between, dimension, grams, is_volume, number_and_words, unit_name

WHAT_IT_IS = ("kind", "composition", "pack")
"""The fields of which one says what an ingredient is."""

FOOD_FIELDS = (*WHAT_IT_IS, "density", "measures", "source")
"""The fields that say what an ingredient or a replacement is, beside its name."""

_WEIGHED = re.compile(
    r"(?P<mass>[0-9.,]+ ?k?g) (?:per|in an?|an?) (?:1 )?(?P<cup>[A-Za-z. ]+)"
    r"|(?:1 )?(?P<other>[A-Za-z. ]+?)(?: ?=| weighs) (?P<weighs>.+)"
)
"""What a level cup weighs, as people write it: `235 g per US cup`, `1 US cup = 235 g`."""

KIND_FIELDS = ("written", "name", "contents", *FOOD_FIELDS)
"""The fields of a kind that is not in the ingredient table: a build puts them in the place of what was `written`."""


def food_from(fields: Mapping[str, object], name: str | None) -> Food:
    """The food that the fields of an ingredient or a replacement state.

    A kind alone is a food of the table. What a pack or a composition states comes before what the kind has, and a
    composition before a pack.

    Raises:
        InputError: at a field that cannot be used, or if nothing says what the food contains.
    """
    base = take_or(fields, "kind", _kind, None)
    stated = take_or(fields, "composition", composition_from, None)
    density = take_or(fields, "density", density_from, None)
    measures = take_or(fields, "measures", _measures, ())
    pack = take_or(fields, "pack", lambda value: pack_from(value, density, measures), None)
    if base is None and stated is None and pack is None:
        problem = "the ingredient has neither `kind` nor `composition` nor `pack`"
        raise InputError(problem, "add `kind: …` with a key of the ingredient table, or what its pack says")
    called = name or (base.name if base else None)
    if called is None:
        what = "composition" if pack is None else "pack"
        raise InputError(f"an ingredient with a `{what}` but no `kind` needs a name", "add `name: …`")
    found = base
    if pack is not None:
        try:
            found = food_from_pack(base, name=called, pack=pack, stated=stated or {})
        except InputError as error:
            raise error.within("pack") from None
    elif stated is not None:
        try:
            found = food_with(base, name=called, stated=stated)
        except InputError as error:
            raise error.within("composition") from None
    assert found is not None
    return _with_more(found, called, fields, density)


def _kind(value: object) -> Food:
    """A kind by its key or name; or a kind with its own figures, such as a row of another table."""
    if not isinstance(value, Mapping):
        return food(text(value))
    only(value, KIND_FIELDS)
    take(value, "written", line)
    name = take(value, "name", line)
    if "contents" not in value:
        return replace(food_from(value, name), name=name)
    lows, highs = zip(*take(value, "contents", _contents), strict=True)
    ranges = {
        component: (low, high)
        for component, low, high in zip(COMPONENTS, lows, highs, strict=True)
        if low is not None and low < high
    }
    contents = tuple([None if low is None else (low + high) / 2 for low, high in zip(lows, highs, strict=True)])
    found = Food(key="", name=name, group=OWN, per_100g=contents, source=STATED, ranges=ranges)
    return _with_more(found, name, value, None)


def _contents(value: object) -> list[tuple[float | None, float]]:
    """The least and the most of every component, as `12.5` or `0 to 0.2`, in the unit of its name; None if unknown."""
    fields = mapping(value)
    only(fields, FIELD_NAMES)
    spans = {FIELD_NAMES[name]: take(fields, name, _span) for name in fields}
    return [spans.get(component, (None, 0.0)) for component in COMPONENTS]


def _span(value: object) -> tuple[float, float]:
    low, _, high = text(value).partition(" to ")
    read = between(Fraction(0), Fraction(100_000))
    ends = (read(low), read(high or low))
    if ends[0] > ends[1]:
        raise InputError(f"{text(value)[:40]!r} is not a range", "write the smaller number first")
    return ends


def _with_more(found: Food, called: str, fields: Mapping[str, object], density: float | None) -> Food:
    """The food with where its figures are from, and with its own measures."""
    source = take_or(fields, "source", line, None)
    if source:
        found = replace(found, note=" ".join(part for part in (found.note, f"Figures of {called}: {source}") if part))
    measures = take_or(fields, "measures", _measures, ())
    return _with_measures(found, measures, density) if measures or density else found


def density_from(value: object) -> float:
    """A density in g/mL, 0.05 to 2; or what a level measure weighs.

    >>> [round(density_from(written), 3) for written in ("0.85 g/mL", "235 g per US cup", "1 US cup = 235 g")]
    [0.85, 0.993, 0.993]
    """
    written = text(value)
    weighed = _WEIGHED.fullmatch(written.strip())
    if weighed:
        measure = unit_name(weighed["cup"] or weighed["other"])
        if measure not in CUPS:
            raise InputError(f"{written!r} is not a density", "write it like `235 g per US cup`")
        return density_of_measure(grams(weighed["mass"] or weighed["weighs"]), measure)
    count, words = number_and_words(written)
    if words.replace(" ", "").lower() != "g/ml":
        raise InputError(f"{written!r} is not a density", "write it like `0.85 g/mL`, or `235 g per US cup`")
    return between(Fraction(1, 20), Fraction(2))(str(float(count)))


def _measures(value: object) -> tuple[Measure, ...]:
    fields = mapping(value)
    if not fields:
        raise InputError("nothing is listed here", "write what a measure weighs, such as `US cup: 227 g`")
    found = []
    for name, weight in fields.items():
        try:
            found.append(_measure(name, weight))
        except InputError as error:
            raise error.within(name) from None
    return tuple(found)


def _measure(name: str, weight: object) -> Measure:
    words, _, how = (part.strip() for part in " ".join(text(name).split()).partition(","))
    unit = unit_name(words)
    if unit is not None and not is_volume(unit):
        problem = f"{words[:40]!r} is a unit of {dimension(unit)}, whose weight is known"
        raise InputError(problem, "name a measure such as `US cup` or `piece`")
    if not words or any(letter.isdigit() for letter in words):
        problem = f"{name[:40]!r} is not the name of one measure"
        raise InputError(problem, "write one of it, without a number, such as `US cup` or `piece`")
    mass_g = grams(weight)
    if not 0 < mass_g < 5000:
        raise InputError(f"{text(weight)[:40]!r} is not what one measure weighs", "write it like `227 g`")
    return Measure(unit=unit or words.replace(" ", "_").lower(), how=how or AS_IT_COMES, grams=mass_g)


def _with_measures(found: Food, measures: tuple[Measure, ...], density: float | None) -> Food:
    """The food with measures of its own, before those of the kind; a density is the weight of a millilitre."""
    own = list(measures)
    if density is not None and not any(is_volume(one.unit) and one.how == AS_IT_COMES for one in own):
        own.append(Measure(unit="millilitre", how=AS_IT_COMES, grams=density))
    stated = {(one.unit, one.how) for one in own}
    volumes = {one.how for one in own if is_volume(one.unit)}
    kept = [
        one
        for one in found.measures
        if (one.unit, one.how) not in stated and not (is_volume(one.unit) and one.how in volumes)
    ]
    return replace(found, measures=(*own, *kept))
