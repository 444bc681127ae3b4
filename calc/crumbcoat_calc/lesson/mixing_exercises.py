"""Exercises on mixtures: a dairy liquid with another one, and the sugar and the water of a batch."""

from decimal import Decimal

from crumbcoat_calc.foods.table import food
from crumbcoat_calc.lesson.card_figures import CardFigures
from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.exercise import TENTH, Bowl, Exercise, Item, NoNumbers, bowl_of, g, plain, to
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.values.display import list_text

_CREAMS = (
    "cream_30_fr", "cream_double", "cream_heavy_whipping", "cream_light", "cream_light_whipping", "cream_single",
    "cream_whipping_uk", "half_and_half",
)  # fmt: skip
_MILKS = ("milk_1pct", "milk_2pct", "milk_whole", "milk_whole_no_added_vitamin_d")
"""Dairy liquids that are mixed to another fat content, by their key in foods.csv."""

_WHIPS_PERCENT = 30
"""Cream whips from this much fat on, see carriers.csv (hoffmann-2011)."""


def pearson(batch: Batch, _: CardFigures, draws: Draws) -> Exercise:
    """Two dairy liquids mixed to a third: the cream of a recipe thinned with milk, or its milk made of cream and milk.

    Raises:
        NoNumbers: if it has neither in an amount that matters.
    """
    bowl = bowl_of(batch, draws)
    main = [item for item in bowl.items if item.mass_g * 25 >= bowl.weighed_g]
    cream = next((item for item in main if item.food.key in _CREAMS), None)
    milk = next((item for item in main if item.food.key in _MILKS), None)
    if cream:
        return _thinned(cream, draws)
    if milk:
        return _standardised(milk)
    raise NoNumbers("it has neither milk nor cream to mix")


def _thinned(cream: Item, draws: Draws) -> Exercise:
    low, high = _percent("milk_whole"), cream.percent("fat_g") or Decimal(0)
    least = _WHIPS_PERCENT if high >= _WHIPS_PERCENT + 3 else int(low) + 2
    wanted = Decimal(draws.whole_number(least, int(high) - 1))
    total = Decimal(50 * draws.whole_number(4, 20))
    name = cream.name.partition(",")[0]
    question = (
        f"You have {name} with {plain(high)} % fat and whole milk with {plain(low)} % fat. "
        f"How much of each makes {g(total)} of a lighter cream with {plain(wanted)} % fat?"
    )
    return _square(question, (name, high), ("whole milk", low), wanted, total)


def _standardised(milk: Item) -> Exercise:
    low, high, wanted = _percent("milk_skim"), _percent("cream_heavy_whipping"), milk.percent("fat_g") or Decimal(0)
    question = (
        f"The recipe needs {g(milk.mass_g)} {milk.name} with {plain(wanted)} % fat, and you have only cream with "
        f"{plain(high)} % fat and skimmed milk with {plain(low)} % fat. How much of each do you mix?"
    )
    return _square(question, ("cream", high), ("skimmed milk", low), wanted, milk.mass_g)


def _square(
    question: str, rich: tuple[str, Decimal], lean: tuple[str, Decimal], wanted: Decimal, total: Decimal
) -> Exercise:
    (rich_name, high), (lean_name, low) = rich, lean
    of_high, of_low = wanted - low, high - wanted
    parts = of_high + of_low
    high_g = to(total * of_high / parts, TENTH)
    low_g = total - high_g
    check = to((high_g * high + low_g * low) / total, TENTH)
    return Exercise(
        topic="Pearson square",
        question=question,
        working=(
            f"parts of {rich_name}: {plain(wanted)} − {plain(low)} = {plain(of_high)}",
            f"parts of {lean_name}: {plain(high)} − {plain(wanted)} = {plain(of_low)}",
            f"parts in total: {plain(of_high)} + {plain(of_low)} = {plain(parts)}",
            f"{rich_name}: {g(total)} × {plain(of_high)} / {plain(parts)} = {g(high_g)}",
            f"{lean_name}: {g(total)} − {g(high_g)} = {g(low_g)}",
            f"check: ({g(high_g)} × {plain(high)} + {g(low_g)} × {plain(low)}) / {g(total)} = {plain(check)} %",
        ),
        answer=f"{g(high_g)} {rich_name} and {g(low_g)} {lean_name}",
    )


def _percent(key: str) -> Decimal:
    return Item(key, Decimal(1), food(key)).percent("fat_g") or Decimal(0)


def syrup(batch: Batch, card: CardFigures, draws: Draws) -> Exercise:
    """The strength of the syrup in the finished batch, after the water that boils off, and the water to thin it.

    Raises:
        NoNumbers: if not all of the sugar is dissolved, or not enough is known.
    """
    if not card.all_dissolved:
        raise NoNumbers("its card does not say that all of the sugar dissolves")
    bowl = bowl_of(batch, draws)
    sugar_lines, sugar = bowl.parts("sugars_g", "sugars")
    water_lines, water = bowl.parts("water_g", "water")
    left = water - bowl.lost_g
    if left <= 0:
        raise NoNumbers("nearly all of its water boils off")
    strength = to(100 * sugar / (sugar + left), TENTH)
    wanted = Decimal(draws.whole_number(int(strength * 5 / 10), int(strength * 9 / 10)))
    if not 0 < wanted < strength:
        raise NoNumbers("it contains too little sugar")
    made = sugar + left
    added = to((made * strength - made * wanted) / wanted, TENTH)  # Divides last, so that no digit is lost.
    boiled = (f"water left: {g(water)} − {g(bowl.lost_g)} = {g(left)}",) if bowl.lost_g else ()
    return Exercise(
        topic="syrup strength",
        question=(
            f"Your batch is made of {_contents(bowl)}.{bowl.boiled_text} All of the sugars are dissolved in the water "
            f"that is left. How strong is that syrup, and how much water would thin it to {plain(wanted)} %?"
        ),
        working=(
            *sugar_lines,
            *water_lines,
            *boiled,
            f"syrup: {g(sugar)} + {g(left)} = {g(made)}",
            f"strength: 100 × {g(sugar)} / {g(made)} = {plain(strength)} %",
            f"water to add: {g(made)} × ({plain(strength)} / {plain(wanted)} − 1) = {g(added)}",
        ),
        answer=f"{plain(strength)} %, and {g(added)} of water",
    )


def _contents(bowl: Bowl) -> str:
    shares = [
        (item, item.percent("sugars_g") or Decimal(0), item.percent("water_g") or Decimal(0)) for item in bowl.items
    ]
    return list_text(
        [
            f"{g(item.mass_g)} {item.name} ({plain(sugars)} % sugars, {plain(water)} % water)"
            for item, sugars, water in shares
        ]
    )
