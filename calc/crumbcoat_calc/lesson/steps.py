"""The steps of a recipe as tasks of a group: what follows what, how long it may wait, and which tools it holds."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from crumbcoat_calc.lesson.lesson import BOWL, HOB, MIXER, OVEN, SCALES, SHELF
from crumbcoat_calc.lesson.plan import Follows, Hold, Task
from crumbcoat_calc.lesson.waits import longest_waits
from crumbcoat_calc.recipe.model import Recipe, Step

TEACHER = "teacher"
"""The tool that is held while the teacher looks at something."""

_WORDS = {
    MIXER: re.compile(r"\bmixer\b"),
    HOB: re.compile(r"pan\b|\bpot\b|\bhob\b|\bstove\b|simmering|\bboiling water\b|\bwater bath\b"),
    OVEN: re.compile(r"\boven\b"),
    SHELF: re.compile(r"\brefrigerator\b|\bfridge\b|\bfreezer\b"),
}
"""Words of the trade in the name of a step's tool, by which it is known what the step holds."""

UNTIMED_S = 120.0
"""So long does a step take in a plan that states no time. Our choice, no source."""

LONG_WAIT_S = 3 * 3600.0
"""From this time on, something left alone is not waited for in a lesson: what follows is another lesson. Our choice."""

LAST_WAIT_S = 3600.0
"""From this time on, a last step that is left alone goes on after the lesson. Our choice."""

Place = tuple[int, int]
"""A stage and a step of a recipe, counted from 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Routine:
    """What takes time beside the steps, in s: weighing, the teacher's look, washing a bowl, handing a mixer over."""

    weigh_s: float = 600.0
    look_s: float = 60.0
    wash_s: float = 300.0
    change_s: float = 120.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonSteps:
    """The tasks of one recipe in one lesson.

    `places` has the step of each task, `alone` the steps that go on without anyone after the lesson.
    """

    tasks: tuple[Task, ...] = ()
    holds: tuple[Hold, ...] = ()
    places: Mapping[str, Place] = field(default_factory=dict)
    alone: tuple[Place, ...] = ()


def place_text(place: Place) -> str:
    """`2.1` for the first step of the second stage."""
    return f"{place[0] + 1}.{place[1] + 1}"


def lessons_of(
    recipe: Recipe, routine: Routine, prefix: str = "", without: frozenset[int] = frozenset()
) -> tuple[LessonSteps, ...]:
    """The tasks of a recipe for one lesson, or for several where something waits for hours between them.

    A step is a task, named by its place, `2.1`; it takes the longest of its stated times. The teacher's look at a
    checkpoint is a task after it, `2.1 look`. What is needed in a lesson is weighed at its start, `weigh`. A stage that
    sets its product aside can start at once; any other stage follows the last one in the bowl; a step that uses the
    product of a stage follows that stage.

    Args:
        prefix: before each task's key, to tell recipes apart.
        without: stages, counted from 0, that the teacher makes beforehand.
    """
    before = _before(recipe, without)
    lesson_of = _lessons(recipe, before)
    count = 1 + max(lesson_of.values(), default=0)
    return tuple(_one_lesson(recipe, routine, prefix, before, lesson_of, number) for number in range(count))


def _before(recipe: Recipe, without: frozenset[int]) -> dict[Place, list[Place]]:
    """What each step follows, in the recipe's order."""
    before: dict[Place, list[Place]] = {}
    made: dict[str, Place] = {}
    in_bowl: Place | None = None
    for number, stage in enumerate(recipe.stages):
        if number in without:
            continue
        last = None if stage.makes else in_bowl
        for step_number, step in enumerate(stage.steps):
            place = (number, step_number)
            needs = [last, *(made.get(use.what) for use in step.uses)]
            before[place] = list(dict.fromkeys(need for need in needs if need))
            last = place
        if stage.makes and last:
            made[stage.makes] = last
        elif not stage.makes:
            in_bowl = last
    return before


def step_at(recipe: Recipe, place: Place) -> Step:
    """The step at a place."""
    return recipe.stages[place[0]].steps[place[1]]


def _lessons(recipe: Recipe, before: Mapping[Place, Sequence[Place]]) -> dict[Place, int]:
    """The lesson of each step, as late as what follows allows: butter is not creamed the day before."""
    earliest: dict[Place, int] = {}
    for place, needs in before.items():
        earliest[place] = max((earliest[need] + _is_long(recipe, need) for need in needs), default=0)
    found = dict(earliest)
    followed: dict[Place, list[Place]] = {}
    for place, needs in before.items():
        for need in needs:
            followed.setdefault(need, []).append(place)
    for place in reversed(list(before)):
        if place in followed:
            found[place] = min(found[after] for after in followed[place]) - _is_long(recipe, place)
    return found


def _is_long(recipe: Recipe, place: Place) -> bool:
    step = step_at(recipe, place)
    return step.unattended and step.time is not None and step.time.shortest_s >= LONG_WAIT_S


