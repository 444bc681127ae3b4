"""Texts about how a frosting warms: solid fat from the refrigerator to a hot day, and how long a cake takes."""

from collections.abc import Callable, Sequence
from functools import partial
from math import fsum

from crumbcoat_calc.forms.conditions import Conditions
from crumbcoat_calc.pictures.melting_curve import Mark, MeltingCurve, Zone, melting_curve
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.science.between import StateBetween
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.solid_fat import Band
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.science.structure import FOAMS, GELS, Structure
from crumbcoat_calc.science.warming import (
    DEGREES,
    Around,
    Melting,
    Range,
    cake_times_s,
    dollop_times_s,
    falls_to,
    in_the_sun,
    melting,
    value_at,
)
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import celsius_text, duration_text, number_text, range_text

DARK_PERCENT = 2.0
"""The least cocoa or dark chocolate, in g per 100 g, that makes a frosting dark (common practice, no source)."""

_SHOWN = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0)
_SHORTEST_S = 300.0


def warming_texts(
    batch: Batch, conditions: Conditions, state: MixtureState, density_g_per_ml: float | None, *, by_fat: bool | None
) -> Texts:
    """`warming.short`, `.marks`, `.until`, `science.warming`, `picture.warming`, `rows.warming`, `rows.warming_times`.

    Args:
        state: of the finished batch.
        density_g_per_ml: of the finished batch with its air; None if it was not measured.
        by_fat: whether the fat alone carries it, None where that is not known.
    """
    melts = melting(ends_of_state(state))
    times = _times(batch, conditions, state, density_g_per_ml)
    texts: Texts = {
        "science.warming": f"{times_text(times[1][1])}, until it is at {celsius_text(conditions.warm_to_c)}",
        "warming.until": f"From {celsius_text(conditions.cold_c)} to {celsius_text(conditions.warm_to_c)}, "
        f"in a room of {celsius_text(conditions.room_c)}",
        "rows.warming_times": [[name, times_text(room), times_text(sun)] for name, room, sun in times],
    }
    coat = _short_time(conditions, times[1][1])
    if isinstance(melts, Withheld):
        reason = f"Solid fat is not given: {melts.reason}."
        return texts | {
            "warming.short": coat or reason,
            "warming.marks": reason,
            "rows.warming": [],
            "picture.warming": "",
        }
    zones = zones_of(melts) if by_fat else ()
    return texts | {
        "warming.short": " ".join(filter(None, [_short_solid(melts, conditions), coat])),
        "warming.marks": marks_text(melts, by_fat),
        "rows.warming": [
            [celsius_text(t_c), _grams_at(melts, t_c), _percents(value_at(melts.of_fat, t_c))] for t_c in _SHOWN
        ],
        "picture.warming": _picture(melts, conditions, zones),
    }


def carried_by_fat(structure: Structure) -> bool | None:
    """Whether a frame of unmelted fat alone carries a frosting; None where it is not known what melting does to it."""
    if structure.has(*GELS):
        return False
    return True if structure.frame and not structure.has(*FOAMS) else None


def compared_warming_texts(names: Sequence[str], states: Sequence[MixtureState], at_c: float) -> Texts:
    """`picture.warming`, `rows.warming` and `warming.missing` of two recipes as they warm.

    Args:
        names: of the two recipes.
        states: of their finished batches.
        at_c: the temperature that is marked.
    """
    found = [melting(ends_of_state(state)) for state in states]
    missing = [
        f"Solid fat of “{name}” is not given: {melts.reason}."
        for name, melts in zip(names, found, strict=True)
        if isinstance(melts, Withheld)
    ]
    known = [(name, melts) for name, melts in zip(names, found, strict=True) if not isinstance(melts, Withheld)]
    rows = [
        [celsius_text(t_c), *["not given" if isinstance(one, Withheld) else _grams_at(one, t_c) for one in found]]
        for t_c in _SHOWN
    ]
    return {
        "warming.missing": " ".join(missing),
        "rows.warming": rows,
        "picture.warming": _comparison(known, at_c) if known else "",
    }


