"""Requests as readers could send them, by chance but the same for the same seed: right, odd and wrong ones.

They are about the recipes of a built site, and about recipes made from those by changing a few places: what other
authors write.
"""

import json
import random
import re
from collections.abc import Iterator, Sequence
from typing import Any

from crumbcoat_calc.calculators import CALCULATORS
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.recipe.model import FAMILIES

from tests.interpreter.page_forms import Form

MASSES = ("g", "kg", "oz", "lb", "mg", " g", " ounces", " pounds", "")
MEASURES = (
    " US cup", " US cups, packed", " metric cup", " AU tbsp", " US tsp", " mL", " L", " fl oz", " cup", " tbsp", " dl",
    " large", " pieces", " pinch", " US tbsp, sifted", " US cup, unsifted", " imperial pint",
)  # fmt: skip
LENGTHS = (" cm", " mm", " in", '"', "cm", " m", " inches", "")
TEMPERATURES = (" °C", "°C", " °F", "C", "F", " K", "°", "")
TIMES = (" min", " min", " h", " s", ":30", " h 20 min", " to 9 min", "-12 min", " hours", " days", "")
PLAIN = ("", "", "%", " %", " batches", " W", "x", "/3", "/7", "e3", " pH")
BY_NAME = (
    (("temperature", "chilled_from", "chilled_to"), TEMPERATURES),
    (("tier", "coat", "cupcake"), LENGTHS),
    (("minutes", "start", "available", "time", "talk", "look", "taste", "clean", "wash", "change"), TIMES),
    (("amount", "have", "mass", "pack", "total", "x_g", "y_g", "weighs", "cost"), MASSES + MEASURES),
    (("bowl", "volume"), (" L", "L", " mL", " US cups", " US quarts", "")),
    (("low", "high"), MASSES),
)
"""What mostly follows a number in a field, by parts of its name."""

WORDS = {
    "allergies": ("milk", "egg, gluten", "soya", "nuts, milk", "kiwi"),
    "vary": ("butter", "unsalted butter", "A milk", "B butter", "sugar", "icing sugar", "water"),
    "levels": ("-20 %, 0, +20 %", "-10", "16, 22 °C", "61 °F", "2, 4 additions"),
}
"""What is typed into a field that is not for one number."""

WRITTEN = (
    "{:.0f}", "{:.1f}", "{:.2f}", "{:.6f}", "{:,.1f}", "{:e}", "+{:.1f}", "-{:.1f}", "00{:.0f}", "{:.0f} 1/2",
    "{:.0f}½", "{:.0f} ¾", "1/{:.0f}", "{:.0f}–{:.0f}", "{:.0f} to 99", " {:.1f} ", "~{:.0f}", "about {:.0f}",
    "{:.0f}.", ".{:.0f}",
)  # fmt: skip
DIGITS = ("0123456789", "٠١٢٣٤٥٦٧٨٩", "०१२३४५६७८९", "０１２３４５６７８９", "๐๑๒๓๔๕๖๗๘๙", "۰۱۲۳۴۵۶۷۸۹")
MARKS = ((".", "."), (".", ","), (".", "٫"), (".", "·"), (",", "\N{NARROW NO-BREAK SPACE}"), (",", "."), (",", "’"))
ODD = (
    "", " ", "0", "-1", "nan", "inf", "-inf", "1e400", "9" * 30, "9" * 5000, "½", "⅔ cup", "1½ US cups",
    "two", "no", "yes",
    "1.2.3", "1,2,3", "1.234,5 g", "1,234.5 g", "1'234 g", "12:75", "1:2:3", "#", "%", "{}", "<b>2</b>", "\\", '"', "'",
    "x" * 3000, "é" * 50, "🧁", "二", "\u202e12", "\0", "1\n2", "\t3 g", "null", "true", "None",
    "g", "5 5", "5g5g",
    "3 parsecs", "2 grm", "2 gramms", "4 cuups", "100 °", "20 degrees", "İ", "ß", "ﬁ", "Ⅷ", "²", "1⁄2 cup", "10 000 g",
)  # fmt: skip
BROKEN = (
    "not JSON", " ", "{", "[]", "null", "3", '"text"', "{}", '{"calculator": 3}', "[" * 5000, '{"a": "\\ud83d"}', "NaN",
    '{"calculator": "batch", "context": "x", "state": {}, "edit": {}}',
    '{"calculator": "batch", "context": "x", "state": [], "edit": {}}',
    '{"calculator": "batch", "context": "x", "state": {}, "edit": {"factor": 2}}',
    '{"calculator": "batch", "context": "x", "state": {}, "edit": {}, "shown": "1"}',
    '{"calculator": "batch", "context": "x", "state": {}, "edit": {}, "more": 1}',
    '{"calculator": "batch", "context": "x", "content": {}, "state": {}, "edit": {}}',
)  # fmt: skip


