"""Outside data -> Recipe. Every value is a text, as a form or a file read as text gives it."""

import datetime
import math
from collections.abc import Callable, Mapping
from fractions import Fraction

from calc.components import composition_from
from calc.errors import InputError
from calc.fields import each, each_named, mapping, one_of, only, slug, take, take_or, text, yes_no
from calc.foods import AS_IT_COMES, Food, food, food_with, grams_of
from calc.recipe.model import (
    FAMILIES,
    PLACES,
    SPEEDS,
    Amount,
    Checkpoint,
    Ingredient,
    Measured,
    Portion,
    Recipe,
    Replacement,
    Stage,
    Step,
    Storage,
    Time,
    Trouble,
    Use,
    Yield,
)
from calc.recipe.whole import check_whole
from calc.units import celsius, dimension, grams, number, number_and_words, seconds, share, unit_name

RECIPE_FIELDS = (
    "title", "summary", "author", "published", "family", "keywords", "yield", "ingredients", "stages", "storage",
    "measured", "tried", "notes",
)  # fmt: skip
INGREDIENT_FIELDS = (
    "kind", "composition", "name", "amount", "role", "preparation", "temperature", "optional", "portions",
    "replacements",
)  # fmt: skip
REPLACEMENT_FIELDS = ("kind", "composition", "name", "grams_per_gram", "note")
STAGE_FIELDS = ("title", "makes", "shares", "steps")
STEP_FIELDS = (
    "do", "add", "additions", "tool", "speed", "time", "look_for", "why", "photo", "checkpoint", "optional",
    "water_lost", "heat_to", "cool_to", "unattended", "when_scaled",
)  # fmt: skip
CHECKPOINT_FIELDS = ("passes", "troubles")
TROUBLE_FIELDS = ("sign", "remedy")
STORAGE_FIELDS = ("where", "up_to", "note")
YIELD_FIELDS = ("portions", "of")
MEASURED_FIELDS = ("density", "ph", "water_activity")
TRIED_FIELDS = ("from", "to")

LARGEST_BATCH = 1000


def recipe_from(data: object) -> Recipe:
    """The recipe that the fields describe.

    Raises:
        InputError: at the first field that is missing, unknown or wrong, or where portions and steps do not agree.
    """
    fields = mapping(data)
    only(fields, RECIPE_FIELDS)
    recipe = Recipe(
        title=take(fields, "title", text),
        summary=take(fields, "summary", text),
        author=take(fields, "author", text),
        published=take_or(fields, "published", _date, None),
        family=take(fields, "family", one_of(*FAMILIES)),
        keywords=take_or(fields, "keywords", each(text), ()),
        yields=take(fields, "yield", _yield),
        ingredients=take(fields, "ingredients", each_named(_ingredient, at_least=1)),
        stages=take(fields, "stages", each(_stage, at_least=1)),
        storage=take_or(fields, "storage", each(_storage), ()),
        notes=take_or(fields, "notes", each(text), ()),
        measured=take_or(fields, "measured", _measured, Measured()),
        tried=take_or(fields, "tried", _tried, None),
    )
    check_whole(recipe)
    return recipe


def amount_of(kind: Food, value: object) -> Amount:
    """An amount of a food: a mass, or a household measure that the food has a weight for.

    >>> amount_of(food("sugar_powdered"), "2 US cups, unsifted").mass_g
    240.0
    """
    written = " ".join(text(value).split())
    measure, _, how = written.partition(",")
    count, words = number_and_words(measure)
    if not words:
        raise InputError(
            f"{written!r} has no unit", "write a mass such as `250 g`, or a named measure such as `1 US cup`"
        )
    if count == 0:
        raise InputError(f"{written!r} is nothing", "give more than zero, or leave the ingredient out")
    unit = unit_name(words)
    if unit is not None and dimension(unit) == "mass":
        if how.strip():
            raise InputError(f"{how.strip()!r} stands behind a mass", "move it to `preparation`")
        return Amount(written=written, mass_g=grams(written), number=float(count), unit=unit, how=AS_IT_COMES)
    if unit is not None and dimension(unit) != "volume":
        raise InputError(f"{words!r} measures neither mass nor volume", "write a mass such as `250 g`")
    how = how.strip() or AS_IT_COMES
    piece = unit or words.replace(" ", "_").lower()
    known = {one.unit for one in kind.measures}
    if unit is None and piece not in known and piece.removesuffix("s") in known:
        piece = piece.removesuffix("s")
    return Amount(
        written=written, mass_g=grams_of(kind, float(count), piece, how), number=float(count), unit=piece, how=how
    )


