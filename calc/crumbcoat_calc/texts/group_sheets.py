"""Texts of the sheets of each group: a front for each recipe that it makes, and one back for all of them."""

from collections.abc import Collection, Iterator, Sequence

from crumbcoat_calc.forms.changes import eggs_of
from crumbcoat_calc.lesson.class_plan import ClassPlan, LessonPlan, letter_of
from crumbcoat_calc.lesson.equipment import things_of
from crumbcoat_calc.lesson.lesson import MIXER, OVEN, Lesson
from crumbcoat_calc.lesson.made import Made
from crumbcoat_calc.lesson.mise_en_place import LaidOut, mise_en_place
from crumbcoat_calc.lesson.plan import Turn
from crumbcoat_calc.lesson.steps import LAST_WAIT_S, Place, place_text, step_at
from crumbcoat_calc.lesson.waits import longest_waits
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.texts import Section
from crumbcoat_calc.texts.eggs import eggs_to_break_text
from crumbcoat_calc.texts.kitchen import bowl_text
from crumbcoat_calc.texts.portions import batches_text, portions_text
from crumbcoat_calc.texts.run_rows import at_text
from crumbcoat_calc.texts.steps import how_text
from crumbcoat_calc.values.display import celsius_text, duration_text, list_text, mass_text
from crumbcoat_calc.values.marks import plain_text

_CONTROL = "Your group makes the control of the experiment: the recipe exactly as published."

_SCALE = "1 · 2 · 3 · 4 · 5"

_TASTING = (
    ("Looks", "1 rough, 5 smooth and even"),
    ("Smell", "1 faint, 5 strong; of what?"),
    ("Sweetness", "1 hardly, 5 very"),
    ("Firmness", "1 runs, 5 keeps its shape"),
    ("On the tongue", "1 grainy or greasy, 5 silky"),
    ("As it melts", "1 stays, 5 melts at once"),
    ("We like it", "1 no, 5 very much"),
)
"""What is tasted, from 1 to 5. Common practice, no source."""

_NOTHING: Section = {
    "title": "", "group": "", "sheet": "", "makes": "", "change": "", "bowl": "", "weigh": [], "fetch": "",
    "shared": [], "steps": [], "rescues": [], "tasting_head": [], "tasting": [], "keeping": [],
}  # fmt: skip
"""All that a sheet can have: a front and a back have a part of it each."""


def group_sheets(made: Sequence[Made], lesson: Lesson, plan: ClassPlan, recipes: int) -> list[Section]:
    """The sheets of all groups, one after the other: the fronts of each group and then its back.

    A recipe of several lessons has a front for each of them. A sheet has `title`, `group` and `sheet` (which one of how
    many). A front has `makes`, `change`, `bowl`, `weigh`, `fetch`, `shared` and `steps`, with the times of this group;
    a back has `rescues`, `tasting` under `tasting_head`, and `keeping`.
    """
    sheets: list[Section] = []
    for group in range(1, lesson.groups + 1):
        mine = [one for one in made if group in one.groups]
        titles = [f"{letter_of(one.recipe, recipes)}{one.batch.recipe.title}" for one in mine]
        parts: list[Section] = [
            front | {"title": f"{title}, lesson {number}" if len(plan.lessons) > 1 else title}
            for one, title in zip(mine, titles, strict=True)
            for number, front in _fronts(one, letter_of(one.recipe, recipes), group, lesson, plan)
        ]
        back = _back([(letter_of(one.recipe, recipes), one.batch.recipe) for one in mine])
        back["title"] = list_text(titles)
        parts.append(back)
        for number, part in enumerate(parts):
            sheets.append(
                _NOTHING
                | {
                    "group": f"Group {group}",
                    "sheet": f"sheet {number + 1} of {len(parts)}",
                }
                | part
            )
    return sheets


