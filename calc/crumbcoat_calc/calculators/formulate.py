"""Calculator: amounts for a wanted fat content, from any recipe; and the square for two ingredients."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import partial
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import MOST_LINES, Context, PublishedRecipe, name_texts, position, with_room
from crumbcoat_calc.forms.written_amounts import in_grams
from crumbcoat_calc.formulation.formulate import Balance, BoundedIngredient, Formula, Impossible, formulate
from crumbcoat_calc.formulation.pearson import pearson_masses_g
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.formulation import Formulated, square_texts
from crumbcoat_calc.values.display import plain_number_text
from crumbcoat_calc.values.fields import yes_no
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.units import number

_MAIN_SHARE = 0.05
"""Ingredients of at least this share of the batch may move unless the reader says otherwise."""

PERCENTS = ("fat", "sugar", "rich", "lean", "between")
MASSES = ("total", "together")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What is wanted of the finished batch: fat and most sugar in %, its mass in g; None as in the recipe, or open.

    `moves` says of some ingredients, by position, whether they may move; `low_g` and `high_g` bound them. `rich`,
    `lean` and `between` are fat contents in %, for `together` g of two ingredients.
    """

    fat: float | None = None
    sugar: float | None = None
    total: float | None = None
    moves: Mapping[int, bool] = field(default_factory=dict)
    low_g: Mapping[int, float] = field(default_factory=dict)
    high_g: Mapping[int, float] = field(default_factory=dict)
    rich: float = 36.0
    lean: float = 3.5
    between: float = 25.0
    together: float = 500.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    published: PublishedRecipe
    wish: Wish


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    question: Question
    ingredients: tuple[BoundedIngredient, ...]
    fat_percent: float
    total_g: float
    size: float
    outcome: Formula | Impossible
    square_g: tuple[float, float] | InputError


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipe and the reader's wishes in the form state ask.

    The form state may hold `fat`, `sugar` (%), `total` (g), of each ingredient by its position `moves.<n>` (yes or
    no), `low.<n>` and `high.<n>` (g), and for the square of two `rich`, `lean`, `between` (%) and `together` (g).

    Raises:
        InputError: at the field of the form state that cannot be used.
    """
    return _question(with_room(context.published), state)


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    changed = {name: value or "no" if name.startswith("moves.") else value for name, value in edit.items()}
    return _question(question.published, form_state(question) | changed)


def form_state(question: Question) -> dict[str, str]:
    wish, unchanged = question.wish, Wish()
    found: dict[str, str] = {}
    for name in (*PERCENTS, *MASSES):
        value = getattr(wish, name)
        if value != getattr(unchanged, name):
            found[name] = state_number(value)
    for at, moves in sorted(wish.moves.items()):
        if moves != _moves_by_itself(question.published, at):
            found[f"moves.{at}"] = "yes" if moves else "no"
    for head, bounds in (("low", wish.low_g), ("high", wish.high_g)):
        found |= {f"{head}.{at}": state_number(bound_g) for at, bound_g in sorted(bounds.items())}
    return found


def calculate(question: Question) -> Answer:
    """The amounts that meet the wish, or the wishes that collide.

    The wish is of the finished batch. Where W g boil off, growing with the batch, T + W g go in:

        fat going in % = fat % * T / (T + W)

    Raises:
        InputError: at the field of a wish that cannot be used, or `recipe` where a content is not known.
    """
    published, wish = question.published, question.wish
    finished = published.batch.total
    total_g = wish.total or finished.mass_g
    size = total_g / finished.mass_g
    lost_g = size * published.batch.vessels[-1].water_lost_g
    share = total_g / (total_g + lost_g)
    there = finished.percent("fat_g")
    if there is None:
        raise InputError("the fat of this recipe is not known", "choose another recipe", ("recipe",))
    fat = there if wish.fat is None else wish.fat
    ingredients = tuple([_ingredient(published, wish, at, size) for at in range(len(published.names))])
    balances = [Balance("fat_g", "=", fat * share)]
    if wish.sugar is not None:
        balances.append(Balance("sugars_g", "<=", wish.sugar * share))
    try:
        outcome = formulate(ingredients, balances, total_g + lost_g)
    except InputError as error:
        raise error.at(("recipe",)) from None
    try:
        square: tuple[float, float] | InputError = pearson_masses_g(wish.rich, wish.lean, wish.between, wish.together)
    except InputError as error:
        square = error
    return Answer(
        question=question,
        ingredients=ingredients,
        fat_percent=fat,
        total_g=total_g,
        size=size,
        outcome=outcome,
        square_g=square,
    )


def texts(answer: Answer) -> Texts:
    question = answer.question
    published, wish = question.published, question.wish
    names = published.names
    found: Texts = {
        **name_texts(published),
        "fat": plain_number_text(answer.fat_percent, 1) if wish.fat is None else state_number(wish.fat),
        "sugar": "" if wish.sugar is None else state_number(wish.sugar),
        "total": plain_number_text(answer.total_g, 0) if wish.total is None else state_number(wish.total),
    }
    for at in range(MOST_LINES):
        found[f"moves.{at}"] = "yes" if at < len(names) and _may_move(published, wish, at) else ""
        found[f"low.{at}"] = state_number(wish.low_g[at]) if at in wish.low_g else ""
        found[f"high.{at}"] = state_number(wish.high_g[at]) if at in wish.high_g else ""
    worked_out = Formulated(
        published=published,
        ingredients=answer.ingredients,
        size=answer.size,
        total_g=answer.total_g,
        fat_percent=answer.fat_percent,
        sugar_percent=wish.sugar,
    )
    found |= worked_out.texts(answer.outcome)
    return found | square_texts(wish.rich, wish.lean, wish.between, wish.together, answer.square_g)


def _question(published: PublishedRecipe, state: Mapping[str, str]) -> Question:
    plain: dict[str, float] = {}
    moves: dict[int, bool] = {}
    bounds: dict[str, dict[int, float]] = {"low": {}, "high": {}}
    for name, value in state.items():
        head, _, rest = name.partition(".")
        if not value.strip():
            continue
        if name in PERCENTS:
            plain[name] = read_field(name, value, _percent)
        elif name in MASSES:
            plain[name] = read_field(name, value, _some_grams)
        elif head == "moves":
            at = read_field(name, rest, partial(position, published=published))
            moves[at] = read_field(name, value, yes_no)
        elif head in bounds:
            at = read_field(name, rest, partial(position, published=published))
            bounds[head][at] = read_field(name, value, in_grams)
        else:
            raise InputError(f"there is no field {name!r} here", "leave it out", (name,))
    wish = Wish(moves=moves, low_g=bounds["low"], high_g=bounds["high"], **plain)
    for at, low_g in wish.low_g.items():
        if low_g > wish.high_g.get(at, low_g):
            problem = f"at least {low_g:g} g is more than at most {wish.high_g[at]:g} g"
            raise InputError(problem, "lower the first or raise the second", ("low", str(at)))
    return Question(published=published, wish=wish)


def _ingredient(published: PublishedRecipe, wish: Wish, at: int, size: float) -> BoundedIngredient:
    ingredient = published.recipe.ingredients[at]
    mass_g = size * ingredient.mass_g
    if not _may_move(published, wish, at):
        return BoundedIngredient(food=ingredient.food, recipe_g=ingredient.mass_g, low_g=mass_g, high_g=mass_g)
    return BoundedIngredient(
        food=ingredient.food,
        recipe_g=ingredient.mass_g,
        low_g=wish.low_g.get(at, 0.0),
        high_g=wish.high_g.get(at),
    )


def _may_move(published: PublishedRecipe, wish: Wish, at: int) -> bool:
    return wish.moves.get(at, _moves_by_itself(published, at))


def _moves_by_itself(published: PublishedRecipe, at: int) -> bool:
    masses = [ingredient.mass_g for ingredient in published.recipe.ingredients]
    return masses[at] >= _MAIN_SHARE * fsum(masses)


def _percent(written: str) -> float:
    value = float(number(written.replace("%", " ").strip()))
    if not 0 <= value <= 100:
        raise InputError(f"{value:g} % is outside 0 to 100 %", "give a number from 0 to 100")
    return value


def _some_grams(written: str) -> float:
    mass_g = in_grams(written)
    if mass_g <= 0:
        raise InputError("the amount is zero", "give more than 0 g")
    return mass_g
