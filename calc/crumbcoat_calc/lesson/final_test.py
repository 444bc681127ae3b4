"""A test at the end of a lesson: eight questions from the figures and the notes of its recipes, with the working."""

from collections.abc import Callable, Sequence
from decimal import Decimal

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.lesson.choices import to_choose
from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.exercise import TENTH, Exercise, bowl_of, g, mass, plain, to
from crumbcoat_calc.lesson.lesson import LEVELS
from crumbcoat_calc.lesson.open_questions import why_questions
from crumbcoat_calc.lesson.prediction import Known
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.science.carriers import Carries, brings
from crumbcoat_calc.values.display import celsius_text
from crumbcoat_calc.values.exact import exact_decimal
from crumbcoat_calc.values.marks import plain_text

QUESTIONS = 8
_TO_CHOOSE, _OPEN = 4, 2
_CLEARLY = Decimal("1.5")
_STEM = 5
"""Two roles with words that begin alike, in this many letters, may both be right (our choice)."""

_OTHER_C = (-25, -15, 15, 25)

Make = Callable[[Known, Draws], Exercise | None]


def final_test(known: Sequence[Known], seed: str, level: str) -> list[Exercise]:
    """Eight questions: up to four to choose an answer, two why, the others to calculate.

    Args:
        level: one of LEVELS.

    Source:
        definition (percentage, density); derivation (mass balance).
    """
    draws = Draws(f"{seed}/test")
    young = level == LEVELS[0]
    chosen = _made(known, draws, (_holds, _richest, _temperature, _role), _TO_CHOOSE)
    reasons = [one for batch, _ in known for one in why_questions(batch.recipe, draws, _OPEN)]
    opened = draws.some_of(reasons, _OPEN)
    calculated: tuple[Make, ...] = (_portion, _left) if young else (_fat_of_portion, _cup, _portion, _left)
    sums = _made(known, draws, calculated, QUESTIONS - len(chosen) - len(opened))
    while len(chosen) + len(sums) + len(opened) < QUESTIONS:
        scaled = _scaled(draws.one_of(known), draws)
        if all(scaled.question != one.question for one in sums):
            sums.append(scaled)
    return [*chosen, *sums, *opened]


def _made(known: Sequence[Known], draws: Draws, makes: Sequence[Make], most: int) -> list[Exercise]:
    """One question of each kind, as far as there are numbers for it, of the recipes in turn."""
    found: list[Exercise] = []
    turn = draws.whole_number(0, len(known) - 1)
    for number, make in enumerate(makes):
        start = (turn + number) % len(known)
        asked = (make(one, draws) for one in (*known[start:], *known[:start]))
        found += [one for one in asked if one][:1]
    return found[:most]


def _holds(known: Known, draws: Draws) -> Exercise | None:
    batch, card = known
    if not card.structure.carriers:
        return None
    held = card.structure.carriers[0].carries
    foods = [one.food for one in batch.weighed]
    wrong = [words for carries, words in HOLDS.items() if not _could_bring(carries, foods)]
    if held not in HOLDS or not wrong:
        return None
    return to_choose(
        draws,
        "what holds it",
        f"What does most to hold {batch.recipe.title} together?",
        HOLDS[held],
        wrong,
    )


HOLDS = {
    Carries.WHITE_FOAM: "a foam of egg white",
    Carries.YOLK_FOAM: "a foam of egg",
    Carries.EGG_GEL: "egg that has set",
    Carries.STARCH_GEL: "starch",
    Carries.GELATINE: "gelatine",
    Carries.AGAR: "agar",
    Carries.CLUMPED_FAT: "clumped fat around the bubbles",
    Carries.COCOA_BUTTER: "cocoa butter",
    Carries.FRESH_CHEESE: "the curd of the cheese",
    Carries.FAT_FRAME: "a frame of solid fat",
}
"""What can hold a recipe, in the words of why_sentences.csv; starch may have swollen, or set to a gel."""

_EGG = (Carries.WHITE_FOAM, Carries.YOLK_FOAM, Carries.EGG_GEL)


_WORDS = {
    Carries.GELATINE: ("gelatin", "jelly"),
    Carries.AGAR: ("agar",),
    Carries.COCOA_BUTTER: ("cocoa", "chocolate", "coating", "gianduja", "praline"),
    Carries.FRESH_CHEESE: ("cheese", "mascarpone", "quark", "ricotta", "fromage", "skyr", "yog"),
}
"""Words in the names of foods that may bring it."""


def _could_bring(carries: Carries, foods: Sequence[Food]) -> bool:
    """Whether there is anything in a recipe that could make this; in doubt, yes."""
    if carries in _EGG:
        return any(food.group == "egg" for food in foods)
    if carries is Carries.CLUMPED_FAT:
        return any((food.content("fat_g") or 0) > 3 and (food.content("water_g") or 0) > 40 for food in foods)
    if carries is Carries.FAT_FRAME:
        return any((food.content("fat_g") is None) or (food.content("fat_g") or 0) > 60 for food in foods)
    if carries is Carries.STARCH_GEL:
        return any("starch" in brings(food) or (food.content("starch_g") or 0) > 5 for food in foods)
    words = _WORDS[carries]
    return any(
        not food.key or carries.value in brings(food) or any(word in food.name.lower() for word in words)
        for food in foods
    )