def _fronts(made: Made, letter: str, group: int, lesson: Lesson, plan: ClassPlan) -> Iterator[tuple[int, Section]]:
    """The fronts of a group for one recipe: one for each lesson in which it works on it, with the lesson's number."""
    batch = made.batch
    by_lesson = [list(_turns(one, group, letter)) for one in plan.lessons]
    first = next((number for number, turns in enumerate(by_lesson) if turns), 0)
    for number, (one, turns) in enumerate(zip(plan.lessons, by_lesson, strict=True)):
        if not turns:
            continue
        places = {place for _, place in turns if place}
        things = things_of(batch.recipe, places)
        yield (
            number + 1,
            {
                "makes": f"You make {batches_text(lesson.batches)}, {mass_text(batch.total.mass_g)}: "
                f"{portions_text(batch)}.",
                "change": made.change or (_CONTROL if made.is_control else ""),
                "bowl": "" if lesson.bowl_ml is None else bowl_text(batch, lesson.bowl_ml),
                "weigh": [
                    _weigh_row(laid_out, parts, eggs_of(batch.recipe))
                    for laid_out in mise_en_place(batch)
                    if (parts := _parts_used(batch.recipe, laid_out.key, places, number == first)) is not None
                ],
                "fetch": list_text([_with_parts(thing, parts) for thing, parts in things.items()]),
                "shared": _shared_rows(one, group, letter, lesson),
                "steps": [
                    *(_ready_rows(made, letter, lesson) if number == first else []),
                    *_step_rows(batch.recipe, letter, turns, lesson),
                ],
            },
        )


def _with_parts(thing: str, parts: Sequence[str]) -> str:
    return f"{thing} with {list_text(list(parts))}" if parts else thing


def _turns(one: LessonPlan, group: int, letter: str) -> Iterator[tuple[Turn, Place | None]]:
    """The turns of a group with one recipe in a lesson, the earliest first; weighing has no place."""
    for turn in one.plan.turns:
        mine = turn.group == group and turn.task.startswith(letter)
        if mine and turn.task in one.places:
            yield turn, one.places[turn.task][1]
        elif mine and turn.task == f"{letter}weigh":
            yield turn, None


def _parts_used(recipe: Recipe, key: str, places: Collection[Place], first: bool) -> frozenset[str | None] | None:
    """Which parts of an ingredient go in at these steps; None if it does not.

    What no step names, as it may be for decoration, is weighed in the first lesson.
    """
    uses = [
        ((number, step_number), use)
        for number, stage in enumerate(recipe.stages)
        for step_number, step in enumerate(stage.steps)
        for use in step.uses
        if use.what == key
    ]
    here = frozenset(use.portion for place, use in uses if place in places)
    if uses:
        return here or None
    return frozenset() if first else None


def _weigh_row(laid_out: LaidOut, parts: frozenset[str | None], egg_size: str) -> list[str]:
    at = "" if laid_out.temperature_c is None else f"at {celsius_text(laid_out.temperature_c)}"
    mass_g = laid_out.mass_g
    notes = ["optional" if laid_out.optional else "", plain_text(laid_out.preparation or ""), at]
    portions = [(key, part_g) for key, part_g in laid_out.portions_g if key in parts]
    if portions:
        mass_g = sum(part_g for _, part_g in portions)
    if len(portions) > 1:
        shown = [f"{mass_text(part_g)} {key.replace('_', ' ')}" for key, part_g in portions]
        notes.append(f"weigh apart: {list_text(shown)}")
    notes.append(eggs_to_break_text(laid_out.food, mass_g, egg_size))
    notes += [f"{mass_text(kept_g)} more, kept back for step {place}" for place, kept_g in laid_out.kept_back_g]
    return [laid_out.name, mass_text(mass_g), "; ".join(note for note in notes if note)]


