"""A composition stated by a recipe: some contents are given, the rest follows from a known kind of ingredient."""

from collections.abc import Mapping
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import COMPONENTS, FIELD_OF, GRAMS_IN, PROXIMATES, unit_of
from crumbcoat_calc.values.display import list_text

Contents = tuple[float | None, ...]

PARTS = {
    "carbohydrate_g": ("fibre_g", "starch_g", "sugars_g"),
    "sugars_g": ("sucrose_g", "glucose_g", "fructose_g", "lactose_g", "maltose_g"),
    "fat_g": ("saturated_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g"),
}
"""Parts that do not overlap; the component may contain more than these parts."""

FOLLOWS = {
    "added_sugars_g": "sugars_g",
    "milk_protein_g": "protein_g",
    "milk_fat_g": "fat_g",
    "trans_fat_g": "fat_g",
    "cholesterol_mg": "fat_g",
    "vitamin_d_ug": "fat_g",
    "sodium_mg": "ash_g",
    "calcium_mg": "ash_g",
    "potassium_mg": "ash_g",
    "iron_mg": "ash_g",
}
"""Components that stay in proportion to another component, whether or not they are one of its parts."""

TOLERANCE_G = 0.05
"""By how many g per 100 g printed analyses may miss 100. Source: usda-sr28 (all rows but five are within 0.05)."""

MSNF = "milk_solids_not_fat_g"
SOLIDS_NOT_FAT = ("protein_g", "carbohydrate_g", "ash_g")
_TOUCHING = {
    *SOLIDS_NOT_FAT,
    *PARTS["carbohydrate_g"],
    *PARTS["sugars_g"],
    "added_sugars_g",
    "milk_protein_g",
}


def contents_with(base: Contents | None, stated: Mapping[str, float]) -> Contents:
    """The contents per 100 g when some are stated and the others follow from a known kind of ingredient.

    The stated contents are fixed. The other proximates (water, protein, fat, carbohydrate, ash, alcohol) keep their
    ratios to each other and fill the rest of the total:

        other = base other * (base total - stated proximates) / (base total - base contents of the stated ones)

    The parts of a component share it in the same way, and a component that follows another keeps its ratio to it.

    Args:
        base: contents in the order of COMPONENTS, or None; then only what follows from the sum of 100 is known.
        stated: components of COMPONENTS with their contents, zero or more, in the unit of their name.

    Returns:
        Contents in the order of COMPONENTS, None where one does not follow.

    Raises:
        InputError: at a stated component, by its name in a recipe file, that contradicts the others.

    Source:
        derivation (mass balance).
    """
    before: dict[str, float | None] = dict(zip(COMPONENTS, base or (None,) * len(COMPONENTS), strict=True))
    after: dict[str, float | None] = {**before, **stated} if base else dict(stated)
    after.update(_proximates(before, stated))
    for whole, parts in PARTS.items():
        after.update(_parts(whole, parts, before, after, stated))
    for component, leader in FOLLOWS.items():
        if component not in stated:
            after[component] = _in_proportion(before[component], before[leader], after[leader])
    if MSNF not in stated:
        after[MSNF] = _milk_solids_not_fat(before, after, stated)
    _check(before, after, stated)
    return tuple([after.get(component) for component in COMPONENTS])


def _proximates(before: Mapping[str, float | None], stated: Mapping[str, float]) -> dict[str, float | None]:
    fixed = {component: stated[component] for component in PROXIMATES if component in stated}
    others = [component for component in PROXIMATES if component not in stated]
    if not fixed:
        return {component: before[component] for component in others}
    total = fsum(fixed.values())
    largest = FIELD_OF[max(fixed, key=lambda component: fixed[component])]
    if total > 100 + TOLERANCE_G:
        named = list_text([FIELD_OF[component] for component in fixed])
        raise InputError(f"{named} add up to {total:g} g per 100 g", "lower them to 100 g or less in total", (largest,))
    if total >= 100 - TOLERANCE_G:
        return dict.fromkeys(others, 0.0)
    known = [content for component in PROXIMATES if (content := before[component]) is not None]
    if len(known) < len(PROXIMATES):
        return dict.fromkeys(others)
    left = max(0.0, fsum(known) - total)
    there = fsum(before[component] or 0.0 for component in others)
    if left > TOLERANCE_G and there <= 0:
        raise InputError(
            f"the stated contents add up to only {total:g} g, and nothing fills the rest of 100 g",
            "state the rest too, for example `water`",
            (largest,),
        )
    return {component: (before[component] or 0.0) * left / there if there else 0.0 for component in others}


