"""What was seen at a checkpoint: the words are those that the trial calculator reads."""

from crumbcoat_calc.forms.trial_notes import FAILED, SEEN, WORKED

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("input", name="trial.right.0.0")[0]["form"] == "trial-of-batch"
    assert [option["value"] for option in component.shown.all("option")] == ["", SEEN, WORKED, FAILED]
