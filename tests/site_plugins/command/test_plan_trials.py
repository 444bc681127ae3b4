"""`crumbcoat plan-trials`: the files of a plan, blind sheets in random order, and the key apart."""

import re
from pathlib import Path

import pytest
import yaml

from tests.site_plugins.command.conftest import run
from tests.site_plugins.command.test_trials import FOLDER, RECIPE, site, write

__all__ = ["site"]

VARY = ("--vary", "butter", "160..220", "g", "--vary", "powdered_sugar", "120..180", "g")


def fields(number: int) -> dict[str, object]:
    return yaml.safe_load((FOLDER / f"{number}.yaml").read_text(encoding="utf-8"))


def amounts(number: int) -> tuple[str, ...]:
    changed = fields(number)["changed"]
    assert isinstance(changed, dict)
    return tuple(one["amount"] for one in changed["ingredients"].values())


def test_every_point_is_a_trial_that_is_right() -> None:
    done = run("plan-trials", RECIPE, *VARY, "--seed", "7", "--who", "bench two")
    names = [f"{number}.yaml" for number in range(1, 8)] + ["plan-1.sheets.txt", "plan-1.key.txt"]
    assert done.output.splitlines()[:-1] == [f"{FOLDER}/{name}" for name in names]
    assert "random (seed 7)" in done.output
    centre = ("190 g", "150 g")
    assert sorted(amounts(number) for number in range(1, 8)) == [
        ("160 g", "120 g"), ("160 g", "180 g"), centre, centre, centre, ("220 g", "120 g"), ("220 g", "180 g"),
    ]  # fmt: skip
    assert {fields(number)["plan"] for number in range(1, 8)} == {1}
    assert len({fields(number)["code"] for number in range(1, 8)}) == 7
    assert (
        run("check", *[f"{FOLDER}/{number}.yaml" for number in range(1, 8)]).output
        == "7 files, no problems, no warnings.\n"
    )


def test_the_sheets_are_blind_and_in_the_order_of_the_key() -> None:
    run("plan-trials", RECIPE, *VARY, "--plan", "star", "--seed", "3")
    sheets = (FOLDER / "plan-1.sheets.txt").read_text(encoding="utf-8").split("\f")
    key = (FOLDER / "plan-1.key.txt").read_text(encoding="utf-8")
    codes = [re.findall(r"^Code ([1-9]\d\d)$", sheet, re.MULTILINE) for sheet in sheets]
    assert codes == [[str(fields(number)["code"])] for number in range(1, 8)]
    for number, sheet in enumerate(sheets, 1):
        butter, sugar = [float(amount.removesuffix(" g")) for amount in amounts(number)]
        assert re.search(rf"unsalted butter +{butter} g +weighed", sheet)
        assert re.search(rf"powdered sugar +{sugar} g", sheet)
        assert re.search(rf"^ +{number} +{number} +{codes[number - 1][0]} +{butter} g +{sugar} g$", key, re.MULTILINE)
    assert "seed 3" in key
    assert "seed" not in "".join(sheets)


def test_a_seed_draws_the_same_again_and_another_one_another_order() -> None:
    kept = []
    for seed in ("7", "7", "8"):
        for path in FOLDER.glob("*"):
            path.unlink()
        run("plan-trials", RECIPE, *VARY, "--seed", seed)
        kept.append((FOLDER / "plan-1.key.txt").read_text(encoding="utf-8"))
    assert kept[0] == kept[1]
    assert kept[0].splitlines()[3:] != kept[2].splitlines()[3:]


def test_a_plan_may_change_a_trial_and_the_next_plan_has_the_next_number() -> None:
    write(1, "changed: {ingredients: {milk: 280 g}}\n")
    run("plan-trials", str(FOLDER / "1.yaml"), *VARY, "--centres", "0")
    run("plan-trials", RECIPE, *VARY, "--centres", "0")
    assert [fields(number).get("from") for number in (2, 5, 6)] == [1, 1, None]
    assert [fields(number)["plan"] for number in (2, 5, 6, 9)] == [1, 1, 2, 2]
    codes = [fields(number)["code"] for number in range(2, 10)]
    assert len(set(codes)) == 8


@pytest.mark.parametrize(
    ("vary", "words"),
    [
        (VARY[:4], "a plan is for two ingredients.\n    Fix: give it for two"),
        (VARY[:4] * 2, "a plan is for two ingredients"),
        (
            (*VARY[:4], "--vary", "sugr", "1..2", "g"),
            "--vary sugr 1..2 g: the recipe has no ingredient 'sugr'.\n    Fix: ",
        ),
        ((*VARY[:4], "--vary", "milk", "300", "g"), "these are not two bounds.\n    Fix: write the lower one first"),
        ((*VARY[:4], "--vary", "milk", "300..200", "g"), "these are not two bounds"),
        ((*VARY[:4], "--vary", "milk", "a..b", "g"), "--vary milk a..b g: "),
    ],
)
def test_what_cannot_be_planned_says_why_and_writes_nothing(vary: tuple[str, ...], words: str) -> None:
    done = run("plan-trials", RECIPE, *vary)
    assert done.exit_code == 1
    assert words in done.output
    assert "Fix: " in done.output
    assert not Path(FOLDER).exists()
