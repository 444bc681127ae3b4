"""The calculators: one module each, found by name; the same `run` fills the page in the build and in the browser.

A calculator has four functions:

    read(given, state) -> Question      outside data, checked
    calculate(question) -> Answer       the figures
    show(answer) -> texts               finished texts, tables and pictures by name
    keep(given, state, edit) -> state   what the reader changed, in its one canonical form

`given` is a JSON text that the reader does not edit (such as the recipe); `state` holds only what the reader changed,
as texts; `edit` holds the fields just touched. An edit that cannot be used leaves the state as it was.
"""

from collections.abc import Mapping
from types import ModuleType

from crumbcoat_calc.calculators import batch, cake, compare, formulate, handout, label
from crumbcoat_calc.calculators import mixture_map as map
from crumbcoat_calc.calculators import replacement as replace
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.fields import did_you_mean

State = dict[str, str]

CALCULATORS: Mapping[str, ModuleType] = {
    "batch": batch,
    "cake": cake,
    "compare": compare,
    "formulate": formulate,
    "handout": handout,
    "label": label,
    "map": map,
    "replace": replace,
}


def run(name: str, given: str, state: Mapping[str, str], edit: Mapping[str, str]) -> tuple[State, Texts]:
    """The state after an edit, and the texts of it.

    Raises:
        InputError: at the field that cannot be used.
    """
    if name not in CALCULATORS:
        raise InputError(f"there is no calculator {name!r}", did_you_mean(name, CALCULATORS, "name one there is"))
    calculator = CALCULATORS[name]
    kept: State = calculator.keep(given, state, edit) if edit else dict(state)
    texts: Texts = calculator.show(calculator.calculate(calculator.read(given, kept)))
    return kept, texts
