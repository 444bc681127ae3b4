"""The science gives the same figures, digit for digit, in Pyodide as in this Python; and its doctests hold there."""

import json
import zipfile
from pathlib import Path

import crumbcoat_calc
import pytest
from crumbcoat_site.calculators.artefacts import PYODIDE
from crumbcoat_site.calculators.node import node_command, run

pytestmark = pytest.mark.runtime
CALC = Path(crumbcoat_calc.__file__).parent

FIGURES = """
import dataclasses, enum, functools, json
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.formulation.exchange import find_exchange
from crumbcoat_calc.formulation.formulate import Balance, BoundedIngredient, formulate
from crumbcoat_calc.science.chilling import chilling_min
from crumbcoat_calc.science.heat import HeatPart, heat_content
from crumbcoat_calc.science.keeping import keeping_advice
from crumbcoat_calc.science.mixing import mixing_temperature_c
from crumbcoat_calc.science.mixture_map import map_mixture
from crumbcoat_calc.science.state import mixture_state

def plain(value):
    if isinstance(value, enum.Enum):
        return value.name
    if dataclasses.is_dataclass(value):
        names = [field.name for field in dataclasses.fields(value)]
        names += [name for name, one in vars(type(value)).items() if isinstance(one, functools.cached_property)]
        return {name: plain(getattr(value, name)) for name in names}
    return [plain(one) for one in value] if isinstance(value, (tuple, list)) else value

milk = [("butter_unsalted", 250, 18.0), ("sugar_powdered", 420, 20.0), ("milk_whole", 150, 5.0),
        ("buttermilk_powder", 15, 20.0), ("salt_table", 2, 20.0), ("vanilla_extract", 5, 20.0)]
states = [mixture_state([(food(key), mass) for key, mass, _ in milk], at) for at in (5.0, 20.0, 35.0)]
states.append(mixture_state([(food("cream_cheese"), 225), (food("honey"), 80)], 20.0, boiled_off_g=10.0))
wish = [BoundedIngredient(food=food(key), recipe_g=mass, high_g=500.0) for key, mass, _ in milk[:3]]
answer = json.dumps(plain([
    states,
    mixing_temperature_c([HeatPart(heat_content(food(key), mass), t) for key, mass, t in milk], 3000.0),
    [keeping_advice(state.water_activity, 6.0) for state in states],
    map_mixture([(food("butter_unsalted"), 300)], (food("sugar_powdered"), range(0, 800, 100)),
             (food("milk_whole"), range(0, 400, 50)), 20.0),
    formulate(wish, [Balance("fat_g", "=", 25.0), Balance("sugars_g", "<=", 50.0)], 1000.0),
    formulate(wish, [Balance("fat_g", "=", 60.0)], 1000.0),
    find_exchange(food("milk_whole"), 200, [food("milk_powder_skim"), food("water_tap"), food("butter_unsalted")]),
    chilling_min(25.0, 18.0, 4.0, 30.0),
]), sort_keys=True)
"""

MODULES = """
import sys
answer = json.dumps(sorted({name.partition('.')[0] for name in sys.modules}))
"""

DOCTESTS = """
import doctest, importlib, json, pkgutil
failed = attempted = 0
for package in ("crumbcoat_calc.science", "crumbcoat_calc.formulation"):
    for module in pkgutil.iter_modules(importlib.import_module(package).__path__):
        done = doctest.testmod(importlib.import_module(f"{package}.{module.name}"))
        failed, attempted = failed + done.failed, attempted + done.attempted
answer = json.dumps([failed, attempted])
"""


@pytest.fixture(scope="module")
def answers(tmp_path_factory):
    """The figures, the modules that were then imported, and the outcome of the doctests, from one Pyodide.

    Nothing but Python and calc is there to import from.
    """
    archive = tmp_path_factory.mktemp("calc") / "calc.zip"
    with zipfile.ZipFile(archive, "w") as file:
        for source in sorted(CALC.rglob("*")):
            if source.suffix in (".py", ".csv", ".txt"):
                file.write(source, source.relative_to(CALC.parent))
    code = f"{FIGURES}\nanswers = [answer]\n{MODULES}\nanswers.append(answer)\n{DOCTESTS}\nanswers.append(answer)\n"
    code += "answer = f'[{\", \".join(answers)}]'"
    done = run(node_command(), Path(__file__).parent / "in_pyodide.mjs", PYODIDE, archive, input=code)
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout)


def test_figures_are_the_same_to_the_last_digit(answers):
    here = {}
    exec(FIGURES, here)
    assert answers[0] == json.loads(here["answer"])


def test_it_needs_no_package(answers):
    names = set(answers[1])
    assert "crumbcoat_calc" in names
    assert names & {"pint", "numpy", "scipy", "CoolProp"} == set()


def test_doctests_hold(answers):
    failed, attempted = answers[2]
    assert failed == 0
    assert attempted > 50