def _richest(known: Known, draws: Draws) -> Exercise | None:
    batch, _ = known
    bowl = bowl_of(batch)
    percents = [(item, item.percent("fat_g")) for item in bowl.items]
    fats = [(item.mass_g * percent / 100, item, percent) for item, percent in percents if percent is not None]
    ranked = sorted(fats, key=lambda one: -one[0])
    if len(fats) < len(percents) or len(ranked) < 2 or ranked[0][0] < max(Decimal(1), _CLEARLY * ranked[1][0]):
        return None
    others = sorted([item for _, item, _ in ranked[1:]], key=lambda item: -item.mass_g)
    lines = [
        f"fat of {item.name}: {g(item.mass_g)} × {plain(percent)} / 100 = {g(to(fat, TENTH))}"
        for fat, item, percent in ranked[:2]
    ]
    return to_choose(
        draws,
        "fat",
        f"Which ingredient brings the most fat to {batch.recipe.title}?",
        ranked[0][1].name,
        [item.name for item in others[:3]],
        *lines,
    )


def _temperature(known: Known, draws: Draws) -> Exercise | None:
    recipe = known[0].recipe
    steps = [
        (f"{stage_number}.{number}", step)
        for stage_number, stage in enumerate(recipe.stages, 1)
        for number, step in enumerate(stage.steps, 1)
        if step.heat_to_c is not None
    ]
    if not steps:
        return None
    place, step = draws.one_of(steps)
    t_c = step.heat_to_c or 0.0
    return to_choose(
        draws,
        "temperature",
        f"{recipe.title}, step {place}: “{plain_text(step.do)}” To which temperature?",
        celsius_text(t_c),
        [celsius_text(t_c + other) for other in _OTHER_C],
    )


def _role(known: Known, draws: Draws) -> Exercise | None:
    recipe = known[0].recipe
    roles = [(one.name, plain_text(one.role)) for one in recipe.ingredients if one.role and one.mass_g > 0]
    found = [(name, role, wrong) for name, role in roles if len(wrong := _unlike(role, roles)) >= 2]
    if not found:
        return None
    name, role, wrong = draws.one_of(found)
    return to_choose(draws, "what it is for", f"What is the job of {name} in {recipe.title}?", role, wrong)


def _unlike(role: str, roles: Sequence[tuple[str, str]]) -> list[str]:
    stems = _stems(role)
    return [other for _, other in roles if not stems & _stems(other)]


def _stems(words: str) -> set[str]:
    return {word[:_STEM].lower() for word in words.replace(",", " ").split() if len(word) >= _STEM - 1}


def _portion(known: Known, _: Draws) -> Exercise | None:
    recipe = known[0].recipe
    if recipe.yields.portions < 2:
        return None
    finished, portions = _finished(recipe), recipe.yields.portions
    each = mass(finished / portions)
    return Exercise(
        topic="a portion",
        question=(
            f"One batch of {recipe.title} weighs {g(finished)}, for {portions} {plain_text(recipe.yields.of)}. "
            "How much is for each?"
        ),
        working=(f"for each: {g(finished)} / {portions} = {g(each)}",),
        answer=g(each),
    )


def _fat_of_portion(known: Known, _: Draws) -> Exercise | None:
    batch, card = known
    recipe = batch.recipe
    if recipe.yields.portions < 2 or card.fat_percent is None or card.fat_percent < 1:
        return None
    portion, percent = mass(exact_decimal(recipe.portion_g)), to(exact_decimal(card.fat_percent), TENTH)
    fat = to(portion * percent / 100, TENTH)
    return Exercise(
        topic="fat of a portion",
        question=(
            f"{recipe.title} has {plain(percent)} g of fat in 100 g. How much fat is in a portion of {g(portion)}?"
        ),
        working=(f"fat: {g(portion)} × {plain(percent)} / 100 = {g(fat)}",),
        answer=g(fat),
    )


def _cup(known: Known, draws: Draws) -> Exercise | None:
    batch, card = known
    if card.air is None:
        return None
    density, cup_ml = to(exact_decimal(card.air[1]), Decimal("0.01")), draws.one_of((100, 200, 250, 500))
    held = to(density * cup_ml, Decimal(1))
    return Exercise(
        topic="density",
        question=f"1 mL of {batch.recipe.title} weighs {plain(density)} g. What does a cup of {cup_ml} mL of it weigh?",
        working=(f"cup: {plain(density)} g/mL × {cup_ml} mL = {g(held)}",),
        answer=g(held),
    )


def _left(known: Known, _: Draws) -> Exercise | None:
    bowl = bowl_of(known[0])
    if not bowl.lost_g:
        return None
    return Exercise(
        topic="water that boils off",
        question=(
            f"The ingredients of {known[0].recipe.title} weigh {g(bowl.weighed_g)}, and {g(bowl.lost_g)} of water "
            "boils off. What does the finished batch weigh?"
        ),
        working=(f"batch: {g(bowl.weighed_g)} − {g(bowl.lost_g)} = {g(bowl.finished_g)}",),
        answer=g(bowl.finished_g),
    )


def _scaled(known: Known, draws: Draws) -> Exercise:
    batch, _ = known
    item, times = draws.one_of(bowl_of(batch).items), draws.whole_number(2, 12)
    made = item.mass_g * times
    return Exercise(
        topic="more batches",
        question=(
            f"One batch of {batch.recipe.title} uses {g(item.mass_g)} {item.name}. How much do {times} batches use?"
        ),
        working=(f"{item.name}: {g(item.mass_g)} × {times} = {g(made)}",),
        answer=g(made),
    )


def _finished(recipe: Recipe) -> Decimal:
    return to(exact_decimal(recipe.portion_g * recipe.yields.portions), Decimal(1))
