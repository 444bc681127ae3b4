"""What the trials of a recipe show: effects in plans, blind comparisons, batches made again, and marks of tastings."""

import math
from collections.abc import Sequence
from statistics import mean, stdev

from crumbcoat_calc.trials.alike import Alike, alike_of
from crumbcoat_calc.trials.model import COMPARISONS, Comparison
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.plans import Bounds
from crumbcoat_calc.trials.responses import responses_of
from crumbcoat_calc.values.display import list_text, mass_text, number_text, plain_number_text

from crumbcoat_site.command.columns import in_columns
from crumbcoat_site.command.trial_book import TrialBook
from crumbcoat_site.trial_statistics.effects import BEND, BOTH, FIRST, OTHER_BEND, SECOND, TooFew, effects_of
from crumbcoat_site.trial_statistics.fit import Estimated
from crumbcoat_site.trial_statistics.library import REMEDY, is_installed
from crumbcoat_site.trial_statistics.tastings import paired_p, triangle_p

_NOTHING = """\
No trial is a point of a plan, was compared blind, was made again or was tasted.
Plans are made with `crumbcoat plan-trials`; a blind comparison is written as
    compared: [{test: triangle, against: 2, people: 12, right: 9}]
and marks as
    tasted: [{attribute: liking, marks: [7, 8, 6]}]"""

_HOW = """\
Intervals have a confidence of 95 %, from the scatter between batches that were made again. An effect counts as larger
than the scatter if its interval leaves out zero; of twenty that are nothing, one does so by chance."""


def results_text(book: TrialBook) -> str:
    """Everything that can be said, and of the rest what is missing."""
    planned = any(made.trial.plan for made in book.made)
    compared = any(made.trial.compared for made in book.made)
    parts: list[str] = []
    if (planned or compared) and not is_installed():
        parts.append(
            f"Effects and blind comparisons need a library for statistics, which is not installed.\n    Fix: {REMEDY}."
        )
    elif planned or compared:
        parts += [_plan(number, book.made) for number in sorted({made.trial.plan or 0 for made in book.made} - {0})]
        parts += [_HOW] if planned else []
        parts += [_compared(made, one) for made in book.made for one in made.trial.compared]
    parts += [_alike(one) for one in alike_of(book.made)]
    tasted = [line for made in book.made for line in _tasted(made)]
    shown = [*parts, *(["\n".join(tasted)] if tasted else [])] or [_NOTHING]
    return "\n\n".join([*shown, *book.notes])


def _alike(one: Alike) -> str:
    return "\n".join([f"{one.title}:", *[f"    {line}" for line in in_columns([one.heads, *one.rows])]])


def _plan(number: int, trials: Sequence[MadeTrial]) -> str:
    made = [one for one in trials if one.trial.plan == number]
    head = f"Plan {number}, {len(made)} batches"
    varied = _varied(made)
    if len(varied) != 2:
        changing = list_text([one.ingredient for one in varied]) or "nothing"
        return f"{head}: a plan changes two ingredients, and here it is {changing}."
    ranges = list_text([f"{_name(one)} {mass_text(one.low_g)} to {mass_text(one.high_g)}" for one in varied])
    names = list(dict.fromkeys([name for one in made for name in responses_of(one.trial)]))
    lines = [line for name in names for line in _response(name, made, varied)]
    return "\n".join([f"{head}: {ranges}.", *(lines or ["    Nothing was read of these batches yet."])])


def _varied(made: Sequence[MadeTrial]) -> list[Bounds]:
    """The ingredients whose planned amounts differ, with the least and the most."""
    amounts: dict[str, list[float]] = {}
    for one in made:
        for ingredient in one.plan.ingredients:
            amounts.setdefault(ingredient.key, []).append(ingredient.mass_g)
    return [Bounds(key, min(of_one), max(of_one)) for key, of_one in amounts.items() if max(of_one) > min(of_one)]


def _name(bounds: Bounds) -> str:
    return bounds.ingredient.replace("_", " ")


