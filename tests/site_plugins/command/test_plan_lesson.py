"""`crumbcoat plan-lesson`: the plan of a handout in the terminal, and what it says of input that cannot be used."""

from pathlib import Path

import pytest
from click.testing import CliRunner
from crumbcoat_site.command.main import crumbcoat
from crumbcoat_site.shortest_plans import library

RECIPES = Path(__file__).parents[3] / "recipes"
BOTH = [
    str(RECIPES / "buttercreams/swiss-meringue-buttercream.yaml"),
    str(RECIPES / "milk-emulsions/everyday-milk-frosting.yaml"),
]
CLASS = ["--students", "18", "--groups", "6", "--share", "mixers=2", "--available", "150 min"]


def said(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(crumbcoat, ["plan-lesson", *arguments])
    return result.exit_code, result.output


def test_it_shows_the_plan_of_the_handout() -> None:
    code, text = said(*BOTH, *CLASS)
    assert code == 0
    assert "A Swiss meringue buttercream" in text
    assert "It does not fit: it takes 37 min more than 2 h 30 min." in text
    assert "It would fit with one of these: 3 mixers" in text
    assert "A 2 Whisk the meringue  09:30  " in text
    assert "Mixer 2" in text


def test_the_solver_says_how_short_a_plan_can_be() -> None:
    code, text = said(BOTH[0], "--groups", "2", "--share", "mixers=1", "--shortest", "--seconds", "20")
    assert code == 0
    assert "of work: no plan is shorter." in text


def test_it_says_so_once_for_each_lesson() -> None:
    """The syrup of the first recipe needs two at once, and the base of the second one chills from an earlier lesson."""
    both = ("buttercreams/egg-yolk-buttercream.yaml", "milk-emulsions/silk-milk-frosting.yaml")
    files = [str(RECIPES / name) for name in both]
    code, text = said(*files, "--students", "4", "--groups", "2", "--shortest", "--seconds", "1")
    assert code == 0
    assert text.count(" of work") == 2


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--share", "spoons=2"], "--share: groups do not share 'spoons'.\n    Fix: use one of: mixers, bowls, hobs"),
        (["--share", "mixers"], "mixers: "),
        (["--groups", "40"], "groups: 12 students cannot form 40 groups.\n    Fix: use up to 12 groups."),
        (["--available", "soon"], "available: "),
        ([*BOTH, *BOTH], "5 recipes are too many for one lesson.\n    Fix: name up to 4."),
    ],
)
def test_what_cannot_be_used_is_said_with_a_remedy(arguments: list[str], message: str) -> None:
    code, text = said(BOTH[0], *arguments)
    assert code == 1
    assert message in text
    assert "Fix:" in text


def test_without_the_solver_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(library, "find_spec", lambda _: None)
    code, text = said(BOTH[0], "--shortest")
    assert code == 1
    assert "pip install 'crumbcoat[planner]'" in text
