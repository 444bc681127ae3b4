"""The calculators' own pages: a mark with the recipes to start from becomes a form that the calculator fills in."""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass

from calc.calculators import compare, handout, run
from calc.errors import InputError
from calc.fields import did_you_mean
from calc.foods import foods
from calc.recipe.given import MOST
from calc.shopping import packs
from site_plugins.recipe_cards.handout import kinds_bought
from site_plugins.recipe_cards.rendering import environment

_SLOTS = {"compare": compare.SLOTS, "handout": handout.SLOTS}
_MARK = re.compile(r"^<!-- crumbcoat: (formulate|replace|compare|map|handout) from ([^>]+?) -->$", re.MULTILINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """A recipe to start from: its name in docs_dir, title, family, data as JSON, and the way to its card.json."""

    name: str
    title: str
    family: str
    data: str
    card: str


def with_forms(markdown: str, starts: Sequence[Start]) -> str:
    """The Markdown with each mark replaced by the form of a calculator.

    A mark stands on a line of its own: `<!-- crumbcoat: formulate from low-fat/everyday-milk-frosting -->`; `replace`
    and `map` likewise, `compare from` two to six recipes, and `handout from` one to four.

    Raises:
        InputError: if a recipe of a mark is not there, or cannot be calculated with.
    """
    return _MARK.sub(lambda mark: _form(mark[1], mark[2].split(), starts), markdown)


def _form(tool: str, names: Sequence[str], starts: Sequence[Start]) -> str:
    by_name = {start.name: start for start in starts}
    for name in names:
        if name not in by_name:
            remedy = did_you_mean(name, by_name, "name a recipe by its path, without ending")
            raise InputError(f"there is no recipe {name!r} to start from", remedy)
    slots = _SLOTS.get(tool, ("recipe",))
    if len(names) > len(slots):
        raise InputError(f"there are {len(names)} recipes to {tool}", f"name at most {len(slots)}")
    chosen = dict(zip(slots, names, strict=False))
    given = json.dumps(
        {slot: json.loads(by_name[name].data) for slot, name in chosen.items()},
        ensure_ascii=False,
        separators=(",", ":"),
    )
    _, texts = run(tool, given, {}, {})
    kinds: dict[str, list[tuple[str, str]]] = {}
    for key, food in sorted(foods().items(), key=lambda item: item[1].name):
        kinds.setdefault(food.group, []).append((key, food.name))
    return (
        environment()
        .get_template(f"forms/{tool}.jinja")
        .render(
            given=given, texts=texts, starts=starts, chosen=chosen, slots=slots, lines=range(MOST),
            kinds=sorted(kinds.items()), bought=kinds_bought(packs()) if tool == "handout" else (),
        )
    )  # fmt: skip
