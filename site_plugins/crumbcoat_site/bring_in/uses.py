"""Which step adds which ingredient, found by the names in its words; and the portions of what is divided."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from crumbcoat_calc.foods.names import one_form
from crumbcoat_calc.foods.table import other_names

from crumbcoat_site.bring_in.amounts import MASSES, VOLUMES, Amount, read_amount, with_plain_signs

_GROUPS = re.compile(
    r"\b(?P<what>dry|wet|all(?: of)?(?: the)?|remaining|other|frosting|icing|filling) ingredients\b|\beverything\b",
    re.IGNORECASE,
)
_MADE = frozenset((
    "mixture", "cream", "buttercream", "paste", "mix", "bowl", "paper", "frosting", "syrup", "bath", "base",
))  # fmt: skip
"""After the name of an ingredient these words mean what was made of it."""

_LOOSE = _MADE - {"cream"}
"""Of an ingredient that is called so, these words alone may as well mean what was made in an earlier step."""

_HALF = {
    "half": 0.5,
    "a third": 1 / 3,
    "one third": 1 / 3,
    "a quarter": 0.25,
    "two thirds": 2 / 3,
    "three quarters": 0.75,
}
_SHARE = re.compile(rf"\b({'|'.join(_HALF)})\s+(?:of\s+)?(?:the\s+)?(?:[a-z-]+\s+)?$", re.IGNORECASE)
_AMOUNT = re.compile(r"(?:^|\s|\()(\d[\d./ ]*\s?[A-Za-z]+\.?)\s+(?:of\s+)?(?:the\s+)?(?:[a-z-]+\s+)?$")
_HOW = frozenset((
    "whole", "unsalted", "salted", "fine", "dark", "light", "white", "heavy", "double", "single", "plain", "full",
    "fat", "large", "small", "instant", "powdered", "ground", "pure", "extra", "soft", "cold", "hot", "sweetened",
))  # fmt: skip
"""Words that say how something is, by which no step means it."""

_LEFT_OUT = re.compile(r"\b(?:but|except(?: for)?|without|apart from|other than)\s+(?:the\s+|any\s+)?$", re.IGNORECASE)
"""Before a name these words say that it does not go in: `everything but the eggs`."""

_BETWEEN = re.compile(r"[,;:.]")
"""Between two words these signs say that they belong to two names: `the eggs, yolk and sugar`."""

_OVER = re.compile(r"\b(?:over|above)\s+(?:[\w-]+\s+){0,5}$", re.IGNORECASE)
"""Before `water` these words mean that of a bath."""

_REST = re.compile(
    r"\b(?:remaining|rest of|reserved|other half of|small portion of|first|second)\s+(?:the\s+)?(?:[a-z-]+\s+)?$"
)
_DRY = ("flour", "sugar", "cocoa", "powder", "salt", "soda", "starch", "cornflour", "cinnamon", "spice")


@dataclass(frozen=True, slots=True)
class Named:
    """An ingredient as steps may name it: its key, the name of its line, and its kind."""

    key: str
    name: str
    kind: str
    is_divided: bool = False
    heading: str = ""


@dataclass(slots=True)
class Uses:
    """`adds`: the keys by step; `doubtful`: why the step of a key is a guess; `mentions`: where steps name each key.

    Steps are counted through all stages, from 0. A mention is the step and what is written before the name.
    """

    adds: dict[int, list[str]] = field(default_factory=dict)
    doubtful: dict[str, str] = field(default_factory=dict)
    mentions: dict[str, list[tuple[int, str]]] = field(default_factory=dict)


def uses_of(ingredients: Sequence[Named], steps: Sequence[str], titles: Sequence[str]) -> Uses:
    """Find the step that adds each ingredient: the first one that names it.

    Args:
        steps: the words of all steps.
        titles: the heading of the section of each step.
    """
    uses = Uses()
    taken: list[set[int]] = [set() for _ in steps]
    words = [_words(step) for step in steps]
    by_length = sorted(
        ((phrase, one) for one in ingredients for phrase in _phrases(one)), key=lambda pair: -len(pair[0])
    )
    for phrase, one in by_length:
        _note(uses, one.key, phrase, words, steps, taken)
    named = set(uses.mentions)
    for one in ingredients:
        for word in _single_words(one, ingredients, named) if one.key not in named else ():
            _note(uses, one.key, (word,), words, steps, [set(places) for places in taken])
            if one.key in uses.mentions:
                if word in _LOOSE:
                    uses.doubtful[one.key] = f"the words say only {word!r}, which may be something made before"
                break
    for one in ingredients:
        uses.mentions.get(one.key, []).sort(key=lambda mention: mention[0])
        if one.key in uses.mentions:
            place = uses.mentions[one.key][0][0]
        else:
            place, uses.doubtful[one.key] = _by_group(one, steps, titles)
        uses.adds.setdefault(place, []).append(one.key)
    return uses


def _phrases(one: Named) -> list[tuple[str, ...]]:
    """What a step may call it: its name, and the names that its kind has."""
    names = [one.name, one.name.partition(" or ")[0], *[other.name for other in other_names().get(one.kind, ())]]
    found = [tuple([word for word, _ in _words(name.partition(",")[0])]) for name in names]
    found += [phrase[1:] for phrase in found if len(phrase) > 2]
    return [phrase for phrase in dict.fromkeys(found) if phrase and (len(phrase) > 1 or phrase[0] == _head(one))]


def _single_words(one: Named, ingredients: Sequence[Named], named: set[str]) -> list[str]:
    """Words by which steps may mean it: the last one of its name, and others that no other ingredient has.

    The last word may be that of others which no step names by more: `both powders` are all of them.
    """
    own = [word for word, _ in _words(one.name.partition(",")[0].partition(" or ")[0].partition("(")[0])]
    others = [other for other in ingredients if other.key != one.key]
    theirs = {word for other in others for word, _ in _words(other.name)}
    is_free = all(other.key not in named for other in others if _head(other) == _head(one))
    return [*own[-1:]] * is_free + [word for word in own[:-1] if word not in theirs and word not in _HOW]


def _head(one: Named) -> str:
    words = _words(one.name.partition(",")[0].partition(" or ")[0].partition("(")[0])
    return words[-1][0] if words else ""


def _note(
    uses: Uses,
    key: str,
    phrase: tuple[str, ...],
    words: Sequence[Sequence[tuple[str, int]]],
    steps: Sequence[str],
    taken: list[set[int]],
) -> None:
    """Note where a phrase is in the steps; a word that a longer name has is not free any more."""
    if not phrase or not phrase[0]:
        return
    for place, step in enumerate(words):
        for start in range(len(step) - len(phrase) + 1):
            span = range(start, start + len(phrase))
            after = step[start + len(phrase)][0] if start + len(phrase) < len(step) else ""
            is_one_name = not _BETWEEN.search(steps[place], step[start][1], step[span[-1]][1])
            if tuple([step[at][0] for at in span]) == phrase and is_one_name and not taken[place] & set(span):
                taken[place] |= set(span)
                before = steps[place][: step[start][1]]
                is_bath = phrase[-1] == "water" and _OVER.search(before)
                if after not in _MADE and not _LEFT_OUT.search(before) and not is_bath:
                    uses.mentions.setdefault(key, []).append((place, before))


def _words(text: str) -> list[tuple[str, int]]:
    """The words of a text in one form, each with where it begins."""
    return [
        (one_form(found[0].lower().replace("’", "").replace("'", "")), found.start())
        for found in re.finditer(r"[^\W\d_]+(?:['’][a-z]+)?", text)
    ]


def _by_group(one: Named, steps: Sequence[str], titles: Sequence[str]) -> tuple[int, str]:
    """The step for what no step names, and why: by `the dry ingredients`, by its heading, or else the first one."""
    for place, step in enumerate(steps):
        found = _GROUPS.search(step)
        what = (found["what"] or "all").lower() if found else ""
        is_dry = any(word in one.name.lower() for word in _DRY)
        if found and (what == "dry") <= is_dry and (what == "wet") <= (not is_dry):
            return place, f"no step names it; is it among {found[0]!r}?"
    heading = set(_plain_words(one.heading))
    by_heading = next(
        (place for place, title in enumerate(titles) if heading and heading & set(_plain_words(title))), 0
    )
    return by_heading, "no step names it: move it to where it goes in"


def _plain_words(text: str) -> list[str]:
    return [word for word, _ in _words(text) if word not in ("for", "the", "make", "to", "ingredient", "and", "a")]


@dataclass(frozen=True, slots=True)
class Portion:
    """A part of an ingredient that is divided: the step that adds it, and how much the words say, if they do.

    `share` is a part of the whole; both are None for the rest, which `is_rest` where the words say so.
    """

    step: int
    amount: Amount | None = None
    share: float | None = None
    is_rest: bool = False


def portions_of(key: str, uses: Uses) -> list[Portion]:
    """The portions of an ingredient that several steps name; fewer than two are none."""
    first: dict[int, str] = {}
    for place, before in uses.mentions.get(key, []):
        first.setdefault(place, before)
    portions = [_portion(place, before) for place, before in first.items()]
    return portions if len(portions) > 1 else []


def _portion(step: int, before: str) -> Portion:
    shown = with_plain_signs(before)
    shown = f"{shown} " if before.endswith(" ") else shown
    share = _SHARE.search(shown)
    if share:
        return Portion(step, share=_HALF[share[1].lower()])
    written = _AMOUNT.search(shown)
    found = read_amount(written[1]) if written else None
    if found and found[0].high is None and found[0].units <= MASSES | VOLUMES | {"stick"}:
        return Portion(step, amount=found[0])
    return Portion(step, is_rest=bool(_REST.search(shown)))
