"""The equipment of a class, by reading its recipes."""

import yaml
from crumbcoat_calc.lesson.equipment import class_equipment, things_of
from crumbcoat_calc.lesson.lesson import Lesson
from crumbcoat_calc.recipe.reading import recipe_from

from ..calculators.test_handout import EVERYDAY, FOLDER, MERINGUE, data


def recipes(*names):
    return [recipe_from(data(name)) for name in names]


def test_things_are_those_that_the_recipe_names():
    """By reading the file: its tools, film in a step, a sieve from "sieved", a thermometer since it is to be 90 °C."""
    (everyday,) = recipes(EVERYDAY)
    assert set(things_of(everyday)) == {
        "scales", "small bowl", "whisk", "saucepan", "shallow tray", "ice bath", "stand mixer", "film", "fine sieve",
        "thermometer",
    }  # fmt: skip
    assert things_of(everyday)["stand mixer"] == ("whisk",)


def test_nothing_is_listed_that_no_recipe_names():
    for path in FOLDER.glob("*/*.yaml"):
        written = path.read_text(encoding="utf-8").lower()
        recipe = recipe_from(yaml.load(written, yaml.BaseLoader))
        for thing in set(things_of(recipe)) - {"scales", "thermometer", "fine sieve"}:
            assert thing in " ".join(written.split()), (path.name, thing)


def test_things_are_counted_for_the_groups_that_need_them():
    both = {one.thing: one for one in class_equipment(recipes(MERINGUE, EVERYDAY), Lesson(students=18, groups=5))}
    assert {one.groups for one in both.values()} == {5}
    assert "thermometer" not in both, "one recipe calls it a probe thermometer"
    assert both["stand mixer"].name == "stand mixer (whisk, paddle)"
    assert not both["ice bath"].lasts
    assert both["saucepan"].lasts
    one_each = Lesson(students=18, groups=5, makes="one recipe", tools={"mixer": 2, "scales": 1})
    found = {one.thing: one for one in class_equipment(recipes(MERINGUE, EVERYDAY), one_each)}
    assert (found["saucer"].groups, found["saucepan"].groups, found["fine sieve"].groups) == (3, 2, 5)
    assert (found["stand mixer"].shared, found["scales"].shared, found["saucepan"].shared) == (2, 1, None)
