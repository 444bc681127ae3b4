"""The trial calculator, which no page of the demo has, on the trimmed interpreter: it was not trained on that."""

import json
import random

from crumbcoat_calc.forms.trial_notes import note_fields
from crumbcoat_site.calculators.artefacts import Artefacts

from tests.calc.calculators.test_trial import CONTEXT, HOSTILE, RECIPE
from tests.interpreter.test_requests import trapped

NAMES = [f"trial.{name}" for name in note_fields(CONTEXT.published.recipe)]
GOOD = {"did": "held", "t_c": "20", "time": "3 min", "mass": "900", "attribute": "liking", "note": "by hand"}
"""What a field takes, by the end of its name."""
TYPED = (
    "", "3", "x", "20", "-2", "68 °F", "3 days", "2:30", "7, 8", "held", "seen", "worked", "yes",
    "2026-11-27", "2026-13-01", "bcdf", "0.9", "2 mm", "1/2", "½", "publish", *HOSTILE,
)  # fmt: skip
OF_BATCH = (
    {"factor": "2"}, {"skip.0.1": "yes"}, {"used.cream.rescue": "yes"}, {"instead.butter": "soya"},
    {"amount.sugar": "0"}, {"cup_weighs": "200", "ph": "6"},
    {"chilled_from": "30", "chilled_to": "20", "chilled_minutes": "9"},
)  # fmt: skip


def requests(count: int) -> list[str]:
    chance = random.Random(7)
    made = []
    for _ in range(count):
        state = {"trial.date": "2026-11-24"} if chance.random() < 0.8 else {}
        for name in chance.sample(NAMES, 8):
            value = GOOD.get(name.rpartition(".")[2])
            if value:
                state[name] = value
        for changed in chance.sample(OF_BATCH, 2):
            state |= changed
        edit = {chance.choice(NAMES): chance.choice(TYPED)}
        content = {"recipe": RECIPE, "trial": {"recipe": "0a1b2c3d", "number": "3"}}
        made.append({"calculator": "trial", "context": "t", "content": content, "state": state, "edit": edit})
    return [json.dumps(request) for request in made]


def test_it_traps_nowhere(runtime: Artefacts) -> None:
    assert list(trapped(runtime, requests(200))) == []
