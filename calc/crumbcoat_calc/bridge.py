"""The browser's one entry point: a request in, a reply out, both JSON texts."""

import json
import re
from collections.abc import Callable, Mapping, Set
from dataclasses import dataclass, replace

from crumbcoat_calc.calculators import Solved, solve
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.allergens import allergen_assessment
from crumbcoat_calc.foods.diets import origin_of
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.forms.context import Context, context_from
from crumbcoat_calc.tables import preload
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.fields import mapping, only, take, take_or, text
from crumbcoat_calc.values.units import registry

MOST_CONTEXTS = 16
"""How many contexts are remembered; the page sends one again that has been forgotten."""


@dataclass(frozen=True, slots=True)
class _Shown:
    """What a page shows after a reply: its number, all texts, and the names of those that come first.

    `later` gives the others, unless they are shown already.
    """

    number: int
    texts: Texts
    first: Set[str]
    later: Callable[[], Texts] | None = None


class Session:
    """What is remembered between requests: contexts by their digest, and the texts that each calculator gave last."""

    def __init__(self) -> None:
        self._contexts: dict[str, Context] = {}
        self._latest: dict[tuple[str, str], _Shown] = {}
        self._count = 0

    def answer(self, request: str) -> str:
        """The reply to a request; it raises nothing that a person can cause.

        A request has the fields `calculator`, `context` (the digest of one), `state` and `edit` (texts by name), and
        may have `content`, the context itself, and `shown`, the number of the reply that the page shows.

        A reply has `state`, its `number`, and `texts`: those that differ from the reply `shown`, or all of them. Or it
        has `unknown`, the digest of a context that must be sent; or `error` with `path`, `problem`, `remedy` and,
        where one of a few texts would do, `choices`, each with what it would be.

        To a request with `shown` the texts that take longest may be left out, and `later` has their names, or what
        their names begin with up to a point. A request with the fields `calculator`, `context` and `later`, the number
        of that reply, gets those of them that differ, as `texts`; or nothing but an empty reply if that is not the
        latest one any more.

        >>> Session().answer('{"calculator": "batch", "context": "3f2a", "state": {}, "edit": {}}')
        '{"unknown": "3f2a"}'
        """
        try:
            data = mapping(_parsed(request))
            only(data, ("calculator", "context", "content", "state", "edit", "shown", "later"))
            name, digest = take(data, "calculator", text), take(data, "context", text)
            if "later" in data:
                return json.dumps(self._later(name, digest, take(data, "later", _whole)))
            state, edit = take(data, "state", _texts), take(data, "edit", _texts)
            shown = take_or(data, "shown", _whole, None)
            if "content" in data:
                self._remember(digest, context_from(data["content"]))
            if digest not in self._contexts:
                return json.dumps({"unknown": digest})
            solved = solve(name, self._contexts[digest], state, edit)
            return json.dumps({"state": solved.state, **self._reply(name, digest, shown, solved)})
        except InputError as error:
            refusal: dict[str, object] = {
                "path": list(error.path), "problem": _quoted(error.problem), "remedy": _quoted(error.remedy),
            }  # fmt: skip
            if error.choices:
                refusal["choices"] = error.choices
            return json.dumps({"error": refusal})

    def _remember(self, digest: str, context: Context) -> None:
        self._contexts.pop(digest, None)
        self._contexts[digest] = context
        for oldest in list(self._contexts)[:-MOST_CONTEXTS]:
            del self._contexts[oldest]
            self._latest = {key: reply for key, reply in self._latest.items() if key[1] != oldest}

    def _reply(self, name: str, digest: str, shown: int | None, solved: Solved) -> dict[str, object]:
        """The texts that differ from those of the reply `shown`; all of them if that was not the latest one."""
        latest = self._latest.get((name, digest))
        self._count += 1
        if shown is None:
            self._latest[name, digest] = _Shown(self._count, solved.texts, solved.first.keys())
            return {"number": self._count, "texts": solved.texts}
        if latest is None or shown != latest.number or solved.first.keys() != latest.first:
            before, changed = {}, solved.first
        else:
            before = latest.texts
            changed = {key: value for key, value in solved.first.items() if before[key] != value}
        self._latest[name, digest] = _Shown(self._count, before | solved.first, solved.first.keys(), solved.later)
        later = {"later": solved.later_names} if solved.later else {}
        return {"number": self._count, "texts": changed, **later}

    def _later(self, name: str, digest: str, number: int) -> dict[str, object]:
        """The texts that were left out of the reply of that number."""
        latest = self._latest.get((name, digest))
        if latest is None or latest.number != number or latest.later is None:
            return {}
        texts = latest.later()
        self._latest[name, digest] = replace(latest, texts=latest.texts | texts, later=None)
        return {"texts": {key: value for key, value in texts.items() if latest.texts.get(key) != value}}


answer = Session().answer


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
"""Invented amounts, which no figure depends on."""


_ROWS_ARE_KEPT = ("foods.csv", "measures.csv", "allergens.csv", "diets.csv")
"""The tables that are large and that one function reads, once."""


def warm() -> None:
    """Load every table and the unit registry, so that a memory snapshot holds them; it holds no files.

    A sample is answered too: the interpreter then knows what each instruction mostly meets, and the first reader's
    answer comes sooner.
    """
    registry()
    sample = next(iter(foods().values()))
    allergen_assessment(sample, "EU")
    origin_of(sample)
    preload(without=_ROWS_ARE_KEPT)
    session, shown = Session(), 0
    request = {"calculator": "batch", "context": "sample"}
    for edit in ({"factor": "2"}, {"amount.butter": "210 g"}):
        asked = {**request, "content": {"recipe": _SAMPLE}, "state": {}, "edit": edit, "shown": shown}
        shown = json.loads(session.answer(json.dumps(asked)))["number"]
    session.answer(json.dumps({**request, "later": shown}))


def _quoted(sentence: str) -> str:
    """A sentence for a reader: what is to be typed is in quotes, where a writer of recipe files finds backticks."""
    return re.sub(r"`([^`]*)`", r"“\1”", sentence)


def _parsed(request: str) -> object:
    try:
        return json.loads(request)
    except (ValueError, RecursionError):
        raise InputError("the request is not JSON", "send a JSON object") from None


def _whole(value: object) -> int:
    if type(value) is not int:
        raise InputError("the number of the reply shown is not a whole number", "send the number of the latest reply")
    return value


def _texts(value: object) -> Mapping[str, str]:
    fields = mapping(value)
    for key, entry in fields.items():
        if not isinstance(entry, str):
            raise InputError("the value is not a text", "send each field as a text", (key,))
    return {key: str(entry) for key, entry in fields.items()}
