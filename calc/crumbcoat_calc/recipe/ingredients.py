"""Outside data -> Ingredient: its kind, amount, portions and replacements."""

import itertools
import math
import re
from dataclasses import replace
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.allergens import allergen_word
from crumbcoat_calc.foods.table import AS_IT_COMES, Food, grams_of
from crumbcoat_calc.recipe.model import Amount, Ingredient, Portion, Replacement, SubIngredient
from crumbcoat_calc.recipe.own_food import FOOD_FIELDS, food_from
from crumbcoat_calc.values.fields import (
    did_you_mean,
    each,
    each_named,
    line,
    mapping,
    only,
    take,
    take_or,
    text,
    yes_no,
)
from crumbcoat_calc.values.marks import prose_line
from crumbcoat_calc.values.temperatures import celsius
from crumbcoat_calc.values.units import (
    between,
    dimension,
    grams,
    number_and_words,
    pounds_and_ounces,
    share,
    unit_name,
    unit_spellings,
    units_called,
)

INGREDIENT_FIELDS = (
    *FOOD_FIELDS, "name", "amount", "role", "preparation", "temperature", "optional", "portions", "kept_back",
    "replacements", "made_of", "allergens",
)  # fmt: skip
SHARED_FIELDS = ("name", *FOOD_FIELDS, "made_of", "allergens")
"""The fields of an ingredient that several recipes use."""

REPLACEMENT_FIELDS = (*FOOD_FIELDS, "name", "grams_per_gram", "note", "made_of", "allergens")

_HOW = re.compile(r",(?!(?<=[0-9],)[0-9])")
"""The comma before the way of measuring; the one in `1,5 g` is none."""

_PINCH = re.compile(r"(?i)(?:(?:an?|one|[0-9]+)\s+)?(?:(?:small|good|large)\s+)?pinch(?:es)?\b.*")
_EGG = ("large",)
"""The size of an egg that is proposed where only a number is written: the usual one in recipes (common practice)."""

_WITH_SHARE = re.compile(r"(.*[^\s(])[ (]+([0-9.,]+ ?%)\)?")


def amount_of(kind: Food, value: object) -> Amount:
    """Read an amount of a food: a mass, or a household measure with a known weight.

    >>> from crumbcoat_calc.foods.table import food
    >>> amount_of(food("sugar_powdered"), "2 US cups, unsifted").mass_g
    240.0
    """
    written = " ".join(text(value).split())
    if _PINCH.fullmatch(written):
        remedy = "write a weight, such as `0.3 g`: what a pinch of yours weighs, ten of them on a fine scale"
        raise InputError(f"{written!r} has no weight: no source weighs a pinch", remedy)
    quantity, how = (*_HOW.split(written, maxsplit=1), "")[:2]
    if "+" in quantity:
        parts = [amount_of(kind, f"{part},{how}" if how else part) for part in quantity.split("+")]
        return replace(parts[0], written=written, mass_g=math.fsum([part.mass_g for part in parts]))
    if pounds_and_ounces(written):
        return Amount(written=written, mass_g=grams(written), unit="pound", how=AS_IT_COMES)
    count, words = number_and_words(quantity)
    if any(sign.isdigit() for sign in words):
        raise InputError(f"{written[:60]!r} is not one number with a unit", "write one amount, such as `250 g`")
    if not words:
        piece = next((one.unit for one in kind.measures if one.unit in _EGG), None)
        remedy = "write a mass such as `250 g`, or a named measure such as `1 US cup`"
        raise InputError(f"{written!r} has no unit", f"write `{written} {piece}`, or a mass" if piece else remedy)
    if count == 0:
        raise InputError(f"{written!r} adds nothing", "use more than zero, or leave it out")
    unit = unit_name(words)
    if unit is not None and dimension(unit) == "mass":
        if how.strip():
            raise InputError(f"unexpected {how.strip()!r} after a mass", "move it to `preparation`")
        return Amount(written=written, mass_g=grams(written), unit=unit, how=AS_IT_COMES)
    if unit is not None and dimension(unit) != "volume":
        raise InputError(f"{words!r} is not a unit of mass or volume", "write a mass such as `250 g`")
    how = how.strip() or AS_IT_COMES
    piece = unit or words.replace(" ", "_").lower()
    known = {measure.unit for measure in kind.measures}
    if unit is None and piece not in known:
        if piece.removesuffix("s") in known:
            piece = piece.removesuffix("s")
        else:
            _refuse_more_words(quantity, words, known)
            _refuse_misspelled(words, known)
    return Amount(written=written, mass_g=grams_of(kind, float(count), piece, how), unit=piece, how=how)


