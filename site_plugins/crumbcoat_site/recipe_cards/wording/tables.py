"""The tables of this folder: claims and the words for them, words that are not claims, and names with a composition."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TypeVar

from crumbcoat_calc.recipe.claims import CLAIMS
from crumbcoat_calc.tables import rows_from

R = TypeVar("R")

_HERE = Path(__file__).parent
NOT_TO_CLAIM = ("health effect", "slimming", "for an illness", "lean", "trans-fat-free", "keeps safely")
"""What texts may claim and no author can give a ground for in `claims`."""

_WORDS_KEY = ("claim", "where", "form")
_MARKS = frozenset(("found", "memory"))
"""Whether the rule was read in a stored copy of the law, or is from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimRule:
    """What one market asks of a claim.

    `test` compares a figure with a limit: `at most`, `below`, `at least`, or `less` by a share than a similar food.
    `without` asks whether an ingredient holds what `figure` names. No recipe can show `as sold`, `ground` and `never`.
    """

    claim: str
    market: str
    test: str
    figure: str
    limit: str
    per: str
    rule: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimWords:
    """A form of words that makes a claim; `front` only in title, summary, keywords and the like."""

    claim: str
    form: re.Pattern[str]
    front_only: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class NameRule:
    """What a market asks of a food of that name: a content in % of its mass, between two limits or on one side."""

    name: str
    market: str
    component: str
    at_least: float | None
    at_most: float | None
    rule: str


@cache
def claim_rules() -> dict[str, tuple[ClaimRule, ...]]:
    """The rules of each claim, one for each market that has one."""
    rules: dict[str, tuple[ClaimRule, ...]] = {}
    for rule in _rows("claims.csv", _rule_from, ("claim", "market")):
        rules[rule.claim] = (*rules.get(rule.claim, ()), rule)
    return rules


@cache
def claim_words() -> tuple[ClaimWords, ...]:
    """The words by which claims are found."""
    return _rows("claim_words.csv", _words_from, _WORDS_KEY)


def has_claim_words(text: str) -> bool:
    """Whether any of `claim_words` is in a text: in most there is none, and one search shows that."""
    return _any_claim().search(text.casefold()) is not None


@cache
def _any_claim() -> re.Pattern[str]:
    """All forms in one, for a text in small letters: with IGNORECASE the search takes three times as long."""
    return _form("|".join(_rows("claim_words.csv", lambda cells: cells["form"], _WORDS_KEY)), re.NOFLAG)


@cache
def plain_words() -> tuple[tuple[re.Pattern[str], bool], ...]:
    """Forms of words that look like a claim and are not, each with whether that holds in prose only."""
    return _rows("plain_words.csv", lambda cells: (_form(cells["form"]), _is(cells["where"], "prose")), ("form",))


@cache
def name_rules() -> dict[str, tuple[NameRule, ...]]:
    """The rules of each name, in every market that has some."""
    rules: dict[str, tuple[NameRule, ...]] = {}
    for rule in _rows("name_rules.csv", _name_rule_from, ("name", "market", "component")):
        rules[rule.name] = (*rules.get(rule.name, ()), rule)
    return rules


@cache
def traditional_names() -> tuple[tuple[re.Pattern[str], bool], ...]:
    """Names with a word for a milk product that tradition has for something else, such as cocoa butter.

    Each with whether that holds for ingredients only, and not for the food that a title names.
    """
    return _rows(
        "traditional_names.csv",
        lambda cells: (_form(cells["form"]), _is(cells["where"], "ingredient")),
        ("form",),
    )


def _rows(name: str, row_from: Callable[[dict[str, str]], R], key: tuple[str, ...]) -> tuple[R, ...]:
    """The rows of a table of this folder; one with a rule says whether that was read or is from memory."""

    def marked(cells: dict[str, str]) -> R:
        if cells.get("mark", "found") not in _MARKS:
            raise ValueError(f"mark is {cells['mark']!r}, neither found nor memory")
        return row_from(cells)

    return rows_from(name, (_HERE / name).read_text(encoding="utf-8"), marked, key, frozenset())


_PLACES = {
    "{list}": r"(?:any |all |the )?(?:[a-z-]+(?:,? (?:and|or|nor)|,) )*",
    "{suits}": r"(?:safe|suitable|suited|fit|fine|good|great|ideal|perfect) for "
    r"(?:(?!for\b)[a-z]+ ){0,4}?(?:an? |the )?",
}
"""Places in forms: for the other words of a list (`gluten and dairy`), and for whom a food is said to be."""


def _form(words: str, flags: re.RegexFlag = re.IGNORECASE) -> re.Pattern[str]:
    for place, form in _PLACES.items():
        words = words.replace(place, form)
    ends = ("" if words.startswith("^") else r"\b", "" if words.endswith("$") else r"\b")
    return re.compile(rf"{ends[0]}(?:{words}){ends[1]}", flags)


def _is(where: str, narrow: str) -> bool:
    if where not in ("all", narrow):
        raise ValueError(f"where is {where!r}, neither all nor {narrow}")
    return where == narrow


def _known(claim: str) -> str:
    if claim not in (*CLAIMS, *NOT_TO_CLAIM):
        raise ValueError(f"there is no claim {claim!r}")
    return claim


def _rule_from(cells: dict[str, str]) -> ClaimRule:
    return ClaimRule(
        claim=_known(cells["claim"]),
        market=cells["market"],
        test=cells["test"],
        figure=cells["figure"],
        limit=cells["limit"],
        per=cells["per"],
        rule=cells["rule"],
    )


def _words_from(cells: dict[str, str]) -> ClaimWords:
    form, front_only = _form(cells["form"]), _is(cells["where"], "front")
    return ClaimWords(claim=_known(cells["claim"]), form=form, front_only=front_only)


def _name_rule_from(cells: dict[str, str]) -> NameRule:
    at_least, at_most = (None if cells[end] == "-" else float(cells[end]) for end in ("at_least", "at_most"))
    if at_least is None and at_most is None:
        raise ValueError("a name needs a limit")
    return NameRule(
        name=cells["name"],
        market=cells["market"],
        component=cells["component"],
        at_least=at_least,
        at_most=at_most,
        rule=cells["rule"],
    )
