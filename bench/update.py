"""What an edit costs in CPython, part by part, for a recipe of 25 ingredients and 6 stages: `python -m bench.update`.

Processor time, the least of several rounds, in µs, and as a share of the whole edit. Under Pyodide the same takes about
three to four times as long (from memory of one machine; measure there with `python -m bench`).
"""

import time
from collections.abc import Callable, Mapping
from itertools import cycle

from crumbcoat_calc.calculators import batch as calculator
from crumbcoat_calc.calculators import run
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.science.structure import structure_of
from crumbcoat_calc.texts.air import Air
from crumbcoat_calc.texts.science import figure_texts, science_texts, stage_cells, treated_parts, vessel_state
from crumbcoat_calc.texts.stages import stage_texts
from crumbcoat_calc.texts.temperature import temperature_texts
from crumbcoat_calc.texts.why import why_texts

ROUNDS, TIMES = 7, 40
INGREDIENTS, STAGES = 25, 6


def recipe() -> dict[str, object]:
    """Milk, butter, sugar, and every fourth food from the start of the table: 25 in total, over 6 stages."""
    kinds = ["milk_whole", "butter_unsalted", "sugar_powdered"]
    kinds += [key for key in list(foods())[::4] if key not in kinds][: INGREDIENTS - len(kinds)]
    keys = [f"i{number}" for number in range(len(kinds))]
    ingredients = {
        key: {"kind": kind, "amount": f"{400 - 15 * number} g", "temperature": f"{5 + number} °C"}
        for number, (key, kind) in enumerate(zip(keys, kinds, strict=True))
    }
    stages = [
        {"title": f"Stage {number}", "steps": [{"do": "Mix.", "add": keys[number::STAGES]}]} for number in range(STAGES)
    ]
    return {
        "title": "Twenty-five", "summary": "For measuring.", "author": "Lantern Street teaching kitchen",
        "family": "emulsified milk frosting", "yield": {"portions": "24", "of": "cupcakes"},
        "ingredients": ingredients, "stages": stages,
    }  # fmt: skip


def measure() -> Mapping[str, float]:
    """The CPU time of each part, in µs."""
    context = context_from({"recipe": recipe()})
    sizes = cycle([f"{1 + number / 7:.6f}" for number in range(97)])
    question = calculator.read(context, {})
    answer = calculator.calculate(question)
    made, conditions = answer.batch, question.conditions
    states = [vessel_state(vessel, conditions.bowl_c) for vessel in made.vessels]
    treated, family = treated_parts(made.vessels[-1]), made.recipe.family
    structure = structure_of(treated, family, states[-1])
    parts: dict[str, Callable[[], object]] = {
        "whole edit, a new size": lambda: run("batch", context, {}, {"factor": next(sizes)}),
        "whole edit, one amount": lambda: run("batch", context, {}, {"amount.i20": next(sizes)}),
        "edit": lambda: calculator.apply_edit(question, {"factor": next(sizes)}),
        "batch": lambda: batch_of(made.recipe),
        "texts": lambda: calculator.texts(answer) | calculator.later_texts(answer),
        "stages": lambda: stage_texts(made),
        "science": lambda: science_texts(made, conditions, Air()),
        "science: states": lambda: [vessel_state(vessel, conditions.bowl_c) for vessel in made.vessels],
        "science: figures": lambda: figure_texts(states[-1], structure),
        "science: table": lambda: [stage_cells(state) for state in states],
        "science: why": lambda: why_texts(states[-1], treated, family),
        "science: temperature": lambda: temperature_texts(made, conditions, STAGES - 1),
    }
    return {name: _least(part) for name, part in parts.items()}


def _least(part: Callable[[], object]) -> float:
    part()
    taken = []
    for _ in range(ROUNDS):
        begun = time.process_time()
        for _ in range(TIMES):
            part()
        taken.append((time.process_time() - begun) / TIMES)
    return 1e6 * min(taken)


if __name__ == "__main__":
    table = measure()
    whole = table["whole edit, a new size"]
    for name, taken in table.items():
        print(f"{name:28}{taken:9.0f} µs {100 * taken / whole:6.0f} %")
