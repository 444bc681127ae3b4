"""A plug-in of pytest (`-p tests.interpreter.record`): writes what tests ask of calculators to the file REQUESTS."""

import contextlib
import hashlib
import json
import os
from collections.abc import Mapping
from typing import Any

from crumbcoat_calc import calculators
from crumbcoat_calc.calculators import Solved
from crumbcoat_calc.forms import context as contexts
from crumbcoat_calc.forms.context import Context

_own_context_from = contexts.context_from
_own_solve = calculators.solve
_contents: dict[int, tuple[Context, str]] = {}
"""What each context was read from; it is kept, so that no other one gets its number."""
_asked: dict[str, None] = {}


def _context_from(content: object) -> Context:
    context = _own_context_from(content)
    with contextlib.suppress(TypeError, ValueError):  # A test may give what no JSON can hold; no reader can.
        _contents[id(context)] = context, json.dumps(content)
    return context


def _solve(
    name: str, context: Context, state: Mapping[str, str] | None = None, edit: Mapping[str, str] | None = None
) -> Solved:
    if id(context) in _contents:
        _, content = _contents[id(context)]
        digest = hashlib.sha256(content.encode()).hexdigest()
        request: dict[str, Any] = {"calculator": name, "context": digest, "content": json.loads(content)}
        with contextlib.suppress(TypeError):
            _asked[json.dumps({**request, "state": {**(state or {})}, "edit": {**(edit or {})}})] = None
    return _own_solve(name, context, state, edit)


def pytest_configure() -> None:
    """The modules that import these two by name are imported later."""
    contexts.context_from = _context_from
    calculators.solve = _solve


def pytest_sessionfinish() -> None:
    with open(os.environ["REQUESTS"], "w", encoding="utf-8") as file:
        file.writelines(f"{request}\n" for request in _asked)