def _refuse_more_words(quantity: str, words: str, pieces: set[str]) -> None:
    """Refuse words after a unit, such as the name of the ingredient, or how it is measured in brackets."""
    every = words.split()
    for count in range(len(every) - 1, 0, -1):
        unit, more = " ".join(every[:count]), " ".join(every[count:])
        if units_called(unit) or unit_name(unit) or {unit.lower(), unit.lower().removesuffix("s")} & pieces:
            measure = quantity.strip().removesuffix(more).strip()
            how = f", or `{measure}, {more.strip('()')}`" if more.startswith("(") else ""
            remedy = f"write `{measure}`{how}; a name goes under `name`, and what is done to it under `preparation`"
            raise InputError(f"unexpected {more[:40]!r} after {measure!r}", remedy)


def _refuse_misspelled(words: str, pieces: set[str]) -> None:
    known = (*unit_spellings("mass"), *unit_spellings("volume"), *pieces)
    remedy = did_you_mean(words.lower(), known, "")
    if remedy:
        raise InputError(f"unknown unit {words[:40]!r}", remedy)


def ingredient_from(key: str, value: object) -> Ingredient:
    """Read the fields of the ingredient `key`."""
    fields = mapping(value)
    only(fields, INGREDIENT_FIELDS)
    name = take_or(fields, "name", line, None)
    kind = food_from(fields, name)

    def part_from(part: str, written: object) -> tuple[str, float]:
        return part, amount_of(kind, written).mass_g

    portions = take_or(fields, "portions", each_named(part_from, at_least=2), ())
    kept_back = take_or(fields, "kept_back", each_named(part_from, at_least=1), ())
    if "amount" in fields or portions or not kept_back:
        amount = take(fields, "amount", lambda written: amount_of(kind, written))
    else:
        amount = Amount(written="0 g", mass_g=0.0, unit="gram", how=AS_IT_COMES)
    return Ingredient(
        key=key,
        name=name or kind.name,
        food=kind,
        amount=amount,
        role=take_or(fields, "role", prose_line, None),
        preparation=take_or(fields, "preparation", prose_line, None),
        temperature_c=take_or(fields, "temperature", celsius, None),
        optional=take_or(fields, "optional", yes_no, False),
        portions=_portions(amount, portions),
        kept_back=_kept_back(kept_back, portions),
        replacements=take_or(fields, "replacements", each_named(_replacement, at_least=1), ()),
        made_of=take_or(fields, "made_of", _made_of, ()),
        allergens=take_or(fields, "allergens", each(allergen_word), None),
    )


def shared_ingredient(value: object) -> Food:
    """Check the fields of an ingredient that several recipes use, without an amount; the food that they state.

    Raises:
        InputError: at the first field that is missing, unknown or wrong.
    """
    fields = mapping(value)
    only(fields, SHARED_FIELDS)
    found = food_from(fields, take(fields, "name", line))
    take_or(fields, "made_of", _made_of, ())
    take_or(fields, "allergens", each(allergen_word), None)
    return found


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


def _kept_back(parts: tuple[tuple[str, float], ...], portions: tuple[tuple[str, float], ...]) -> tuple[Portion, ...]:
    for key, _ in parts:
        if key in dict(portions):
            problem = f"the name {key!r} is taken by a portion"
            raise InputError(problem, "choose another name for what is kept back", ("kept_back", key))
    return tuple(Portion(key=key, mass_g=mass_g) for key, mass_g in parts)


def _replacement(key: str, value: object) -> Replacement:
    fields = mapping(value)
    only(fields, REPLACEMENT_FIELDS)
    name = take_or(fields, "name", line, None)
    kind = food_from(fields, name)
    return Replacement(
        key=key,
        name=name or kind.name,
        food=kind,
        ratio=take_or(fields, "grams_per_gram", between(Fraction(1, 100), Fraction(20)), 1.0),
        note=take_or(fields, "note", text, None),
        made_of=take_or(fields, "made_of", _made_of, ()),
        allergens=take_or(fields, "allergens", each(allergen_word), None),
    )


def _made_of(value: object) -> tuple[SubIngredient, ...]:
    """Read the ingredients listed on a pack, the largest share first.

    >>> [(part.name, part.share) for part in _made_of(["cocoa mass 62 %", "sugar (37,5 %)", "lecithin (soya)"])]
    [('cocoa mass', 0.62), ('sugar', 0.375), ('lecithin (soya)', None)]
    """
    parts = each(_sub_ingredient, at_least=1)(value)
    shares = [(position, part.share) for position, part in enumerate(parts) if part.share is not None]
    for (_, before), (position, after) in itertools.pairwise(shares):
        if after > before:
            problem = f"{parts[position].name!r} has a larger share than the part before it"
            raise InputError(problem, "list the parts from the largest share to the smallest", (position,))
    total = math.fsum(part for _, part in shares)
    if total > 1.005:
        raise InputError(f"the shares add up to {100 * total:.4g} %", "lower them to 100 % or less in total")
    return parts


def _sub_ingredient(value: object) -> SubIngredient:
    """Read a part as printed on packs: `sugar`, `sugar 38 %` or `sugar (38 %)`."""
    written = line(value)
    found = _WITH_SHARE.fullmatch(written)
    return SubIngredient(name=found[1], share=share(found[2])) if found else SubIngredient(name=written)