def _kind(fields: Mapping[str, object], name: str | None) -> Food:
    base = take_or(fields, "kind", lambda value: food(text(value)), None)
    stated = take_or(fields, "composition", composition_from, None)
    if stated is None:
        if base is None:
            raise InputError("it has neither `kind` nor `composition`", "add `kind: …`, a key of the ingredient table")
        return base
    called = name or (base.name if base else None)
    if called is None:
        raise InputError("an ingredient of its own composition has no name", "add `name: …`")
    try:
        return food_with(base, name=called, stated=stated)
    except InputError as error:
        raise error.within("composition") from None


def _ingredient(key: str, value: object) -> Ingredient:
    fields = mapping(value)
    only(fields, INGREDIENT_FIELDS)
    name = take_or(fields, "name", text, None)
    kind = _kind(fields, name)
    amount = take(fields, "amount", lambda written: amount_of(kind, written))
    portions = take_or(
        fields, "portions", each_named(lambda part, written: (part, amount_of(kind, written).mass_g), at_least=2), ()
    )
    return Ingredient(
        key=key,
        name=name or kind.name,
        food=kind,
        amount=amount,
        role=take_or(fields, "role", text, None),
        preparation=take_or(fields, "preparation", text, None),
        temperature_c=take_or(fields, "temperature", celsius, None),
        optional=take_or(fields, "optional", yes_no, False),
        portions=_portions(amount, portions),
        replacements=take_or(fields, "replacements", each_named(_replacement, at_least=1), ()),
    )


def _portions(amount: Amount, parts: tuple[tuple[str, float], ...]) -> tuple[Portion, ...]:
    total = math.fsum(mass_g for _, mass_g in parts)
    if parts and abs(total - amount.mass_g) > max(0.005 * amount.mass_g, 0.05):
        sign = "more" if total > amount.mass_g else "less"
        raise InputError(
            f"the portions add up to {total:.6g} g, {abs(total - amount.mass_g):.4g} g {sign} than the amount "
            f"{amount.written!r} ({amount.mass_g:.6g} g)",
            "make the portions add up to the amount",
            ("portions",),
        )
    return tuple(Portion(key=key, mass_g=mass_g * amount.mass_g / total) for key, mass_g in parts)


def _replacement(key: str, value: object) -> Replacement:
    fields = mapping(value)
    only(fields, REPLACEMENT_FIELDS)
    name = take_or(fields, "name", text, None)
    kind = _kind(fields, name)
    return Replacement(
        key=key,
        name=name or kind.name,
        food=kind,
        ratio=take_or(fields, "grams_per_gram", _between(Fraction(1, 100), Fraction(20)), 1.0),
        note=take_or(fields, "note", text, None),
    )


def _stage(value: object) -> Stage:
    fields = mapping(value)
    only(fields, STAGE_FIELDS)
    makes = take_or(fields, "makes", slug, None)
    shares = take_or(fields, "shares", each_named(lambda part, written: (part, share(written)), at_least=2), ())
    if shares and makes is None:
        raise InputError("the stage has `shares` but makes nothing", "add `makes: …`", ("shares",))
    total = math.fsum(part for _, part in shares)
    if shares and abs(total - 1) > 0.005:
        raise InputError(f"the shares add up to {100 * total:.4g} %", "make them add up to 100 %", ("shares",))
    return Stage(
        title=take(fields, "title", text),
        makes=makes,
        shares=tuple((key, part / total) for key, part in shares),
        steps=take(fields, "steps", each(_step, at_least=1)),
    )


def _step(value: object) -> Step:
    fields = mapping(value)
    only(fields, STEP_FIELDS)
    uses = take_or(fields, "add", each(_use, at_least=1), ())
    additions = take_or(fields, "additions", _whole_number(1, 100), 1)
    if additions > 1 and not uses:
        raise InputError(f"there are {additions} additions of nothing", "add `add:` with what goes in", ("additions",))
    return Step(
        do=take(fields, "do", text),
        uses=uses,
        additions=additions,
        tool=take_or(fields, "tool", text, None),
        speed=take_or(fields, "speed", one_of(*SPEEDS), None),
        time=take_or(fields, "time", time_range, None),
        look_for=take_or(fields, "look_for", text, None),
        why=take_or(fields, "why", text, None),
        photo=take_or(fields, "photo", text, None),
        checkpoint=take_or(fields, "checkpoint", _checkpoint, None),
        optional=take_or(fields, "optional", yes_no, False),
        water_lost_g=take_or(fields, "water_lost", grams, 0.0),
        heat_to_c=take_or(fields, "heat_to", celsius, None),
        cool_to_c=take_or(fields, "cool_to", celsius, None),
        unattended=take_or(fields, "unattended", yes_no, False),
        when_scaled=take_or(fields, "when_scaled", text, None),
    )


