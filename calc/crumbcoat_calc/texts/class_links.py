"""What opens the lesson on the phones of each group: the state of its card, the group's number and its clock."""

from collections.abc import Sequence

from crumbcoat_calc.forms.changes import Changes, state_from_changes
from crumbcoat_calc.lesson.class_plan import ClassPlan, LessonPlan
from crumbcoat_calc.lesson.clock import clock_text
from crumbcoat_calc.lesson.lesson import Lesson
from crumbcoat_calc.lesson.made import Made
from crumbcoat_calc.lesson.steps import Place
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.texts import Section
from crumbcoat_calc.texts.portions import batches_text


def class_link_texts(
    recipes: Sequence[Recipe], made: Sequence[Made], lesson: Lesson, plan: ClassPlan, slots: Sequence[str]
) -> list[Section]:
    """A section for each group and each recipe that it makes: `title`, `makes`, the `slot` of the recipe, `fragment`.

    The fragment is that of an address of the card: bench view, the changes that give the group's batch, and what the
    card shows of the class: `class:group`, and in `class:at` the time of day at which each step begins, in the order of
    the recipe: `0920`, in a second lesson `2*0920`, nothing for a step that the teacher makes beforehand. No name of a
    person is in it.

    Where an experiment changes the method itself, a card cannot show that, and `makes` says so.

    Args:
        recipes: those of the class as published.
        plan: the plan of this lesson.
        slots: that of each recipe.
    """
    by_group = sorted([(group, one.recipe, one) for one in made for group in one.groups], key=lambda entry: entry[:2])
    return [
        {
            "title": f"Group {group}",
            "makes": _makes_text(recipes[number], one, lesson),
            "slot": slots[number],
            "fragment": _fragment(group, recipes[number], one, lesson, plan),
        }
        for group, number, one in by_group
    ]


def _makes_text(recipe: Recipe, one: Made, lesson: Lesson) -> str:
    words = [f"{recipe.title}, {batches_text(lesson.batches)}", *([one.change.rstrip(".")] if one.change else [])]
    if one.batch.recipe != recipe or one.options.temperatures_c:
        words.append("The card shows the method as published, without this change")
    return ". ".join(words)


def _fragment(group: int, recipe: Recipe, one: Made, lesson: Lesson, plan: ClassPlan) -> str:
    starts: dict[Place, str] = {}
    for count, part in enumerate(plan.lessons, 1):
        starts |= _starts(group, one.recipe, part, lesson, f"{count}*" if count > 1 else "")
    places = [(stage, step) for stage, of in enumerate(recipe.stages) for step in range(len(of.steps))]
    state = state_from_changes(recipe, Changes(options=one.options))
    state |= {"class:group": str(group), "class:at": ".".join([starts.get(place, "") for place in places])}
    return "&".join(["bench", *(f"{_written(name)}={_written(value)}" for name, value in state.items())])


def _written(text: str) -> str:
    """A text as it is in a fragment (RFC 3986); `:` and `*` need no escape there.

    >>> _written("class:at"), _written("oat drink")
    ('class:at', 'oat%20drink')
    """
    return "".join(
        [
            letter if letter.isascii() and (letter.isalnum() or letter in "-._~:*") else f"%{byte:02X}"
            for letter in text
            for byte in letter.encode("utf-8")
        ]
    )


def _starts(group: int, number: int, one: LessonPlan, lesson: Lesson, before: str) -> dict[Place, str]:
    """The time of day at which a group begins each step of a recipe."""
    found: dict[Place, str] = {}
    for turn in one.plan.turns:
        of = one.places.get(turn.task)
        if turn.group == group and of and of[0] == number and not turn.task.endswith(" look"):
            clock = clock_text(lesson.start_s + lesson.talk_s, turn.start_s)
            found[of[1]] = before + clock[:5].replace(":", "")
    return found
