"""The amounts of a line -> one amount as a recipe file writes it, with its mass where the kind has a weight for it."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.values.display import mass_text

from crumbcoat_site.bring_in.amounts import MASSES, METRIC_VOLUMES, VOLUMES, Amount
from crumbcoat_site.bring_in.ingredient_lines import IngredientLine

APART = 0.1
"""By which share two amounts of a line may differ before somebody should look (our judgement, no source)."""

WATERY_G = 60.0
"""Of a food with more water than this in 100 g, `oz` on a can may be fluid ounces (our judgement, no source)."""

_MEASURES = {
    "US": {"cup": "US cup", "tbsp": "US tbsp", "fl oz": "US fl oz", "pint": "US pint", "quart": "US quart"},
    "UK": {"cup": "metric cup", "tbsp": "metric tbsp", "fl oz": "imperial fl oz", "pint": "imperial pint"},
    "metric": {"cup": "metric cup", "tbsp": "metric tbsp", "fl oz": "imperial fl oz", "pint": "imperial pint"},
    "AU": {"cup": "metric cup", "tbsp": "AU tbsp", "fl oz": "imperial fl oz", "pint": "imperial pint"},
}
"""The cups, spoons and pints that a page means, by whose they are."""

_EGG_SIZES = {"extra_large": "size XL", "large": "size L", "medium": "size M", "small": "size S"}
_COUNTED = frozenset((
    "stick", "sheet", "packet", "envelope", "sachet", "can", "tin", "jar", "bag", "bar", "block", "drop", "lemon",
    "lime", "orange",
))  # fmt: skip
"""What is counted and has a plural in -s."""

_SPOONS = frozenset(("cup", "tbsp", "tsp", "dessertspoon"))
_SPOONFULS = ("heaped", "heaping", "rounded", "scant", "generous", "good", "large", "small")

_NAMED = {
    "AU cup": "metric cup",
    "imperial tbsp": "metric tbsp",
    "imperial cup": "metric cup",
    "metric tsp": "metric tsp",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """An amount as a recipe file writes it; `mass_g` is None without a known weight. `doubts` say why to look."""

    text: str
    mass_g: float | None
    doubts: tuple[str, ...] = ()
    is_how_used: bool = False
    most: str = ""


def measured(line: IngredientLine, kind: Food | None, system: str) -> Measured:
    """The amount to write: grams where the line has them, else the first measure that the kind has a weight for.

    Args:
        system: whose cups and spoons the page means, a key of `_MEASURES`.

    >>> from crumbcoat_calc.foods.table import food
    >>> from crumbcoat_site.bring_in.ingredient_lines import ingredient_line
    >>> measured(ingredient_line("1 1/2 cups (300 g) butter"), food("butter_unsalted"), "US").doubts
    ('1 1/2 US cups of it would be 341 g, and the page says 300 g',)
    >>> measured(ingredient_line("2 tbsp cream"), food("cream_double"), "UK").text
    '2 metric tbsp'
    """
    ways = [list(_ways(amount, line, kind, system)) for amount in _by_use(line)]
    doubts = list(line.doubts)
    for place, choice in [(place, choice) for place, of_one in enumerate(ways) for choice in of_one]:
        mass_g = _mass_g(kind, choice.text)
        if mass_g is None:
            continue
        doubts += [
            *choice.doubts,
            *_contradictions(mass_g, choice, [*ways[:place], *ways[place + 1 :]], kind),
            *_fluid(line, choice, kind),
        ]
        return Measured(
            text=choice.text,
            mass_g=mass_g,
            doubts=tuple(dict.fromkeys(doubts)),
            is_how_used=choice.is_how_used,
            most=choice.most,
        )
    first = ways[0][0]
    return Measured(
        text=first.text, mass_g=None, doubts=(*doubts, *first.doubts, *_why_not(kind, first.text)), most=first.most
    )


def _by_use(line: IngredientLine) -> list[Amount]:
    """The amounts of a line: masses in grams first, then other masses, then the order of the line."""

    def rank(amount: Amount) -> int:
        return 0 if amount.units <= {"g", "kg", "mg"} else 1 if amount.units <= MASSES else 2

    return sorted(line.amounts, key=rank)


def _ways(amount: Amount, line: IngredientLine, kind: Food | None, system: str) -> Iterator[Measured]:
    """How one amount may be written, the most exact way first."""
    doubts = [_roughly(word, amount) for word in amount.rough]
    most = ""
    if amount.high is not None:
        *_, (_, unit) = amount.parts
        most = f"up to {_written(amount.high, unit, system)}"
        doubts.append(f"the page says {_number(amount.parts[0][0])} to {_written(amount.high, unit, system)}")
    if line.how and amount.units <= VOLUMES:
        shown = " + ".join([_written(number, unit, system) for number, unit in amount.parts])
        yield Measured(text=f"{shown}, {line.how}", mass_g=None, doubts=tuple(doubts), is_how_used=True, most=most)
    if amount.units == {""} or amount.units <= set(_EGG_SIZES):
        yield from _counted(amount, line, kind, system, doubts, most)
    shown = " + ".join([_written(number, unit, system) for number, unit in amount.parts])
    yield Measured(text=shown, mass_g=None, doubts=tuple(doubts), most=most)


def _roughly(word: str, amount: Amount) -> str:
    """Why to look at an amount that a word makes inexact."""
    if word in _SPOONFULS and amount.units <= _SPOONS:
        return f"the page says {word}, and this is a level one"
    return f"the page says {word}"


def _counted(
    amount: Amount, line: IngredientLine, kind: Food | None, system: str, doubts: list[str], most: str
) -> Iterator[Measured]:
    """Pieces: eggs by their size, others by their own name."""
    number, size = amount.parts[0]
    known = {measure.unit for measure in kind.measures} if kind else set()
    pieces: list[tuple[str, tuple[str, ...]]] = []
    if "size_l" in known and system != "US":
        shown = _EGG_SIZES[size or "medium"]
        pieces.append((shown, () if size else (f"the page gives no size: {shown}?",)))
    elif not size and "size_l" in known:
        pieces.append(("large", ("the page gives no size: large?",)))
    if not size:
        last = line.name.split()[-1].lower().removesuffix("s") if line.name else ""
        pieces += [(piece, ()) for piece in (last, "piece", "fruit") if piece in known]
        pieces += [(piece, (f"the page gives no size: {piece}?",)) for piece in ("medium", "large") if piece in known]
    for piece, more in pieces:
        shown = most.replace(_number(amount.high), f"{_number(amount.high)} {piece}") if amount.high else most
        yield Measured(text=f"{_number(number)} {piece}", mass_g=None, doubts=(*doubts, *more), most=shown)


def _written(number: Fraction, unit: str, system: str) -> str:
    """A number with a unit as a recipe file writes it."""
    if unit == "quart" and system != "US":
        number, unit = 2 * number, "pint"
    if unit == "dessertspoon":  # Of two teaspoons, 10 mL (common practice, no source).
        number, unit = 2 * number, "metric tsp"
    named = _NAMED.get(unit) or _MEASURES[system].get(unit, unit)
    plural = "s" if number > 1 and (named.endswith((" cup", " pint", " quart")) or named in _COUNTED) else ""
    shown = (
        _decimal(number) if unit in MASSES | METRIC_VOLUMES and number.denominator not in (2, 3, 4) else _number(number)
    )
    return f"{shown} {named.replace('_', ' ')}{plural}".strip()


def _number(number: Fraction | None) -> str:
    """A number as people write it: `1 1/2`, `2/3`, `0.7`."""
    if number is None:
        return ""
    if number.denominator not in (1, 2, 3, 4, 5, 6, 8):
        return _decimal(number)
    whole, part = divmod(number, 1)
    return " ".join([text for text in (str(whole) if whole or not part else "", str(part) if part else "") if text])


def _decimal(number: Fraction) -> str:
    return f"{float(number):.4f}".rstrip("0").rstrip(".")


def _mass_g(kind: Food | None, text: str) -> float | None:
    if kind is None:
        return None
    try:
        return amount_of(kind, text).mass_g
    except InputError:
        return None


def _why_not(kind: Food | None, text: str) -> tuple[str, ...]:
    """Why a kind has no weight for an amount; nothing without a kind, which is marked itself."""
    if kind is None:
        return ()
    try:
        amount_of(kind, text)
    except InputError as error:
        return (error.problem,)
    raise AssertionError(text)


def _contradictions(mass_g: float, chosen: Measured, others: list[list[Measured]], kind: Food | None) -> Iterator[str]:
    """Other amounts of the same line that weigh something else, however they are measured."""
    for ways in others:
        weighed = [(way.text, other_g) for way in ways if (other_g := _mass_g(kind, way.text)) is not None]
        if weighed and all(abs(other_g - mass_g) > APART * mass_g for _, other_g in weighed):
            text, other_g = weighed[0]
            yield f"{text} of it would be {mass_text(other_g)}, and the page says {chosen.text}"
            return


def _fluid(line: IngredientLine, chosen: Measured, kind: Food | None) -> Iterator[str]:
    """A can of something watery, in ounces alone."""
    is_pack = any(word in line.pack for word in ("can", "carton", "bottle", "container"))
    water_g = kind.content("water_g") if kind else None
    if is_pack and chosen.text.endswith(" oz") and (water_g or 0.0) > WATERY_G:
        yield f"are the {chosen.text} a weight, or fluid ounces?"
