"""Makes what is missing of pictures, several at once, and finds the rest in the cache."""

import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from multiprocessing import get_context
from pathlib import Path
from typing import Any

from crumbcoat_site.recipe_cards.pictures.kept import PictureCache

_FEW = 2
"""This many pictures are made sooner than other processes start."""
_MOST_PROCESSES = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What is to be made of a file: `kind` is a key of `KINDS` in `kinds.py`, `inputs` its further arguments.

    A social picture need not have a file.
    """

    kind: str
    file: Path | None
    inputs: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Prepared:
    """The key in the cache, and the facts; or the problem and remedy of a picture that cannot be used."""

    key: str
    facts: Mapping[str, Any]
    problem: tuple[str, str] | None = None


def prepare(orders: Sequence[Order], cache: PictureCache) -> list[Prepared]:
    """What was ordered, in that order; what the cache has not is made in as many processes as there are processors."""
    found: list[Prepared | None] = []
    missing = []
    for number, order in enumerate(orders):
        key = cache.key(order.file.read_bytes() if order.file else b"", order.kind, order.inputs)
        facts = cache.get(key)
        found.append(None if facts is None else _prepared(key, facts))
        if facts is None:
            missing.append((number, key))
    todo = {key: (orders[number], key, cache.folder) for number, key in missing}
    made = dict(zip(todo, _made_of(list(todo.values())), strict=True))
    for number, key in missing:
        found[number] = _prepared(key, made[key])
    return [prepared for prepared in found if prepared is not None]


def _made_of(todo: Sequence[tuple[Order, str, Path]]) -> list[dict[str, Any]]:
    if len(todo) <= _FEW:
        return [_make(one) for one in todo]
    # New processes, not copies of this one, which may have threads: a served site has.
    processes = min(os.cpu_count() or 1, len(todo), _MOST_PROCESSES)
    with ProcessPoolExecutor(processes, mp_context=get_context("spawn")) as pool:
        return list(pool.map(_make, todo))


def _make(todo: tuple[Order, str, Path]) -> dict[str, Any]:
    """Make one, keep it, and give its facts; of a picture that cannot be used, its problem is kept."""
    order, key, folder = todo
    # Imported here because a build that finds every picture in the cache need not load Pillow.
    from crumbcoat_site.recipe_cards.pictures.kinds import make

    made = make(order.kind, order.file.read_bytes() if order.file else b"", order.inputs)
    PictureCache(folder).put(key, *made)
    return made[0]


def _prepared(key: str, facts: Mapping[str, Any]) -> Prepared:
    problem = facts.get("problem")
    return Prepared(key, facts, (problem[0], problem[1]) if problem else None)
