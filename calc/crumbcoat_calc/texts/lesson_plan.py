"""Texts of a class's plan: what each group does when, who has which tool, and whether it fits."""

from collections.abc import Mapping, Sequence

from crumbcoat_calc.lesson.class_plan import ClassPlan, LessonPlan, letter_of, what_would_help
from crumbcoat_calc.lesson.clock import clock_text
from crumbcoat_calc.lesson.lesson import HOB, MIXER, OVEN, SEVERAL, Lesson
from crumbcoat_calc.lesson.plan import Holding, Turn
from crumbcoat_calc.lesson.steps import UNTIMED_S, Place, place_text, step_at
from crumbcoat_calc.pictures.plan import Stretch, plan_chart
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.run_rows import at_text, run_rows
from crumbcoat_calc.values.display import duration_text, list_text

_HANDED_ON = {MIXER: "Mixer", HOB: "Hob", OVEN: "Oven"}
"""The tools that groups go to one after the other, as the run sheet calls them."""


def plan_texts(batches: Sequence[Batch], lesson: Lesson, made: ClassPlan) -> Texts:
    """Rows of `plan` under `plan.head`, and of `plan.tools`; `plan.summary`, `plan.fit`, `plan.help`, `plan.assumed`,
    `plan.alone`; `picture.plan` of the last lesson and `picture.plan_before` of the one before it.

    Args:
        made: the plan of these batches' recipes.
    """
    recipes = [batch.recipe for batch in batches]
    several = len(made.lessons) > 1
    plan_rows, tool_rows = [], []
    for number, one in enumerate(made.lessons, 1):
        plan_rows += run_rows(one, f"lesson {number}: " if several else "", recipes, lesson)
        tool_rows += _tool_rows(one, f"lesson {number}: " if several else "", lesson)
    pictures = [_chart(f"plan-{number}", one, recipes, lesson) for number, one in enumerate(made.lessons, 1)]
    return {
        "plan.head": [["begins", *(f"Group {group + 1}" for group in range(lesson.groups))]],
        "plan": plan_rows,
        "plan.tools": tool_rows,
        "plan.summary": _summary(made, lesson),
        "plan.fit": _fit_text(made, lesson),
        "plan.help": _help_text(made, recipes, lesson),
        "plan.assumed": _assumed_text(recipes),
        "plan.alone": _alone_text(made, recipes),
        "picture.plan": pictures[-1],
        "picture.plan_before": pictures[-2] if several else "",
    }


def _tool_rows(one: LessonPlan, lesson_text: str, lesson: Lesson) -> list[list[str]]:
    """Who has each mixer, hob and oven that groups share, one row for each of them."""
    rows = []
    turns = {(turn.group, turn.task): turn for turn in one.plan.turns}
    units = sorted({(holding.tool, holding.unit) for holding in one.plan.holdings if holding.tool in _HANDED_ON})
    for tool, unit in sorted(units, key=lambda unit: (list(_HANDED_ON).index(unit[0]), unit[1])):
        held = [one for one in one.plan.holdings if (one.tool, one.unit) == (tool, unit)]
        texts = [_held_text(holding, turns, lesson) for holding in held]
        rows.append([f"{_HANDED_ON[tool]} {unit}", lesson_text + "; ".join(texts)])
    return rows


def _held_text(holding: Holding, turns: Mapping[tuple[int, str], Turn], lesson: Lesson) -> str:
    mine = [turns[holding.group, key] for key in holding.tasks]
    starts, ends = min(turn.start_s for turn in mine), max(turn.end_s for turn in mine)
    return f"{at_text(starts, lesson)}–{at_text(ends, lesson)} group {holding.group}"


def _summary(made: ClassPlan, lesson: Lesson) -> str:
    hands = "one task" if made.hands == 1 else f"{made.hands} tasks"
    shared = [f"{count} {SEVERAL[tool] if count > 1 else tool}" for tool, count in lesson.tools.items()]
    tools = f", with {list_text(shared)} for all" if shared else ", with tools of its own"
    more = (
        f" A group has to do {made.hands} tasks at a moment, more than half of its students."
        if made.hands > lesson.hands
        else ""
    )
    lessons = [
        (f"Lesson {number}: from " if len(made.lessons) > 1 else "From ")
        + f"{clock_text(lesson.start_s, 0)} to {clock_text(lesson.start_s, one.whole_s(lesson))}, "
        f"{duration_text(one.whole_s(lesson))}; at work from {at_text(0, lesson)} "
        f"to {at_text(one.plan.length_s, lesson)}."
        for number, one in enumerate(made.lessons, 1)
    ]
    rest = [
        f"{what} {duration_text(time_s)}"
        for what, time_s in (("talk", lesson.talk_s), ("tasting", lesson.taste_s), ("cleaning", lesson.clean_s))
        if time_s
    ]
    beside = f" Counted besides: {list_text(rest)}." if rest else ""
    return f"{' '.join(lessons)}{beside} Each group does up to {hands} at a time{tools}.{more}"


