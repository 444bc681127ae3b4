"""The equipment of a class, counted: what steps name as their tool, and what the words of a recipe name besides."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.lesson.lesson import HOB, MIXER, OVEN, SCALES, SHELF, Lesson
from crumbcoat_calc.lesson.steps import Place, names_tool
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.tables import load_rows

_PARTS = re.compile(r",? then the |,? then |, | and | in an? ")
_SAME = re.compile(r"(the|that) same\b|the (bowl|pan)\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """A thing, and how many groups need it. `shared`: how many there are for all of them, if they share it.

    `with_parts` are the attachments of a machine. What does not last, such as ice, is not counted but used up.
    """

    thing: str
    groups: int
    shared: int | None = None
    with_parts: tuple[str, ...] = ()
    lasts: bool = True

    @property
    def name(self) -> str:
        """The thing with its attachments: `stand mixer (whisk, paddle)`."""
        return f"{self.thing} ({', '.join(self.with_parts)})" if self.with_parts else self.thing


def class_equipment(recipes: Sequence[Recipe], lesson: Lesson) -> tuple[Needed, ...]:
    """What all groups need, each thing once; a group that makes several recipes needs one of it.

    A thing is there because a step, a preparation, a remedy or the list of the recipe names it; a thermometer also
    where a step has a temperature to reach, and scales since everything is weighed.

    Source:
        equipment.csv for the words; that a group needs one of each thing is common practice, no source.
    """
    makes = [set(lesson.recipes_of(group, len(recipes))) for group in range(lesson.groups)]
    named = _alike([things_of(recipe) for recipe in recipes])
    order = dict.fromkeys(thing for things in named for thing in things)
    shared = {tool: lesson.tools[tool] for tool in (SCALES, MIXER, HOB, OVEN, SHELF) if tool in lesson.tools}
    return tuple(
        Needed(
            thing=thing,
            groups=sum(any(thing in named[recipe] for recipe in mine) for mine in makes),
            shared=next((count for tool, count in shared.items() if tool == thing or names_tool(thing, tool)), None),
            with_parts=tuple(dict.fromkeys(part for things in named for part in things.get(thing, ()))),
            lasts=all(lasts for word, (_, lasts) in _words().items() if re.search(rf"\b{word}\b", thing)),
        )
        for thing in order
    )


def things_of(recipe: Recipe, places: Collection[Place] | None = None) -> Mapping[str, tuple[str, ...]]:
    """The things that a recipe names, in the order of their first use, with the attachments of machines.

    Args:
        places: the steps that count; all of them if None.

    >>> from crumbcoat_calc.recipe.model import Step
    >>> _named_as_tool(Step(do="Beat.", tool="Stand mixer, paddle")), _named_as_tool(Step(do="x", tool="pan and whisk"))
    ({'stand mixer': ('paddle',)}, {'pan': (), 'whisk': ()})
    """
    found: dict[str, tuple[str, ...]] = {SCALES: ()}
    steps = [
        step
        for number, stage in enumerate(recipe.stages)
        for step_number, step in enumerate(stage.steps)
        if places is None or (number, step_number) in places
    ]
    for step in steps:
        for thing, parts in _named_as_tool(step).items():
            found[thing] = tuple(dict.fromkeys((*found.get(thing, ()), *parts)))
    used = {use.what for step in steps for use in step.uses}
    words = [ingredient.preparation or "" for ingredient in recipe.ingredients if ingredient.key in used]
    for step in steps:
        words += [step.do, step.tool or "", *(step.checkpoint.passes if step.checkpoint else ())]
        words += [trouble.remedy for trouble in (step.checkpoint.troubles if step.checkpoint else ())]
    written = "\n".join(words).lower()
    measured = any(step.heat_to_c is not None or step.cool_to_c is not None for step in steps)
    own = [thing.strip() for thing in recipe.equipment]
    for thing, (pattern, _) in _words().items():
        if any(thing in one for one in [*found, *own]):
            continue
        if re.search(rf"\b(?:{pattern})\b", written) or (thing == "thermometer" and measured):
            found[thing] = ()
    return found | dict.fromkeys(own, ())


def _alike(named: Sequence[Mapping[str, tuple[str, ...]]]) -> list[dict[str, tuple[str, ...]]]:
    """The things of several recipes, a plain thermometer under the name that another recipe has for it."""
    every = dict.fromkeys(thing for things in named for thing in things)
    fuller = {word: next((thing for thing in every if word in thing and thing != word), word) for word in _words()}
    return [{fuller.get(thing, thing): parts for thing, parts in things.items()} for things in named]


def _named_as_tool(step: Step) -> dict[str, tuple[str, ...]]:
    """The parts of a step's tool; what follows a mixer is an attachment of it."""
    parts = [part.strip().lower() for part in _PARTS.split(step.tool or "") if part.strip()]
    parts = [part for part in parts if not _SAME.match(part)]
    if parts and names_tool(parts[0], MIXER):
        return {parts[0]: tuple(parts[1:])}
    return dict.fromkeys(parts, ())


@cache
def _words() -> Mapping[str, tuple[str, bool]]:
    rows = load_rows("equipment", lambda cells: (cells["thing"], cells["words"], cells["lasts"] == "yes"), ("thing",))
    return {thing: (words, lasts) for thing, words, lasts in rows}
