"""Outside data -> Stage: its steps, what goes in at each, and its checkpoints."""

import math
import re
from collections.abc import Callable, Iterator, Mapping

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.model import SPEEDS, Checkpoint, Stage, Step, Time, Trouble, Use
from crumbcoat_calc.recipe.other_words import ALSO_SPEEDS
from crumbcoat_calc.recipe.photo import photos_from
from crumbcoat_calc.values.fields import (
    did_you_mean,
    each,
    each_named,
    line,
    mapping,
    one_of,
    only,
    slug,
    take,
    take_or,
    text,
    yes_no,
)
from crumbcoat_calc.values.marks import prose, prose_line
from crumbcoat_calc.values.temperatures import celsius
from crumbcoat_calc.values.units import grams, share, whole_number
from crumbcoat_calc.values.written_times import first_unit, seconds

STAGE_FIELDS = ("title", "makes", "shares", "steps")
STEP_FIELDS = (
    "do", "add", "additions", "tool", "speed", "time", "look_for", "why", "photo", "checkpoint", "optional",
    "water_lost", "heat_to", "cool_to", "unattended", "may_wait", "when_scaled",
)  # fmt: skip
CHECKPOINT_FIELDS = ("passes", "troubles")
TROUBLE_FIELDS = ("sign", "remedy", "add")


def stage_from(value: object) -> Stage:
    """Read the fields of a stage."""
    fields = mapping(value)
    only(fields, STAGE_FIELDS)
    makes = take_or(fields, "makes", slug, None)
    shares = take_or(fields, "shares", each_named(lambda part, written: (part, share(written)), at_least=2), ())
    if shares and makes is None:
        raise InputError("the stage has `shares` but no `makes`", "add `makes: …` with a short name", ("shares",))
    total = math.fsum(part for _, part in shares)
    if shares and abs(total - 1) > 0.005:
        raise InputError(f"the shares add up to {100 * total:.4g} %", "make them add up to 100 %", ("shares",))
    return Stage(
        title=take(fields, "title", line),
        makes=makes,
        shares=tuple((key, part / total) for key, part in shares),
        steps=take(fields, "steps", each(step_of_fields, at_least=1)),
    )


def step_of_fields(value: object) -> Step:
    """Read the fields of a step."""
    fields = mapping(value)
    only(fields, STEP_FIELDS)
    uses = take_or(fields, "add", _uses, ())
    additions = take_or(fields, "additions", _additions(uses), ())
    return Step(
        do=take(fields, "do", prose),
        uses=uses,
        additions=additions,
        tool=take_or(fields, "tool", line, None),
        speed=take_or(fields, "speed", one_of(*SPEEDS, also=ALSO_SPEEDS), None),
        time=take_or(fields, "time", time_range, None),
        look_for=take_or(fields, "look_for", prose, None),
        why=take_or(fields, "why", prose, None),
        photos=take_or(fields, "photo", photos_from, ()),
        checkpoint=take_or(fields, "checkpoint", _checkpoint, None),
        optional=take_or(fields, "optional", yes_no, False),
        water_lost_g=take_or(fields, "water_lost", grams, 0.0),
        heat_to_c=take_or(fields, "heat_to", celsius, None),
        cool_to_c=take_or(fields, "cool_to", celsius, None),
        unattended=take_or(fields, "unattended", yes_no, False),
        may_wait_s=take_or(fields, "may_wait", _may_wait, None),
        when_scaled=take_or(fields, "when_scaled", prose, None),
    )


def _additions(uses: tuple[Use, ...]) -> Callable[[object], tuple[int, ...]]:
    """A reader of how many parts each use is divided into: one number for all, or one for each that is named."""
    count = whole_number(1, 100)

    def read(value: object) -> tuple[int, ...]:
        if not isinstance(value, Mapping):
            parts = count(value)
            if parts > 1 and not uses:
                problem = f"the step has {parts} additions, but adds nothing"
                raise InputError(problem, "list what goes in under `add`")
            return (parts,) * len(uses) if parts > 1 else ()
        named = dict(each_divided(value))
        added = [use.written for use in uses]
        for name in named:
            if name not in added:
                otherwise = "name what is under `add` of this step, as it is written there"
                raise InputError(f"the step does not add {name!r}", did_you_mean(name, added, otherwise), (name,))
        divided = tuple(named.get(name, 1) for name in added)
        return divided if any(parts > 1 for parts in divided) else ()

    def each_divided(value: Mapping[str, object]) -> Iterator[tuple[str, int]]:
        for name, parts in value.items():
            try:
                yield _use(name).written, count(parts)
            except InputError as error:
                raise error.within(name) from None

    return read


def _uses(value: object) -> tuple[Use, ...]:
    """What goes in: a list, or one name without a list."""
    if not isinstance(value, str):
        return each(_use, at_least=1)(value)
    if "," in value:
        raise InputError(f"{value.strip()[:60]!r} is several names", f"write them as a list: `[{value.strip()[:60]}]`")
    return (_use(value),)


def _use(value: object) -> Use:
    what, slash, portion = text(value).partition("/")
    return Use(what=slug(what), portion=slug(portion) if slash else None)


_RANGE = re.compile(r"(?<=[0-9A-Za-z.¼½¾⅓⅔])\s*[-–—]\s*(?=[0-9.¼½¾⅓⅔])")


def time_range(value: object) -> Time:
    """Read a time or a range of times.

    >>> time_range("3 to 4 min"), time_range("5-8 min").longest_s
    (Time(shortest_s=180.0, longest_s=240.0), 480.0)
    """
    written = " ".join(text(value).split())
    low, to, high = _RANGE.sub(" to ", written).partition(" to ")
    if not to:
        only_time = seconds(written)
        return Time(shortest_s=only_time, longest_s=only_time)
    longest = seconds(high)
    shortest = seconds(low if first_unit(low) else f"{low} {first_unit(high)}")
    if shortest > longest:
        raise InputError(f"{written!r} starts with the longer time", "put the shorter time first")
    return Time(shortest_s=shortest, longest_s=longest)


_OVERNIGHT_S = 24 * 3600.0


def _may_wait(value: object) -> float:
    """How long something may wait, in s: a time, `no` for not at all, or `overnight`, which is counted as a day."""
    if value is False or (isinstance(value, str) and value.strip().lower() in ("no", "at once")):
        return 0.0
    if isinstance(value, str) and value.strip().lower() == "overnight":
        return _OVERNIGHT_S
    if value is True:
        raise InputError(
            "`yes` does not say how long", "write a time such as `20 min`, `no` for at once, or `overnight`"
        )
    return seconds(text(value))


def _checkpoint(value: object) -> Checkpoint:
    fields = mapping(value)
    only(fields, CHECKPOINT_FIELDS)
    return Checkpoint(
        passes=take(fields, "passes", each(prose, at_least=1)),
        troubles=take(fields, "troubles", each(_trouble, at_least=1)),
    )


def _trouble(value: object) -> Trouble:
    fields = mapping(value)
    only(fields, TROUBLE_FIELDS)
    return Trouble(
        sign=take(fields, "sign", prose_line),
        remedy=take(fields, "remedy", prose),
        adds=take_or(fields, "add", _uses, ()),
    )