def _comparison(known: Sequence[tuple[str, Melting]], at_c: float) -> str:
    value = value_at(known[0][1].of_mixture, at_c)
    marks = (Mark(celsius_text(at_c), at_c, value[0]),) if value else ()
    facts = [
        f"at {celsius_text(t_c)} " + ", ".join([f"{name} {_grams_at(melts, t_c)}" for name, melts in known])
        for t_c in _SHOWN
    ]
    curves = [MeltingCurve(name=name, bands=melts.of_mixture) for name, melts in known]
    title = "Solid fat in 100 g of each recipe as it warms"
    return melting_curve("warming", title, DEGREES, tuple(curves), marks, (), tuple(facts))


def ends_of_state(state: MixtureState) -> Sequence[MixtureState]:
    """The ends of what is not known of a mixture; the mixture itself if all is known."""
    return state.ends if isinstance(state, StateBetween) else (state,)


def zones_of(melts: Melting) -> tuple[Zone, ...]:
    """Where a frosting that its fat carries is too firm, pipes and spreads, is soft, and slumps."""
    marks = [mark[0] for mark in _crossings(melts)]
    bounds = [DEGREES[0], *marks, DEGREES[-1]]
    names = ("too firm", "pipes, spreads", "soft", "slumps")
    zones = [Zone(name, bounds[at], bounds[at + 1]) for at, name in enumerate(names)]
    return tuple([zone for zone in zones if zone.to_c - zone.from_c >= 1])


def _crossings(melts: Melting) -> list[Band]:
    marks = constants("solid-fat")
    return [falls_to(melts.of_fat, marks[name]) for name in ("too_firm", "spreads", "greasy")]


def marks_text(melts: Melting, by_fat: bool | None) -> str:
    """Where it pipes, spreads and slumps by common practice, or why that is not marked."""
    if by_fat is None:
        return (
            "Common practice knows where a frosting slumps that unmelted fat alone carries. This is another kind, so "
            "nothing is marked."
        )
    if not by_fat:
        return "Its fat is not all that holds it: this curve does not say where it slumps, so nothing is marked."
    firm, spreads, slumps = _crossings(melts)
    sentences = []
    if firm[0] > DEGREES[0]:
        sentences.append(f"is too firm to pipe below {degrees_of(firm)}")
    if spreads[0] > DEGREES[0]:
        sentences.append(f"pipes and spreads up to {degrees_of(spreads)}")
    sentences.append(f"slumps from {degrees_of(slumps)}")
    *first, last = sentences
    steps = f"{', '.join(first)}{' and ' if first else ''}{last}"
    width = max(high - low for _, low, high in (firm, spreads, slumps)) / 2
    off = f"{number_text(width, 0)} °C ({number_text(1.8 * width, 0)} °F)"
    return f"By common practice, without a source, it {steps}; each may be {off} off."


def degrees_of(band: Band) -> str:
    """A temperature of the typical curve; or that it is beyond the curve."""
    typical = band[0]
    if typical >= DEGREES[-1]:
        return f"more than {celsius_text(DEGREES[-1])}"
    return f"about {celsius_text(round(typical))}"


def _short_solid(melts: Melting, conditions: Conditions) -> str:
    t_c = conditions.room_c if value_at(melts.of_mixture, conditions.room_c) else DEGREES[7]
    return f"At {celsius_text(t_c)}, {_grams_at(melts, t_c)} of solid fat in 100 g."


def _short_time(conditions: Conditions, room: Range) -> str:
    until, fastest = celsius_text(conditions.warm_to_c), room[0]
    if fastest is None or conditions.warm_to_c <= conditions.cold_c:
        return ""
    return f"From the refrigerator, a coat is at {until} after {times_text(room)}."