def reader_requests(forms: Sequence[Form], seed: int, count: int) -> Iterator[str]:
    """A number of requests, each with its context; the calculators take turns. Half of them are what a reader means."""
    chance = random.Random(seed)
    kinds = sorted(foods())
    by_calculator = {name: [form for form in forms if form.calculator == name] for name in CALCULATORS}
    shown = [name for name in CALCULATORS if by_calculator[name]]  # The demo has no form for trials.
    for number in range(count):
        if chance.random() < 0.03:
            yield chance.choice(BROKEN)
            continue
        name = shown[number % len(shown)]
        form = chance.choice(by_calculator[name])
        odd = chance.choice((0.0, 0.0, 0.1, 0.4))
        request = {
            "calculator": name if chance.random() > odd / 20 else f"{name}s",
            "context": f"{seed}.{number}",
            "content": _other(form.context, kinds, odd, chance) if chance.random() < 0.5 else form.context,
            "state": _entries(form, chance, most=4, odd=odd / 4),
            "edit": _entries(form, chance, most=2, odd=odd),
        }
        yield json.dumps(request, ensure_ascii=chance.random() < 0.5)


def _entries(form: Form, chance: random.Random, *, most: int, odd: float) -> dict[str, str]:
    """Some fields, at most a given number, with what was chosen or typed; `odd` is the share of what nobody means."""
    names = [name for name in sorted(form.fields) if odd or not re.search(r"\.([7-9]|\d\d)$", name)]
    found = {}
    for name in chance.sample(names, min(chance.randint(0, most), len(names))):
        choices = WORDS.get(name) or (form.fields[name] if odd else form.fields[name][:9])
        if chance.random() < odd:
            found[name] = chance.choice(
                (*ODD, *choices, _amount(PLAIN + MASSES + MEASURES + LENGTHS + TIMES, 1, chance))
            )
        else:
            found[name] = chance.choice(choices) if choices else _amount(_units(name), odd, chance)
    if chance.random() < odd / 10:
        found[chance.choice(("factr", "amount.", "tier.9.shape", "amount.none", "", "é"))] = "1"
    return found


def _units(name: str) -> tuple[str, ...]:
    return next((units for parts, units in BY_NAME if any(part in name for part in parts)), PLAIN)


def _amount(units: Sequence[str], odd: float, chance: random.Random) -> str:
    """A number as somebody writes it, with a unit; the less odd, the more often a plain one with a usual unit."""
    size = chance.choice((1, 3, 10, 10, 30, 100, 1000))
    if chance.random() >= 2 * odd:
        return chance.choice(("{:.0f}", "{:.1f}")).format(1 + chance.random() * size) + chance.choice(units[:2])
    text = chance.choice(WRITTEN).format(chance.random() * size, size)
    if chance.random() < 0.3:
        text = text.translate(str.maketrans(DIGITS[0], chance.choice(DIGITS)))
    if chance.random() < 0.3:
        text = text.replace(*chance.choice(MARKS))
    return text + chance.choice(units)


def _other(context: dict[str, Any], kinds: Sequence[str], odd: float, chance: random.Random) -> dict[str, Any]:
    """The context with a few places of its recipes changed, as in the recipe of somebody else."""
    content: dict[str, Any] = json.loads(json.dumps(context))
    recipes = [recipe for recipe in content.values() if isinstance(recipe, dict) and "ingredients" in recipe]
    for _ in range(chance.randint(1, 5)):
        _change(chance.choice(recipes), kinds, odd, chance)
    return content


def _change(recipe: dict[str, Any], kinds: Sequence[str], odd: float, chance: random.Random) -> None:
    ingredient = chance.choice([one for one in recipe["ingredients"].values() if isinstance(one, dict)])
    steps = [step for stage in recipe["stages"] for step in stage["steps"]]
    match chance.randrange(12 if odd else 9):
        case 0 | 1 | 2:
            ingredient["kind"] = chance.choice(kinds)
        case 3:
            ingredient["amount"] = _amount(MASSES + MEASURES, odd, chance)
        case 4:
            ingredient["temperature"] = _amount(TEMPERATURES, odd, chance)
        case 5:
            ingredient["composition"] = {chance.choice(("fat", "water", "protein")): _amount((" %",), odd, chance)}
        case 6:
            recipe["family"] = chance.choice(FAMILIES)
        case 7:
            chance.choice(steps)["time"] = _amount(TIMES, odd, chance)
        case 8:
            recipe["yield"] = {"portions": str(chance.randint(1, 99)), "of": chance.choice(("cupcakes", "slices", "é"))}
        case 9:
            chance.choice(steps)[chance.choice(("heat_to", "cool_to"))] = _amount(TEMPERATURES, odd, chance)
        case _:
            _spoil(recipe["ingredients"] if chance.random() < 0.5 else recipe, chance)


def _spoil(part: Any, chance: random.Random) -> None:
    """Leave out a field somewhere, or put in what nobody means."""
    while isinstance(part, dict | list) and part:
        key = chance.choice(list(part)) if isinstance(part, dict) else chance.randrange(len(part))
        if not isinstance(part[key], dict | list):
            if isinstance(part, dict) and chance.random() < 0.3:
                del part[key]
            else:
                part[key] = chance.choice((*ODD, None, 3, [], {}))
            return
        part = part[key]