def _one_lesson(
    recipe: Recipe,
    routine: Routine,
    prefix: str,
    before: Mapping[Place, Sequence[Place]],
    lesson_of: Mapping[Place, int],
    number: int,
) -> LessonSteps:
    waits = longest_waits(recipe)
    here = [place for place in before if lesson_of[place] == number]
    needed = {need for place in here for need in before[place]}
    named = {ingredient.key for ingredient in recipe.ingredients}
    weighed = any(use.what in named for place in here for use in step_at(recipe, place).uses)
    tasks, holds, places, alone = [], [], {}, []
    weigh = f"{prefix}weigh"
    if weighed and routine.weigh_s:
        tasks.append(Task(key=weigh, duration_s=routine.weigh_s))
        holds.append(Hold(tool=SCALES, tasks=(weigh,)))
    for place in here:
        step, key = step_at(recipe, place), prefix + place_text(place)
        goes_on = _is_long(recipe, place) or (place not in needed and _is_last_wait(step))
        first = [
            Follows(key=_last_key(recipe, routine, prefix, need), longest_wait_s=waits[need].longest_s)
            for need in before[place]
            if lesson_of[need] == number
        ]
        if not first and weighed and routine.weigh_s:
            first = [Follows(key=weigh)]
        lasts_s = UNTIMED_S if goes_on or step.time is None else step.time.longest_s
        tasks.append(Task(key=key, duration_s=lasts_s, attended=goes_on or not step.unattended, after=tuple(first)))
        places[key] = place
        if goes_on:
            alone.append(place)
        if step.checkpoint and routine.look_s:
            look = f"{key} look"
            after = Follows(key=key, longest_wait_s=waits[place].longest_s)
            tasks.append(Task(key=look, duration_s=routine.look_s, after=(after,)))
            holds.append(Hold(tool=TEACHER, tasks=(look,)))
            places[look] = place
    holds += _holds(recipe, routine, prefix, here)
    return LessonSteps(tasks=tuple(tasks), holds=tuple(holds), places=places, alone=tuple(alone))


def _last_key(recipe: Recipe, routine: Routine, prefix: str, place: Place) -> str:
    look = " look" if step_at(recipe, place).checkpoint and routine.look_s else ""
    return f"{prefix}{place_text(place)}{look}"


def _is_last_wait(step: Step) -> bool:
    return step.unattended and step.time is not None and step.time.longest_s >= LAST_WAIT_S


def _holds(recipe: Recipe, routine: Routine, prefix: str, here: Sequence[Place]) -> list[Hold]:
    """Mixers, hobs, ovens and shelves from the first to the last of consecutive steps there, and the mixers' bowls."""
    found = []
    for tool in (MIXER, HOB, OVEN, SHELF):
        then_s = routine.change_s if tool == MIXER else 0.0
        for run in _runs(recipe, here, tool):
            found.append(Hold(tool=tool, tasks=tuple(prefix + place_text(place) for place in run), then_s=then_s))
    for places in _in_mixer_bowls(recipe, here):
        keys = tuple(prefix + place_text(place) for place in places)
        found.append(Hold(tool=BOWL, tasks=keys, then_s=routine.wash_s))
    return found


def uses_tool(step: Step, tool: str) -> bool:
    """Whether a step's tool is one of these: `mixer`, `hob`, `oven` or `shelf`."""
    return step.tool is not None and names_tool(step.tool, tool)


def names_tool(words: str, tool: str) -> bool:
    """Whether the words name one of these tools: `mixer`, `hob`, `oven` or `shelf`."""
    return tool in _WORDS and bool(_WORDS[tool].search(words.lower()))


def _runs(recipe: Recipe, places: Sequence[Place], tool: str) -> list[list[Place]]:
    """Consecutive steps with one vessel at one tool: nobody hands it over between them."""
    runs: list[list[Place]] = []
    last_of: dict[str, Place] = {}
    for place in places:
        vessel, step = recipe.stages[place[0]].makes or "", step_at(recipe, place)
        if uses_tool(step, tool):
            if runs and vessel in last_of and runs[-1][-1] == last_of[vessel]:
                runs[-1].append(place)
            else:
                runs.append([place])
        last_of[vessel] = place
    return runs


def _in_mixer_bowls(recipe: Recipe, here: Sequence[Place]) -> list[list[Place]]:
    """For each vessel that is ever at the mixer, its steps from the first one there to the last with a hand in it.

    What a stage sets aside stays in its bowl until it is used up.
    """
    vessels: dict[str, list[Place]] = {}
    for place in here:
        stage, step = recipe.stages[place[0]], step_at(recipe, place)
        vessel = stage.makes or ""
        if vessel in vessels or uses_tool(step, MIXER):
            vessels.setdefault(vessel, []).append(place)
        for use in step.uses:
            if use.what in vessels and use.what != vessel:
                vessels[use.what].append(place)
    attended = [[place for place in places if not step_at(recipe, place).unattended] for places in vessels.values()]
    return [places for places in attended if places]