def _shared_rows(one: LessonPlan, group: int, letter: str, lesson: Lesson) -> list[list[str]]:
    """Which mixer and which oven a group has when."""
    rows = []
    turns = {turn.task: turn for turn in one.plan.turns if turn.group == group}
    for held in one.plan.holdings:
        if held.group == group and held.tool in (MIXER, OVEN) and held.tasks[0].startswith(letter):
            mine = [turns[task] for task in held.tasks]
            begin, end = min(turn.start_s for turn in mine), max(turn.end_s for turn in mine)
            when = f"{at_text(begin, lesson)} to {at_text(end, lesson)}"
            rows.append([f"{held.tool.capitalize()} {held.unit}", when])
    return rows


def _ready_rows(made: Made, letter: str, lesson: Lesson) -> list[list[str]]:
    """What the teacher has made before."""
    stages = made.batch.recipe.stages
    return [
        [f"{letter}{stage + 1}", "ready", f"{stages[stage].title}: your teacher has made this.", "", "", ""]
        for number, stage in sorted(lesson.beforehand)
        if number == made.recipe
    ]


def _step_rows(
    recipe: Recipe, letter: str, turns: Sequence[tuple[Turn, Place | None]], lesson: Lesson
) -> list[list[str]]:
    """A row of each turn: step, clock, what to do, how, what to look for, and a place for a tick."""
    looked_at = {place for turn, place in turns if place and turn.task.endswith(" look")}
    waits = longest_waits(recipe)
    last = (len(recipe.stages) - 1, len(recipe.stages[-1].steps) - 1)
    rows = []
    for turn, place in turns:
        clock = at_text(turn.start_s, lesson)
        lasts = duration_text(turn.end_s - turn.start_s)
        if place is None:
            rows.append([letter.strip(), clock, "Weigh all that is on the list, and set up.", lasts, "", ""])
            continue
        step, wait = step_at(recipe, place), waits[place].longest_s
        go_on = "" if wait is None or wait > LAST_WAIT_S or place == last else _go_on(wait)
        if turn.task.endswith(" look"):
            passes = " ".join(step.checkpoint.passes) if step.checkpoint else ""
            rows.append(
                [letter + place_text(place), clock, "**Show it to your teacher.**", _joined(lasts, go_on), passes, ""]
            )
            continue
        signs = [step.look_for] if step.look_for else []
        if step.checkpoint and place not in looked_at:
            signs += step.checkpoint.passes
        how = _how(step)
        rows.append(
            [
                letter + place_text(place),
                clock,
                step.do,
                how if place in looked_at else _joined(how, go_on),
                plain_text(" ".join(signs)),
                "",
            ]
        )
    return rows


def _how(step: Step) -> str:
    how = how_text(step)
    return f"optional{'; ' if how else ''}{how}" if step.optional else how


def _go_on(wait_s: float) -> str:
    return "then go on at once" if not wait_s else f"then go on within {duration_text(wait_s)}"


def _joined(how: str, go_on: str) -> str:
    return "; ".join(part for part in (how, go_on) if part)


def _back(recipes: Sequence[tuple[str, Recipe]]) -> Section:
    return {
        "rescues": [
            [letter + place_text((number, step_number)), plain_text(trouble.sign), plain_text(trouble.remedy)]
            for letter, recipe in recipes
            for number, stage in enumerate(recipe.stages)
            for step_number, step in enumerate(stage.steps)
            for trouble in (step.checkpoint.troubles if step.checkpoint else ())
        ],
        "tasting_head": [["ring a number", *(recipe.title for _, recipe in recipes)]],
        "tasting": [[f"{what}: {scale}", *(_SCALE for _ in recipes)] for what, scale in _TASTING],
        "keeping": [row for letter, recipe in recipes for row in _keeping_rows(recipe, letter)],
    }


def _keeping_rows(recipe: Recipe, letter: str) -> list[list[str]]:
    """Where the card keeps it, and when to look: after a day if it keeps longer, and at the end."""
    rows = []
    for storage in recipe.storage:
        day_s = 86400.0
        whole = f"after {duration_text(storage.up_to_s)}"
        when = f"after {duration_text(day_s)}, and {whole}" if storage.up_to_s > day_s else whole
        rows.append([letter.strip() or recipe.title, storage.where, when, ""])
    return rows
