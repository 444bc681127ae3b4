"""An edit on a page checks units where text comes in, and computes in floats after that."""

import sys
from collections.abc import Callable
from pathlib import Path
from types import FrameType

import pint
from crumbcoat_calc.bridge import warm
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.values.units import registry

PINT = str(Path(pint.__file__).parent)
RECIPE = {
    "title": "Plain cream", "summary": "For a plain cake.", "author": "Lantern Street teaching kitchen",
    "family": "whipped cream", "yield": {"portions": "12", "of": "cupcakes"},
    "ingredients": {
        "cream": {"kind": "cream_heavy_whipping", "amount": "500 g", "temperature": "4 °C"},
        "sugar": {"kind": "sugar_powdered", "amount": "1/2 US cup, unsifted"},
    },
    "stages": [{"title": "Whip", "steps": [{"do": "Whip.", "add": ["cream", "sugar"]}]}],
}  # fmt: skip
CONTEXT = context_from({"recipe": RECIPE})


def calls_into_pint(call: Callable[[], object]) -> int:
    """How often a call enters a pint function."""
    found = 0

    def look(frame: FrameType, event: str, _: object) -> None:
        nonlocal found
        found += event == "call" and frame.f_code.co_filename.startswith(PINT)

    sys.setprofile(look)
    try:
        call()
    finally:
        sys.setprofile(None)
    return found


def test_an_edit_uses_pint_for_none_of_its_figures() -> None:
    warm()
    for units in ("grams", "ounces", "us"):
        run("batch", CONTEXT, {}, {"units": units, "factor": "1.5", "finished_mass": "1 lb"})
        edit = {"units": units, "factor": "1.37", "amount.cream": "612 g", "finished_mass": "3 lb"}
        assert calls_into_pint(lambda edit=edit: run("batch", CONTEXT, {}, edit)) == 0


def test_the_counter_notices_pint() -> None:
    assert calls_into_pint(lambda: registry().Quantity(2.0, "pound").m_as("gram")) > 0