def _parts(
    whole: str,
    parts: tuple[str, ...],
    before: Mapping[str, float | None],
    after: Mapping[str, float | None],
    stated: Mapping[str, float],
) -> dict[str, float | None]:
    fixed = [part for part in parts if part in stated]
    new, old = after.get(whole), before[whole]
    if not fixed and new == old and (new is not None or not stated.keys() & set(PROXIMATES)):
        return {part: before[part] for part in parts}
    if new is None:
        return {part: None for part in parts if part not in fixed}
    left = new - fsum(stated[part] for part in fixed)
    if left <= 0 or old is None:
        return {part: 0.0 if left <= 0 else None for part in parts if part not in fixed}
    for part in fixed:
        content = before[part]
        old = None if content is None or old is None else old - content
    return {part: _in_proportion(before[part], old, left) for part in parts if part not in fixed}


def _in_proportion(content: float | None, old: float | None, new: float | None) -> float | None:
    """The content, scaled from `old` to `new`; zero stays zero."""
    if content == 0:
        return 0.0
    if old is not None and old == new:
        return content
    if new == 0:
        return 0.0
    if content is None or old is None or new is None or old <= 0 or new < 0:
        return None
    return content * new / old


def _milk_solids_not_fat(
    before: Mapping[str, float | None], after: Mapping[str, float | None], stated: Mapping[str, float]
) -> float | None:
    content, protein = before[MSNF], before["protein_g"]
    solids = [before[component] for component in SOLIDS_NOT_FAT]
    new = [after.get(component) for component in SOLIDS_NOT_FAT]
    whole, new_whole = fsum(part or 0.0 for part in solids), fsum(part or 0.0 for part in new)
    if new == solids and not stated.keys() & _TOUCHING:
        return content
    if None not in new and new_whole == 0:
        return 0.0
    if content is None or None in solids or None in new:
        return None
    if content > 0 and abs(content - whole) <= TOLERANCE_G and before["milk_protein_g"] == protein:
        return new_whole
    if stated.keys() & _TOUCHING:
        return 0.0 if content == 0 and not {"lactose_g", "milk_protein_g"} & stated.keys() else None
    return _in_proportion(content, whole, new_whole)


def _check(before: Mapping[str, float | None], after: Mapping[str, float | None], stated: Mapping[str, float]) -> None:
    """Refuse parts that exceed their total; they may exceed it by as much as the base's printed parts did."""
    for whole, parts in PARTS.items():
        fixed = [part for part in parts if part in stated]
        _refuse_above(whole, fixed, before, after)
    for component, leader in FOLLOWS.items():
        if component in stated:
            _refuse_above(leader, [component], before, after)
    if MSNF in stated:
        water, fat = after.get("water_g") or 0.0, after.get("fat_g") or 0.0
        if stated[MSNF] > 100 - water - fat + TOLERANCE_G:
            raise InputError(
                f"{FIELD_OF[MSNF]} is {stated[MSNF]:g} g, but water and fat leave only {100 - water - fat:.4g} g",
                f"reduce `{FIELD_OF[MSNF]}`, or state `water` and `fat` too",
                (FIELD_OF[MSNF],),
            )


def _refuse_above(
    whole: str, fixed: list[str], before: Mapping[str, float | None], after: Mapping[str, float | None]
) -> None:
    limit = after.get(whole)
    if not fixed or limit is None:
        return
    total = fsum((after[part] or 0.0) * GRAMS_IN[unit_of(part)] for part in fixed)
    old = before[whole]
    printed = fsum((before[part] or 0.0) * GRAMS_IN[unit_of(part)] for part in fixed)
    ratio = max(1.0, printed / old) if old else 1.0
    if total > limit * ratio + TOLERANCE_G:
        named = list_text([FIELD_OF[part] for part in fixed])
        raise InputError(
            f"{named}: {total:.4g} g is more than the {limit:.4g} g of {FIELD_OF[whole]}",
            f"reduce `{FIELD_OF[fixed[-1]]}`, or state `{FIELD_OF[whole]}` too",
            (FIELD_OF[fixed[-1]],),
        )
