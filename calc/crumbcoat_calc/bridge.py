"""The browser's one door: a request in, a reply out, both JSON texts."""

import json
from collections.abc import Mapping

from crumbcoat_calc.calculators import CALCULATORS, run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.tables import preload
from crumbcoat_calc.values.fields import mapping, only, take, text
from crumbcoat_calc.values.units import registry


def answer(request: str) -> str:
    """The reply to a request.

    The request has the fields `calculator`, `given` (a JSON text), `state` and `edit` (texts by name). The reply has
    `state` and `texts`, or `error` with `path`, `problem` and `remedy`; it raises nothing that a person can cause.

    >>> answer('{"calculator": "oven", "given": "{}", "state": {}, "edit": {}}')
    '{"error": {"path": [], "problem": "there is no calculator \\'oven\\'", "remedy": "name one there is"}}'
    """
    try:
        data = mapping(_parsed(request))
        only(data, ("calculator", "given", "state", "edit"))
        state, texts = run(
            take(data, "calculator", text),
            take(data, "given", _any_length),
            take(data, "state", _texts),
            take(data, "edit", _texts),
        )
    except InputError as error:
        refusal = {"path": list(error.path), "problem": error.problem, "remedy": error.remedy}
        return json.dumps({"error": refusal})
    return json.dumps({"state": state, "texts": texts})


_SAMPLE = {
    "title": "Sample",
    "summary": "Answered once before the first reader asks.",
    "author": "calc",
    "family": "emulsified milk frosting",
    "yield": {"portions": "12", "of": "cupcakes"},
    "ingredients": {
        "butter": {"kind": "butter_unsalted", "amount": "200 g", "portions": {"first": "150 g", "second": "50 g"}},
        "milk": {"kind": "milk_whole", "amount": "1 US cup", "temperature": "5 °C"},
        "sugar": {"kind": "sugar_powdered", "amount": "150 g"},
        "yolk": {"kind": "egg_yolk_raw", "amount": "2 large"},
    },
    "stages": [
        {"title": "One", "steps": [{"do": "Heat.", "add": ["milk", "butter/first"], "heat_to": "80 °C"}]},
        {"title": "Two", "steps": [{"do": "Beat.", "add": ["sugar", "yolk", "butter/second"], "time": "3 to 4 min"}]},
    ],
}


def warm() -> None:
    """Load every table and the unit registry, so that a memory snapshot holds them; it holds no files.

    A sample is answered too: the interpreter then knows what each instruction mostly meets, and the first reader's
    answer comes sooner.
    """
    preload()
    registry()
    foods()
    for calculator in CALCULATORS.values():
        if hasattr(calculator, "warm"):
            calculator.warm()
    given = json.dumps({"recipe": _SAMPLE})
    for edit in ({"factor": "2"}, {"amount.butter": "210 g"}):
        run("batch", given, {}, edit)


def _parsed(request: str) -> object:
    try:
        return json.loads(request)
    except (ValueError, RecursionError):
        raise InputError("the request is not JSON", "reload the page") from None


def _any_length(value: object) -> str:
    if not isinstance(value, str):
        raise InputError("the value is not a text", "reload the page")
    return value


def _texts(value: object) -> Mapping[str, str]:
    fields = mapping(value)
    for key, entry in fields.items():
        if not isinstance(entry, str):
            raise InputError("the value is not a text", "reload the page", (key,))
    return {key: str(entry) for key, entry in fields.items()}
