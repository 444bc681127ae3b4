"""A planned cake from its form state, and back to the sparse form state that is kept."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from crumbcoat_calc.cakes.plan import (
    CHOICES,
    CUPCAKE_LENGTHS,
    LENGTH_UNITS,
    MOST_TIERS,
    NO_TIER,
    SHARES,
    THICKNESSES,
    TIER_SHAPES,
    TIER_THICKNESSES,
    CakePlan,
    PlannedTier,
    starting_tiers,
    usual_mm,
    usual_share,
)
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import did_you_mean
from crumbcoat_calc.values.form_fields import choice_from, number_from, read_field, state_number
from crumbcoat_calc.values.units import number


def cake_plan_from(state: Mapping[str, str], lengths: str = LENGTH_UNITS[0]) -> CakePlan:
    """The plan in a form state: lengths in mm, shares as numbers, density in g/mL, a cup in g.

    Args:
        lengths: what lengths are shown in at first, and start from whole ones of.

    Raises:
        InputError: at the field that cannot be used.
    """
    mm: dict[str, float] = {}
    shares: dict[str, float] = {}
    choices = {"lengths": lengths}
    tiers: dict[int, dict[str, str]] = {1: {}}
    plan = CakePlan(tiers=(), starts_in=lengths)
    for name, value in state.items():
        if name in (*THICKNESSES, *CUPCAKE_LENGTHS):
            mm[name] = read_field(name, value, number_from)
        elif name in SHARES:
            shares[name] = read_field(name, value, number_from)
        elif name in CHOICES:
            choices[name] = read_field(
                name, value, partial(choice_from, known=CHOICES[name], what=name.replace("_", " "))
            )
        elif name == "cupcakes":
            plan = replace(plan, cupcakes=read_field(name, value, partial(_whole_number, lowest=0, highest=10_000)))
        elif name == "density":
            plan = replace(plan, density_g_per_ml=read_field(name, value, _density))
        elif name == "cup_weighs":
            plan = replace(plan, cup_g=read_field(name, value, number_from))
        else:
            place, part = _tier_field(name)
            tiers.setdefault(place, {})[part] = value
    plan = replace(plan, mm=mm, shares=shares, choices=choices, tiers=_tiers_from(tiers, lengths))
    read_field("cup_weighs", "", lambda _: plan.density())
    if not plan.tiers and not plan.cupcakes:
        raise InputError(
            "the cake has neither tiers nor cupcakes",
            "choose a shape, or enter a number of cupcakes",
            ("tier", "1", "shape"),
        )
    return plan


def state_from_cake_plan(plan: CakePlan, lengths: str = LENGTH_UNITS[0]) -> dict[str, str]:
    """The differences from one round tier of two layers with the usual coats, with one spelling for each value."""
    usual = {name: words[0] for name, words in CHOICES.items()} | {"lengths": lengths}
    state = {name: word for name, word in plan.choices.items() if word != usual[name]}
    for name, length_mm in plan.mm.items():
        if state_number(length_mm) != state_number(usual_mm(name, plan.choice("topping"), lengths)):
            state[name] = state_number(length_mm)
    for name, share in plan.shares.items():
        if state_number(share) != state_number(usual_share(name)):
            state[name] = state_number(share)
    if plan.cupcakes:
        state["cupcakes"] = str(plan.cupcakes)
    if plan.density_g_per_ml is not None:
        state["density"] = state_number(plan.density_g_per_ml)
    if plan.cup_g is not None:
        state["cup_weighs"] = state_number(plan.cup_g)
    if not plan.tiers:
        state["tier.1.shape"] = NO_TIER
    for place, tier in enumerate(plan.tiers, start=1):
        start = starting_tiers(lengths)[tier.shape]
        if place > 1 or tier.shape != "round":
            state[f"tier.{place}.shape"] = tier.shape
        for name, length_mm in tier.lengths_mm.items():
            if state_number(length_mm) != state_number(start.lengths_mm[name]):
                state[f"tier.{place}.{name}"] = state_number(length_mm)
        if tier.layers != start.layers:
            state[f"tier.{place}.layers"] = str(tier.layers)
        state |= {f"tier.{place}.{name}": state_number(own_mm) for name, own_mm in tier.own_mm.items()}
    return dict(sorted(state.items()))


def _tiers_from(fields: Mapping[int, Mapping[str, str]], units: str) -> tuple[PlannedTier, ...]:
    tiers = []
    for place in sorted(fields):
        head = f"tier.{place}"
        shape = fields[place].get("shape", "round" if place == 1 else NO_TIER)
        read_field(f"{head}.shape", shape, partial(choice_from, known=(*TIER_SHAPES, NO_TIER), what="shape"))
        if shape == NO_TIER:
            continue
        start = starting_tiers(units)[shape]
        lengths, layers, own = dict(start.lengths_mm), start.layers, {}
        for part, value in fields[place].items():
            if part == "layers":
                layers = read_field(f"{head}.{part}", value, partial(_whole_number, lowest=1, highest=30))
            elif part in lengths:
                lengths[part] = read_field(f"{head}.{part}", value, number_from)
            elif part in TIER_THICKNESSES:
                own[part] = read_field(f"{head}.{part}", value, number_from)
        tiers.append(PlannedTier(shape=shape, lengths_mm=lengths, layers=layers, own_mm=own))
    return tuple(tiers)


def _tier_field(name: str) -> tuple[int, str]:
    parts = name.split(".")
    known = {
        "shape",
        "height",
        "layers",
        *TIER_THICKNESSES,
        *[length for lengths in TIER_SHAPES.values() for length in lengths],
    }
    if len(parts) == 3 and parts[0] == "tier" and parts[1].isdecimal() and parts[2] in known:
        place = int(parts[1][:6])
        if 1 <= place <= MOST_TIERS:
            return place, parts[2]
        raise InputError(f"there is no room for tier {place}", f"use up to {MOST_TIERS} tiers", (name,))
    every = (*THICKNESSES, *CUPCAKE_LENGTHS, *SHARES, *CHOICES, "cupcakes", "density", "cup_weighs")
    raise InputError(f"unknown field {name!r}", did_you_mean(name, every, "leave it out"), (name,))


def _whole_number(written: str, lowest: int, highest: int) -> int:
    value = number(written)
    if value.denominator != 1 or not lowest <= value <= highest:
        problem = f"{written!r} is not a whole number from {lowest} to {highest}"
        raise InputError(problem, f"use a number such as `{lowest + 2}`")
    return int(value)


def _density(written: str) -> float:
    value = number_from(written)
    if not 0.1 <= value <= 2:
        problem = f"a density of {value:g} g/mL is outside 0.1 to 2"
        raise InputError(problem, "weigh a level cup of the frosting again, without the cup")
    return value
