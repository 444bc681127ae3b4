"""Exercises on the composition of a batch, with an answer key whose working can be checked digit by digit."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient
from crumbcoat_calc.values.display import list_text
from crumbcoat_calc.values.exact import exact_decimal

_TENTH = Decimal("0.1")
_FACTORS = tuple(Decimal(quarters) / 4 for quarters in range(2, 13))
_CUP_ML = 250
_DENSEST_MIX = Decimal("1.25")
"""Upper limit for the density of the mix in an exercise, in g/mL, so that its numbers suit a frosting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """A question, its answer, and the lines of `working` that lead to it: `what: sum = result`, each result rounded."""

    topic: str
    question: str
    working: tuple[str, ...]
    answer: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Worksheet:
    """The exercises; `left_out` lists the topics for which this recipe has no numbers, and why."""

    exercises: tuple[Exercise, ...]
    left_out: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class _Item:
    name: str
    mass_g: Decimal
    food: Food

    def percent(self, component: str) -> Decimal | None:
        content = self.food.content(component)
        return None if content is None else _to(exact_decimal(content), _TENTH)


class _NoNumbers(Exception):
    """The recipe has no numbers for an exercise; the text is the reason."""


def worksheet(batch: Batch, seed: str, foam_g_per_ml: float | None = None) -> Worksheet:
    """The exercises that a seed draws from a batch. Groups can have the same seed or different ones.

    Every result is rounded, halves up, and the next line continues with the rounded number, as a student does by hand.

    Args:
        batch: supplies the ingredients; the seed draws the size of the batch.
        seed: any text.
        foam_g_per_ml: the density of the finished food, for the overrun; drawn if None.

    Raises:
        InputError: at `density`, outside 0.05 to 2 g/mL.

    Source:
        definition (percentage, °Brix, overrun); derivation (mass balance, Pearson square).
    """
    if foam_g_per_ml is not None and not 0.05 <= foam_g_per_ml <= 2:
        problem = f"{foam_g_per_ml:g} g/mL is not a possible density"
        raise InputError(problem, "use 0.05 to 2 g/mL", ("density",))
    topics: tuple[tuple[str, Callable[[Draws], Exercise]], ...] = (
        ("fat percentage", lambda draws: _fat(_items(batch, draws), _lost(batch))),
        ("Pearson square", lambda draws: _pearson(_items(batch, None), draws)),
        ("scaling", lambda draws: _scaling(_items(batch, None), draws)),
        ("syrup strength", lambda draws: _syrup(_items(batch, draws), draws)),
        ("overrun", lambda draws: _overrun(foam_g_per_ml, draws)),
    )
    exercises, left_out = [], []
    for topic, make in topics:
        try:
            exercises.append(make(Draws(f"{seed}/{topic}")))
        except _NoNumbers as reason:
            left_out.append((topic, str(reason)))
    return Worksheet(exercises=tuple(exercises), left_out=tuple(left_out))


def _to(value: Decimal, step: Decimal) -> Decimal:
    return value.quantize(step, rounding=ROUND_HALF_UP)


def _mass(value: Decimal) -> Decimal:
    return _to(value, Decimal(1) if value >= 10 else _TENTH)


def _plain(value: Decimal) -> str:
    """All digits of the rounded number, including trailing zeros: they show how it was rounded."""
    return f"{value:f}"


def _g(value: Decimal) -> str:
    return f"{_plain(value)} g"


def _items(batch: Batch, draws: Draws | None) -> list[_Item]:
    """The ingredients in whole numbers, for a batch of a drawn size, or for this batch."""
    factor = draws.one_of(_FACTORS) if draws else Decimal(1)
    listed = [_item(ingredient, factor) for ingredient in batch.weighed]
    return [item for item in listed if item.mass_g > 0]


def _item(ingredient: WeighedIngredient, factor: Decimal) -> _Item:
    return _Item(ingredient.name, _mass(exact_decimal(ingredient.mass_g) * factor), ingredient.food)


def _lost(batch: Batch) -> Decimal:
    """The share of the ingredients' mass that boils off."""
    weighed = sum((exact_decimal(ingredient.mass_g) for ingredient in batch.weighed), Decimal(0))
    return exact_decimal(batch.vessels[-1].water_lost_g) / weighed


