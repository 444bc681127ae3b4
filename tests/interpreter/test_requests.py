"""On the trimmed interpreter, requests that it was not trained on get the answers of CPython, letter for letter."""

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from crumbcoat_calc.bridge import Session
from crumbcoat_site.calculators.artefacts import PYODIDE, Artefacts
from crumbcoat_site.calculators.assets import ASSETS
from crumbcoat_site.calculators.node import node_command, run

from tests.interpreter.page_forms import Form, forms_of
from tests.interpreter.profile import COUNT, SEED
from tests.interpreter.reader_requests import reader_requests

ROOT = Path(__file__).parents[2]
HELD_OUT = 20261126
"""The seed of requests that the profile has not seen."""


@pytest.fixture(scope="module")
def forms(site: tuple[Path, str]) -> list[Form]:
    return list(forms_of(site[0]))


def trapped(runtime: Artefacts, requests: Sequence[str]) -> Iterator[str]:
    """The requests at which the trimmed interpreter traps; all others are answered as CPython does.

    After a trap a new interpreter goes on behind that request.
    """
    script = ROOT / "tests" / "site_plugins" / "calculators" / "answer.mjs"
    command = (node_command(), script, PYODIDE, runtime.folder, ASSETS / "worker.js", "snapshot")
    while requests:
        done = run(*command, input="\n".join(requests))
        replies = done.stdout.splitlines()
        session = Session()
        for request, reply in zip(requests, replies, strict=False):
            assert json.loads(reply) == json.loads(session.answer(request)), request
        if done.returncode:
            assert "unreachable" in done.stderr, done.stderr
            yield requests[len(replies)]
            replies.append("")
        requests = requests[len(replies) :]


def test_it_answers_what_it_was_not_trained_on(runtime: Artefacts, forms: list[Form]) -> None:
    requests = [*reader_requests(forms, HELD_OUT, 150)]
    assert len(set(requests)) > 140
    assert list(trapped(runtime, requests)) == []


@pytest.mark.full
def test_it_answers_all_that_it_was_trained_on(runtime: Artefacts, forms: list[Form]) -> None:
    assert list(trapped(runtime, [*reader_requests(forms, SEED, COUNT)])) == []


@pytest.mark.full
def test_of_thousands_of_other_requests_hardly_one_traps(runtime: Artefacts, forms: list[Form]) -> None:
    requests = [*reader_requests(forms, HELD_OUT + 1, 2_400)]
    assert len(set(requests)) > 2_300
    assert len(list(trapped(runtime, requests))) < 0.005 * len(requests)
