"""The calculators: one module each, found by name; the same `run` fills the page in the build and in the browser.

A calculator has a frozen `Question` and `Answer`, and five functions:

    read(context, state) -> Question        outside data, checked
    apply_edit(question, edit) -> Question  the question after the reader changed some fields
    form_state(question) -> state           what the reader changed, written in one way only
    calculate(question) -> Answer           the figures
    texts(answer) -> texts                  finished texts, tables and pictures by name

It may have a sixth, `later_texts(answer)`: those that take longest and are mostly folded away. A page is answered
without them first. Their names are in its `LATER`, or what they begin with up to a point.

The context (`forms.context`) is what the page gives and its reader does not edit, such as the recipe. The form state
holds only what the reader changed, as texts by the name of their field; an edit holds the fields just touched.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import ModuleType
from typing import Any

from crumbcoat_calc.calculators import (
    batch,
    cake,
    class_results,
    compare,
    formulate,
    handout,
    label,
    mixture_map,
    replacement,
    trial,
)
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import Context
from crumbcoat_calc.forms.degrees import edit_in, fields_in
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.fields import did_you_mean
from crumbcoat_calc.values.region import shown_in

FormState = dict[str, str]

CALCULATORS: Mapping[str, ModuleType] = {
    "batch": batch,
    "cake": cake,
    "class_results": class_results,
    "compare": compare,
    "formulate": formulate,
    "handout": handout,
    "label": label,
    "map": mixture_map,
    "replace": replacement,
    "trial": trial,
}


@dataclass(frozen=True, slots=True)
class Solved:
    """The form state after an edit, the calculator's answer for it, and finished texts: some at once, others later.

    `later_names` are the names of those that come later, or what they begin with up to a point.
    """

    state: FormState
    answer: Any
    first: Texts
    later: Callable[[], Texts] | None
    later_names: tuple[str, ...]

    @property
    def texts(self) -> Texts:
        """All of them; those that come later are worked out each time that this is asked for."""
        return self.first | self.later() if self.later else self.first


def run(
    name: str, context: Context, state: Mapping[str, str] | None = None, edit: Mapping[str, str] | None = None
) -> tuple[FormState, Texts]:
    """The form state after an edit, and the texts for it; without an edit the form state stays as it is written.

    Raises:
        InputError: at the field that cannot be used; then nothing has changed.
    """
    solved = solve(name, context, state, edit)
    return solved.state, solved.texts


def solve(
    name: str, context: Context, state: Mapping[str, str] | None = None, edit: Mapping[str, str] | None = None
) -> Solved:
    """As `run`, with the answer, for a host that needs figures beside the texts."""
    if name not in CALCULATORS:
        raise InputError(f"there is no calculator {name!r}", did_you_mean(name, CALCULATORS, "use one of the list"))
    calculator = CALCULATORS[name]
    question = calculator.read(context, state or {})
    kept: FormState = dict(state or {})
    if edit:
        kept = calculator.form_state(calculator.apply_edit(question, edit_in(context.region, edit)))
        question = calculator.read(context, kept)  # What is shown after an edit is what its form state gives.
    answer = calculator.calculate(question)
    first: Texts = fields_in(context.region, shown_in(context.region, calculator.texts(answer)))
    if not hasattr(calculator, "later_texts"):
        return Solved(kept, answer, first, None, ())

    def later() -> Texts:
        texts: Texts = shown_in(context.region, calculator.later_texts(answer))
        return texts

    return Solved(kept, answer, first, later, calculator.LATER)
