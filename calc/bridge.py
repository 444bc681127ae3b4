"""The browser's one door: a request in, a reply out, both JSON texts."""

import json
from collections.abc import Mapping

from calc.calculators import CALCULATORS, run
from calc.errors import InputError
from calc.fields import mapping, only, take, text
from calc.foods import foods
from calc.tables import preload
from calc.units import registry


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


def warm() -> None:
    """Load every table and the unit registry, so that a memory snapshot holds them; it holds no files."""
    preload()
    registry()
    foods()
    for calculator in CALCULATORS.values():
        if hasattr(calculator, "warm"):
            calculator.warm()


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