def _use(value: object) -> Use:
    what, slash, portion = text(value).partition("/")
    return Use(what=slug(what), portion=slug(portion) if slash else None)


def time_range(value: object) -> Time:
    """A time or a range of times.

    >>> time_range("3 to 4 min")
    Time(shortest_s=180.0, longest_s=240.0)
    """
    written = " ".join(text(value).split())
    low, to, high = written.partition(" to ")
    if not to:
        only_time = seconds(written)
        return Time(shortest_s=only_time, longest_s=only_time)
    longest = seconds(high)
    shortest = seconds(low) if number_and_words(low)[1] else seconds(f"{low} {number_and_words(high)[1]}")
    if shortest > longest:
        raise InputError(f"{written!r} begins with the longer time", "put the shorter time first")
    return Time(shortest_s=shortest, longest_s=longest)


def _checkpoint(value: object) -> Checkpoint:
    fields = mapping(value)
    only(fields, CHECKPOINT_FIELDS)
    return Checkpoint(
        passes=take(fields, "passes", each(text, at_least=1)),
        troubles=take(fields, "troubles", each(_trouble, at_least=1)),
    )


def _trouble(value: object) -> Trouble:
    fields = mapping(value)
    only(fields, TROUBLE_FIELDS)
    return Trouble(sign=take(fields, "sign", text), remedy=take(fields, "remedy", text))


def _storage(value: object) -> Storage:
    fields = mapping(value)
    only(fields, STORAGE_FIELDS)
    return Storage(
        where=take(fields, "where", one_of(*PLACES)),
        up_to_s=take(fields, "up_to", seconds),
        note=take_or(fields, "note", text, None),
    )


def _yield(value: object) -> Yield:
    fields = mapping(value)
    only(fields, YIELD_FIELDS)
    return Yield(portions=take(fields, "portions", _whole_number(1, 100000)), of=take(fields, "of", text))


def _measured(value: object) -> Measured:
    fields = mapping(value)
    only(fields, MEASURED_FIELDS)
    return Measured(
        density_g_per_ml=take_or(fields, "density", _density, None),
        ph=take_or(fields, "ph", _between(Fraction(0), Fraction(14)), None),
        water_activity=take_or(fields, "water_activity", _between(Fraction(0), Fraction(1)), None),
    )


def _density(value: object) -> float:
    written = text(value)
    count, words = number_and_words(written)
    if words.replace(" ", "").lower() != "g/ml":
        raise InputError(f"{written!r} is not a density", "write it like `0.85 g/mL`")
    return _between(Fraction(1, 20), Fraction(2))(str(float(count)))


def _tried(value: object) -> tuple[float, float]:
    fields = mapping(value)
    only(fields, TRIED_FIELDS)
    reader = _between(Fraction(1, 1000), Fraction(LARGEST_BATCH))
    low, high = take(fields, "from", reader), take(fields, "to", reader)
    if low > high:
        raise InputError("`from` is larger than `to`", "put the smaller batch first", ("from",))
    return low, high


def _between(lowest: Fraction, highest: Fraction) -> Callable[[object], float]:
    def read(value: object) -> float:
        result = number(text(value))
        if not lowest <= result <= highest:
            raise InputError(f"{text(value)!r} lies outside {float(lowest):g} to {float(highest):g}", "mend the number")
        return float(result)

    return read


def _whole_number(lowest: int, highest: int) -> Callable[[object], int]:
    def read(value: object) -> int:
        result = number(text(value))
        if result.denominator != 1 or not lowest <= result <= highest:
            raise InputError(f"{text(value)!r} is not a whole number from {lowest} to {highest}", "mend the number")
        return int(result)

    return read


def _date(value: object) -> str:
    written = text(value)
    try:
        return datetime.date.fromisoformat(written).isoformat()
    except ValueError:
        raise InputError(f"{written!r} is not a date", "write it like `2026-03-31` (ISO 8601)") from None