def times_text(times_s: Range) -> str:
    """A range of times, no finer than it is known.

    >>> times_text((4000, 14500)), times_text((100, 2500)), times_text((7200, None)), times_text((None, None))
    ('1 to 4 h', 'less than 40 min', '2 h or more, or never', 'never')
    >>> times_text((0, 0)), times_text((2000, 5000))
    ('at once', '35 min to 1 h 30 min')
    """
    fastest, slowest = times_s
    if fastest is None:
        return "never"
    if slowest is None:
        return f"{duration_text(max(_SHORTEST_S, _rounded_s(fastest)))} or more, or never"
    if slowest <= 0:
        return "at once"
    low, high = _rounded_s(fastest), max(_SHORTEST_S, _rounded_s(slowest))
    return f"less than {duration_text(high)}" if low < _SHORTEST_S else duration_text(low, high)


def _rounded_s(time_s: float) -> float:
    step_s = 300.0 if time_s < 3600 else 1800.0 if time_s < 3 * 3600 else 3600.0
    return int(time_s / step_s + 0.5) * step_s


def _times(
    batch: Batch, conditions: Conditions, state: MixtureState, density_g_per_ml: float | None
) -> list[tuple[str, Range, Range]]:
    from_c, to_c = conditions.cold_c, conditions.warm_to_c
    room, sun = Around(conditions.room_c), in_the_sun(conditions.room_c, dark=is_dark(batch))
    found = state.density_g_per_ml
    density = density_g_per_ml or (found.value if isinstance(found, Estimate) else 1.0)
    mixture = ends_of_state(state)[0]
    found_s: tuple[tuple[str, Callable[[Around], Range]], ...] = (
        (
            f"{constants('warming')['dollop_mass']:g} g, as on a cupcake",
            partial(dollop_times_s, mixture, density, from_c, to_c),
        ),
        ("the coat of a cake", partial(cake_times_s, 1.0, from_c, to_c)),
        ("the middle of a cake", partial(cake_times_s, 0.0, from_c, to_c)),
    )
    return [(name, time_s(room), time_s(sun)) for name, time_s in found_s]


def is_dark(batch: Batch) -> bool:
    """Whether there is enough cocoa or dark chocolate in a batch to make it dark."""
    parts = batch.vessels[-1].parts
    cocoa = fsum([part.mass_g for part in parts if part.food.group == "chocolate" and "white" not in part.food.key])
    return cocoa > DARK_PERCENT * batch.total.mass_g / 100


def _picture(melts: Melting, conditions: Conditions, zones: Sequence[Zone]) -> str:
    marks = []
    for name, t_c in (("your room", conditions.room_c), ("your hands", conditions.hands_c)):
        value = value_at(melts.of_mixture, t_c)
        if value:
            marks.append(Mark(f"{name}, {celsius_text(t_c)}", t_c, value[0]))
    facts = [f"at {celsius_text(t_c)} {_grams_at(melts, t_c)}" for t_c in _SHOWN]
    facts += [
        f"{zone.name} from {celsius_text(round(zone.from_c))} to {celsius_text(round(zone.to_c))} by common practice"
        for zone in zones
    ]
    return melting_curve(
        "warming",
        "Solid fat in 100 g of frosting as it warms",
        DEGREES,
        (MeltingCurve(name="solid fat", bands=melts.of_mixture),),
        tuple(marks),
        tuple(zones),
        tuple(facts),
    )


def _grams_at(melts: Melting, t_c: float) -> str:
    """The solid fat with its band, in g; to a tenth where even the coldest mixture has little."""
    band = value_at(melts.of_mixture, t_c)
    if band is None:
        return ""
    digits = 1 if melts.of_mixture[0][2] < 9.95 else 0
    value, low, high = [number_text(end, digits) for end in band]
    return f"{value} g" if low == high else f"{value} g ({low} to {high})"


def _percents(band: Band | None) -> str:
    """The band alone, in %."""
    return range_text(f"{number_text(band[1], 0)} %", f"{number_text(band[2], 0)} %") if band else ""
