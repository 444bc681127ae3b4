"""Exercises on the composition of a batch, with an answer key whose working can be checked digit by digit."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from crumbcoat_calc.lesson.card_figures import CardFigures
from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.exercise import TENTH, Exercise, NoNumbers, bowl_of, g, mass, masses, plain, to
from crumbcoat_calc.lesson.lesson import LEVELS
from crumbcoat_calc.lesson.mixing_exercises import pearson, syrup
from crumbcoat_calc.lesson.open_questions import why_questions
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.values.display import list_text

_YOUNGEST, _MIDDLE, _OLDEST = LEVELS
_CUPS_ML = (100, 200, 250, 500)
_TIMES = (2, 3, 4, 5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worksheet:
    """The exercises; `left_out` lists the topics for which this recipe has no numbers, and why."""

    exercises: tuple[Exercise, ...]
    left_out: tuple[tuple[str, str], ...]


Make = Callable[[Batch, CardFigures, Draws], Exercise]


def worksheet(batch: Batch, card: CardFigures, seed: str, level: str = _MIDDLE) -> Worksheet:
    """The exercises that a seed draws from a batch. Groups can have the same seed or different ones.

    Every result is rounded, halves up, and the next line continues with the rounded number, as a student does by hand.

    Args:
        batch: supplies the ingredients; the seed draws the size of the batch.
        card: what the card says of it, for what follows from its figures alone.
        seed: any text.
        level: one of LEVELS.

    Source:
        definition (percentage, °Brix, overrun); derivation (mass balance, Pearson square).
    """
    exercises, left_out = [], []
    for topic, make in _TOPICS[level]:
        try:
            exercises.append(make(batch, card, Draws(f"{seed}/{topic}")))
        except NoNumbers as reason:
            left_out.append((topic, str(reason)))
    exercises += why_questions(batch.recipe, Draws(f"{seed}/why"), most=1 if level == _OLDEST else 2)
    return Worksheet(exercises=tuple(exercises), left_out=tuple(left_out))


def _whole_batches(batch: Batch, _: CardFigures, draws: Draws) -> Exercise:
    items, times = bowl_of(batch).items, draws.one_of(_TIMES)
    made = [(item, item.mass_g * times) for item in items]
    return Exercise(
        topic="more batches",
        question=f"One batch uses {list_text(masses(items))}. How much of each do {times} batches use?",
        working=tuple([f"{item.name}: {g(item.mass_g)} × {times} = {g(total)}" for item, total in made]),
        answer=list_text([f"{g(total)} {item.name}" for item, total in made]),
    )


def _portion(batch: Batch, _: CardFigures, draws: Draws) -> Exercise:
    bowl = bowl_of(batch)
    people = draws.whole_number(4, 16)
    each = mass(bowl.finished_g / people)
    return Exercise(
        topic="sharing out",
        question=(
            f"One batch uses {list_text(masses(bowl.items))}.{bowl.boiled_text} "
            f"{people} people share it equally. How much does each get?"
        ),
        working=(bowl.finished_line(), f"for each: {g(bowl.finished_g)} / {people} = {g(each)}"),
        answer=g(each),
    )


def _largest_part(batch: Batch, _: CardFigures, draws: Draws) -> Exercise:
    bowl = bowl_of(batch)
    main = [item for item in bowl.items if item.mass_g * 10 >= bowl.weighed_g]
    item = draws.one_of(main)
    percent = to(100 * item.mass_g / bowl.weighed_g, TENTH)
    total = f"{' + '.join(g(one.mass_g) for one in bowl.items)} = {g(bowl.weighed_g)}"
    return Exercise(
        topic="part of the whole",
        question=f"You weigh {list_text(masses(bowl.items))}. What is the percentage of {item.name} in that?",
        working=(
            f"all ingredients: {total}",
            f"part: 100 × {g(item.mass_g)} / {g(bowl.weighed_g)} = {plain(percent)} %",
        ),
        answer=f"{plain(percent)} %",
    )


def _fat(batch: Batch, _: CardFigures, draws: Draws) -> Exercise:
    bowl = bowl_of(batch, draws)
    working, fat = bowl.parts("fat_g", "fat")
    percent = to(100 * fat / bowl.finished_g, TENTH)
    working.append(bowl.finished_line())
    working.append(f"fat percentage: 100 × {g(fat)} / {g(bowl.finished_g)} = {plain(percent)} %")
    made_of = [
        f"{g(item.mass_g)} {item.name} ({plain(item.percent('fat_g') or Decimal(0))} % fat)" for item in bowl.items
    ]
    return Exercise(
        topic="fat percentage",
        question=f"Your batch is made of {list_text(made_of)}.{bowl.boiled_text} What is its fat percentage?",
        working=tuple(working),
        answer=f"{plain(percent)} %",
    )


def _scaling(batch: Batch, _: CardFigures, draws: Draws) -> Exercise:
    bowl = bowl_of(batch)
    finished = bowl.finished_g
    wanted = to(finished * draws.whole_number(11, 38) / 100, Decimal(1)) * 10
    factor = to(wanted / finished, Decimal("0.001"))
    scaled = [(item.name, item.mass_g, mass(item.mass_g * factor)) for item in bowl.items]
    return Exercise(
        topic="scaling",
        question=(
            f"One batch uses {list_text(masses(bowl.items))}.{bowl.boiled_text} "
            f"You need {g(wanted)} in total. What is the factor, and how much of each do you take?"
        ),
        working=(
            bowl.finished_line(),
            f"factor: {g(wanted)} / {g(finished)} = {plain(factor)}",
            *(f"{name}: {g(mass_g)} × {plain(factor)} = {g(new_g)}" for name, mass_g, new_g in scaled),
        ),
        answer=f"factor {plain(factor)}: {list_text([f'{g(new_g)} {name}' for name, _, new_g in scaled])}",
    )


def _overrun(batch: Batch, card: CardFigures, draws: Draws) -> Exercise:
    if card.air is None:
        raise NoNumbers("its card does not say for certain how much air is beaten in")
    cup_ml = draws.one_of(_CUPS_ML)
    mix_g, foam_g = [to(Decimal(repr(density)) * cup_ml, Decimal(1)) for density in card.air]
    overrun = to(100 * (mix_g - foam_g) / foam_g, TENTH)
    air = to(100 * (mix_g - foam_g) / mix_g, TENTH)
    stated = "expects" if card.worked_out else "says"
    return Exercise(
        topic="overrun",
        question=(
            f"A cup of {cup_ml} mL holds {g(foam_g)} of the finished {batch.recipe.title}, as its card {stated}. "
            f"Without its air, the same cup would hold {g(mix_g)}. What is the overrun (the air in 100 mL of mix), "
            "and what percentage of the volume is air?"
        ),
        working=(
            f"overrun: 100 × ({g(mix_g)} − {g(foam_g)}) / {g(foam_g)} = {plain(overrun)} %",
            f"air in the volume: 100 × ({g(mix_g)} − {g(foam_g)}) / {g(mix_g)} = {plain(air)} %",
        ),
        answer=f"{plain(overrun)} %, {plain(air)} % air",
    )


_TOPICS: dict[str, tuple[tuple[str, Make], ...]] = {
    _YOUNGEST: (("more batches", _whole_batches), ("sharing out", _portion), ("part of the whole", _largest_part)),
    _MIDDLE: (("fat percentage", _fat), ("scaling", _scaling), ("overrun", _overrun)),
    _OLDEST: (("fat percentage", _fat), ("Pearson square", pearson), ("syrup strength", syrup), ("overrun", _overrun)),
}
"""The exercises of each level, by topic."""