def _fit_text(made: ClassPlan, lesson: Lesson) -> str:
    if lesson.available_s is None:
        return ""
    longest_s = max(one.whole_s(lesson) for one in made.lessons)
    over_s = longest_s - lesson.available_s
    if over_s <= 0:
        spare = f", with {duration_text(-over_s)} to spare" if over_s else ""
        return f"It fits into {duration_text(lesson.available_s)}{spare}."
    return f"It does not fit: it takes {duration_text(over_s)} more than {duration_text(lesson.available_s)}."


def _help_text(made: ClassPlan, recipes: Sequence[Recipe], lesson: Lesson) -> str:
    if made.fits(lesson):
        return ""
    remedies = what_would_help(recipes, lesson)
    if remedies:
        return f"It would fit with one of these: {'; '.join(remedy.words for remedy in remedies)}."
    return (
        "No single change makes it fit: neither more mixers, nor one stage made beforehand, nor one recipe a group, "
        "nor fewer groups, nor a lesson for each recipe. Try two of them together."
    )


def _assumed_text(recipes: Sequence[Recipe]) -> str:
    """Which steps state no time, and what the plan takes for them."""
    notes = []
    for recipe in recipes:
        places = [
            place_text((number, step_number))
            for number, stage in enumerate(recipe.stages)
            for step_number, step in enumerate(stage.steps)
            if step.time is None
        ]
        if places:
            none, takes = list_text(places), duration_text(UNTIMED_S)
            notes.append(f"{recipe.title} states no time for {none}; the plan takes {takes}.")
    return " ".join(notes)


def _alone_text(made: ClassPlan, recipes: Sequence[Recipe]) -> str:
    """What goes on by itself after a lesson, or between two."""
    notes = []
    for number, one in enumerate(made.lessons, 1):
        for of, place in one.alone:
            step = step_at(recipes[of], place)
            lasts = "" if step.time is None else duration_text(step.time.shortest_s, step.time.longest_s)
            after = f"lesson {number}" if len(made.lessons) > 1 else "the lesson"
            key = letter_of(of, len(recipes)) + place_text(place)
            notes.append(f"After {after}, {key} goes on by itself: {lasts}{f', {step.tool}' if step.tool else ''}.")
    return " ".join(notes)


def _chart(key: str, one: LessonPlan, recipes: Sequence[Recipe], lesson: Lesson) -> str:
    stretches = _stretches(one, recipes)
    legend = [
        ("shared", "at a shared tool"),
        ("hands", "by hand"),
        ("alone", "left alone"),
    ]
    used = {stretch.kind for stretch in stretches}
    return plan_chart(
        key,
        "Plan on the clock, one row for each group",
        stretches,
        lesson.start_s + lesson.talk_s,
        [entry for entry in legend if entry[0] in used],
    )


def _stretches(one: LessonPlan, recipes: Sequence[Recipe]) -> list[Stretch]:
    """The turns of each group, what follows without a gap in one stage and in one way drawn as one."""
    shared = {
        (holding.group, key) for holding in one.plan.holdings for key in holding.tasks if holding.tool in (MIXER, OVEN)
    }
    attended = {(group, task.key): task.attended for group, job in enumerate(one.jobs, 1) for task in job.tasks}
    found: list[Stretch] = []
    for turn in sorted(one.plan.turns, key=lambda turn: (turn.group, turn.start_s, turn.task)):
        if turn.end_s == turn.start_s:
            continue
        kind = (
            "shared" if (turn.group, turn.task) in shared else "hands" if attended[turn.group, turn.task] else "alone"
        )
        place: tuple[int, Place] | None = one.places.get(turn.task)
        letter = letter_of(place[0], len(recipes)).strip() if place else turn.task.partition("weigh")[0].strip()
        name = f"{letter}{place[1][0] + 1}" if place else f"{letter} weigh".strip()
        if turn.task.endswith(" look") and found and found[-1].group == turn.group:
            kind = found[-1].kind if found[-1].end_s == turn.start_s else kind
        before = found[-1] if found else None
        if before and (before.group, before.name, before.kind, before.end_s) == (turn.group, name, kind, turn.start_s):
            found[-1] = Stretch(group=turn.group, name=name, start_s=before.start_s, end_s=turn.end_s, kind=kind)
        else:
            found.append(Stretch(group=turn.group, name=name, start_s=turn.start_s, end_s=turn.end_s, kind=kind))
    return found