def _parts(items: list[_Item], component: str, what: str) -> tuple[list[str], Decimal]:
    """The lines of working for the content of each ingredient and their sum, and that sum."""
    working, found = [], []
    for item in items:
        percent = item.percent(component)
        if percent is None:
            raise _NoNumbers(f"the amount of {what} in {item.name} is not known")
        if percent > 0:
            part = _to(item.mass_g * percent / 100, _TENTH)
            found.append(part)
            working.append(f"{what} of {item.name}: {_g(item.mass_g)} × {_plain(percent)} / 100 = {_g(part)}")
    total = sum(found, Decimal(0))
    if total == 0:
        raise _NoNumbers(f"it contains no {what}")
    working.append(f"{what} in total: {' + '.join(_g(part) for part in found)} = {_g(total)}")
    return working, total


def _percent(item: _Item, component: str) -> str:
    return _plain(item.percent(component) or Decimal(0))


def _bowl(items: list[_Item], component: str, what: str) -> str:
    listed = [
        f"{_g(item.mass_g)} {item.name} ({_plain(item.percent(component) or Decimal(0))} % {what})" for item in items
    ]
    return list_text(listed)


def _fat(items: list[_Item], lost_share: Decimal) -> Exercise:
    working, fat = _parts(items, "fat_g", "fat")
    weighed = sum((item.mass_g for item in items), Decimal(0))
    lost = _mass(weighed * lost_share)
    minus, boiled = (f" − {_g(lost)}", f" {_g(lost)} of water boils off.") if lost else ("", "")
    total = weighed - lost
    percent = _to(100 * fat / total, _TENTH)
    working.append(f"batch: {' + '.join(_g(item.mass_g) for item in items)}{minus} = {_g(total)}")
    working.append(f"fat percentage: 100 × {_g(fat)} / {_g(total)} = {_plain(percent)} %")
    return Exercise(
        topic="fat percentage",
        question=f"Your batch is made of {_bowl(items, 'fat_g', 'fat')}.{boiled} What is its fat percentage?",
        working=tuple(working),
        answer=f"{_plain(percent)} %",
    )


def _pearson(items: list[_Item], draws: Draws) -> Exercise:
    total_g = sum((item.mass_g for item in items), Decimal(0))
    main = [item for item in items if item.mass_g >= total_g / 25]
    fats = [(percent, item) for item in main if (percent := item.percent("fat_g")) is not None]
    if not fats:
        raise _NoNumbers("no fat content is known")
    high, richest = max(fats, key=lambda pair: pair[0])
    moist = [pair for pair in fats if (pair[1].percent("water_g") or 0) >= 40]
    low, leanest = min(moist or fats, key=lambda pair: pair[0])
    margin = (high - low) / 5
    if high - low < 10:
        raise _NoNumbers("its ingredients have too similar fat contents")
    wanted = Decimal(draws.whole_number(int(low + margin) + 1, int(high - margin)))
    total = Decimal(50 * draws.whole_number(4, 20))
    of_high, of_low = wanted - low, high - wanted
    parts = of_high + of_low
    high_g = _to(total * of_high / parts, _TENTH)
    low_g = total - high_g
    check = _to((high_g * high + low_g * low) / total, _TENTH)
    return Exercise(
        topic="Pearson square",
        question=(
            f"You have {richest.name} with {_plain(high)} % fat and {leanest.name} with {_plain(low)} % fat. "
            f"How much of each makes {_g(total)} of a mixture with {_plain(wanted)} % fat?"
        ),
        working=(
            f"parts of {richest.name}: {_plain(wanted)} − {_plain(low)} = {_plain(of_high)}",
            f"parts of {leanest.name}: {_plain(high)} − {_plain(wanted)} = {_plain(of_low)}",
            f"parts in total: {_plain(of_high)} + {_plain(of_low)} = {_plain(parts)}",
            f"{richest.name}: {_g(total)} × {_plain(of_high)} / {_plain(parts)} = {_g(high_g)}",
            f"{leanest.name}: {_g(total)} − {_g(high_g)} = {_g(low_g)}",
            f"check: ({_g(high_g)} × {_plain(high)} + {_g(low_g)} × {_plain(low)}) / {_g(total)} = {_plain(check)} %",
        ),
        answer=f"{_g(high_g)} {richest.name} and {_g(low_g)} {leanest.name}",
    )