def _response(name: str, made: Sequence[MadeTrial], varied: Sequence[Bounds]) -> list[str]:
    read = [(one, responses_of(one.trial)[name]) for one in made if name in responses_of(one.trial)]
    unit = read[0][1].unit
    head = f"    {name}{', ' + unit if unit else ''} (n = {len(read)})"
    held = [str(one.trial.number) for one, response in read if response.at_least]
    if held:
        return [
            f"{head}: not judged, since trial{'s' * (len(held) > 1)} {list_text(held)} still held when the test ended."
        ]
    masses = [{ingredient.key: ingredient.mass_g for ingredient in one.recipe.ingredients} for one, _ in read]
    first, second = varied
    levels = [(first.level(mass[first.ingredient]), second.level(mass[second.ingredient])) for mass in masses]
    effects = effects_of(levels, [response.value for _, response in read])
    if isinstance(effects, TooFew):
        return [f"{head}: {effects.reason}."]
    digits = _digits(effects.scatter)
    lines = [f"{head}; batches made again differ by {number_text(effects.scatter, digits)} (standard deviation)"]
    return lines + [
        f"        {_what(effect, varied, OTHER_BEND in effects.found)}: {_effect_text(value, digits)}"
        for effect, value in effects.found.items()
    ]


def _what(effect: str, varied: Sequence[Bounds], is_star: bool) -> str:
    first, second = varied
    if effect in (FIRST, SECOND):
        one = first if effect == FIRST else second
        return f"{_name(one)} from {mass_text(one.low_g)} to {mass_text(one.high_g)}"
    if effect == BOTH:
        return f"{_name(first)} at {mass_text(second.high_g)} of {_name(second)}, beyond what it does on average"
    if not is_star:
        return "the corners of the plan, against its middle"
    return f"{_name(first if effect == BEND else second)} at its ends, against the middle"


def _effect_text(effect: Estimated, digits: int) -> str:
    low, high = number_text(effect.low, digits), number_text(effect.high, digits)
    larger = "larger than the scatter" if effect.low > 0 or effect.high < 0 else "not larger than the scatter"
    sign = "+" if effect.value > 0 else ""
    return f"{sign}{number_text(effect.value, digits)} ({low} to {high}), {larger}, {_p_text(effect.p)}"


def _digits(scatter: float) -> int:
    """Decimals that show a scatter with two figures."""
    return max(0, 1 - math.floor(math.log10(scatter)))


def _p_text(p: float) -> str:
    """A chance with two figures.

    >>> _p_text(0.00386), _p_text(0.5), _p_text(1e-9)
    ('p = 0.0039', 'p = 0.50', 'p < 0.0001')
    """
    return "p < 0.0001" if p < 0.0001 else f"p = {number_text(p, _digits(p))}"


def _compared(made: MadeTrial, compared: Comparison) -> str:
    triangle, _ = COMPARISONS
    people, count = compared.people, compared.count
    numbers = f"Trial {made.trial.number} against trial {compared.against}"
    asked = f" ({compared.asked})" if compared.asked else ""
    if compared.test == triangle:
        p = triangle_p(people, count)
        shown = f"{count} of {people} found the odd one: {_p_text(p)}"
        otherwise = f"guessing alone finds {plain_number_text(people / 3, 1)} on average, so no difference is shown"
    else:
        p = paired_p(people, count)
        shown = f"{count} of {people} chose trial {made.trial.number}{asked}: {_p_text(p)}, both ways counted"
        otherwise = "no preference is shown"
    doubt = "" if p <= 0.05 else f"; {otherwise}, which does not mean that there is none"
    return f"{numbers}, {compared.test} test: {shown}{doubt}."


def _tasted(made: MadeTrial) -> list[str]:
    lines = []
    for tasting in made.trial.tasted:
        marks = tasting.marks
        spread = f"standard deviation {number_text(stdev(marks), 1)}" if len(marks) > 1 else "one person, no spread"
        shown = f"{tasting.attribute} {number_text(mean(marks), 1)} of {tasting.scale}"
        lines.append(
            f"Trial {made.trial.number}: {shown} ({spread}, n = {len(marks)}, from {min(marks)} to {max(marks)})"
        )
    return lines
