"""On the trimmed interpreter, requests that it was not trained on get the answers of CPython, letter for letter."""

import gzip
import json
import random
import shutil
from collections.abc import Iterator, Sequence
from pathlib import Path
from subprocess import CompletedProcess

import pytest
from crumbcoat_calc.bridge import Session
from crumbcoat_site.calculators.artefacts import LOADER, PYODIDE, TRIMMED, WHOLE, Artefacts
from crumbcoat_site.calculators.assets import ASSETS
from crumbcoat_site.calculators.node import node_command, run
from crumbcoat_site.calculators.trimmed import asked_for, with_exports, with_functions

from tests.interpreter.marked import marked
from tests.interpreter.page_forms import Form, forms_of
from tests.interpreter.profile import COUNT, SEED
from tests.interpreter.reader_requests import reader_requests

ROOT = Path(__file__).parents[2]
HELD_OUT = 20261126
"""The seed of requests that the profile has not seen."""


@pytest.fixture(scope="module")
def forms(site: tuple[Path, str]) -> list[Form]:
    return list(forms_of(site[0]))


def asked(folder: Path, requests: Sequence[str]) -> CompletedProcess[str]:
    """What answer.mjs says with the runtime in a folder."""
    script = ROOT / "tests" / "site_plugins" / "calculators" / "answer.mjs"
    return run(node_command(), script, PYODIDE, folder, ASSETS / "worker.js", "snapshot", input="\n".join(requests))


def trapped(runtime: Artefacts, requests: Sequence[str]) -> Iterator[str]:
    """The requests at which the trimmed interpreter traps; all others are answered as CPython does.

    After a trap a new interpreter goes on behind that request.
    """
    while requests:
        done = asked(runtime.folder, requests)
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


@pytest.mark.full
def test_whichever_function_is_missing_no_answer_is_wrong(
    runtime: Artefacts, forms: list[Form], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    requests = [*reader_requests(forms, HELD_OUT, 24)]
    session = Session()
    expected = [json.loads(session.answer(request)) for request in requests]
    folder = shutil.copytree(runtime.folder, tmp_path / "runtime")
    whole = (PYODIDE / WHOLE).read_bytes()
    names = asked_for((PYODIDE / LOADER).read_text(encoding="utf-8"))
    (folder / TRIMMED).write_bytes(gzip.compress(marked(whole), 1))
    with monkeypatch.context() as environment:
        hook = Path(__file__).parent / "entered_in_node.mjs"
        environment.setenv("NODE_OPTIONS", f'--import="{hook.as_uri()}"')
        environment.setenv("ENTERED", str(tmp_path / "entered.json"))
        assert asked(folder, requests).returncode == 0
    entered = set(json.loads((tmp_path / "entered.json").read_text()))
    for function in random.Random(HELD_OUT).sample(sorted(entered), 40):
        kept = entered - {function}
        (folder / TRIMMED).write_bytes(gzip.compress(with_exports(with_functions(whole, kept), kept, names), 1))
        replies = [json.loads(reply) for reply in asked(folder, requests).stdout.splitlines()]
        assert replies == expected[: len(replies)], function
        # A start whose end Pyodide does not hear of gives no reply either; client.js waits for it for 20 s.
        assert len(replies) < len(requests), function