def _scaling(items: list[_Item], draws: Draws) -> Exercise:
    total = sum((item.mass_g for item in items), Decimal(0))
    wanted = _to(total * draws.whole_number(11, 38) / 100, Decimal(1)) * 10
    factor = _to(wanted / total, Decimal("0.001"))
    scaled = [(item.name, item.mass_g, _mass(item.mass_g * factor)) for item in items]
    return Exercise(
        topic="scaling",
        question=(
            f"One batch uses {list_text([f'{_g(item.mass_g)} {item.name}' for item in items])}. "
            f"You need {_g(wanted)} in total. What is the factor, and how much of each do you take?"
        ),
        working=(
            f"batch: {' + '.join(_g(item.mass_g) for item in items)} = {_g(total)}",
            f"factor: {_g(wanted)} / {_g(total)} = {_plain(factor)}",
            *(f"{name}: {_g(mass_g)} × {_plain(factor)} = {_g(new_g)}" for name, mass_g, new_g in scaled),
        ),
        answer=f"factor {_plain(factor)}: {list_text([f'{_g(new_g)} {name}' for name, _, new_g in scaled])}",
    )


def _syrup(items: list[_Item], draws: Draws) -> Exercise:
    sugar_lines, sugar = _parts(items, "sugars_g", "sugars")
    water_lines, water = _parts(items, "water_g", "water")
    strength = _to(100 * sugar / (sugar + water), _TENTH)
    wanted = Decimal(draws.whole_number(int(strength * 5 / 10), int(strength * 9 / 10)))
    if not 0 < wanted < strength:
        raise _NoNumbers("it contains too little sugar")
    syrup = sugar + water
    added = _to((syrup * strength - syrup * wanted) / wanted, _TENTH)  # Divides last, so that no digit is lost.
    contents = [
        f"{_g(item.mass_g)} {item.name} ({_percent(item, 'sugars_g')} % sugars, {_percent(item, 'water_g')} % water)"
        for item in items
    ]
    return Exercise(
        topic="syrup strength",
        question=(
            f"Your batch is made of {list_text(contents)}. If all of its sugars dissolved in all of its water, "
            f"how strong would that syrup be, and how much water would thin it to {_plain(wanted)} %?"
        ),
        working=(
            *sugar_lines,
            *water_lines,
            f"syrup: {_g(sugar)} + {_g(water)} = {_g(syrup)}",
            f"strength: 100 × {_g(sugar)} / {_g(syrup)} = {_plain(strength)} %",
            f"water to add: {_g(syrup)} × ({_plain(strength)} / {_plain(wanted)} − 1) = {_g(added)}",
        ),
        answer=f"{_plain(strength)} %, and {_g(added)} of water",
    )


def _overrun(foam_g_per_ml: float | None, draws: Draws) -> Exercise:
    foam = Decimal(draws.whole_number(50, 90)) / 100 if foam_g_per_ml is None else exact_decimal(foam_g_per_ml)
    foam_g = _to(foam * _CUP_ML, Decimal(1))
    most = int(100 * (_DENSEST_MIX / foam - 1))
    if most < 8:
        raise _NoNumbers("it is too dense for a whipped frosting")
    mix_g = _to(foam_g * (100 + draws.whole_number(5, min(most, 90))) / 100, Decimal(1))
    overrun = _to(100 * (mix_g - foam_g) / foam_g, _TENTH)
    density = _to(foam_g / _CUP_ML, Decimal("0.01"))
    return Exercise(
        topic="overrun",
        question=(
            f"A {_CUP_ML} mL cup holds {_g(mix_g)} of the mix before whipping and {_g(foam_g)} after. "
            "What is the overrun, and what does 1 mL of the foam weigh?"
        ),
        working=(
            f"overrun: 100 × ({_g(mix_g)} − {_g(foam_g)}) / {_g(foam_g)} = {_plain(overrun)} %",
            f"density: {_g(foam_g)} / {_CUP_ML} mL = {_plain(density)} g/mL",
        ),
        answer=f"{_plain(overrun)} %, {_plain(density)} g/mL",
    )
