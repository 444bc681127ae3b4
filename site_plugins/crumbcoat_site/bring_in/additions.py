"""What the words of a step say goes in there in several parts, and what they say goes in once more."""

import re
from collections.abc import Iterable, Mapping

_BREAK = re.compile(r"[.;!?]\s|\bthen\b", re.IGNORECASE)
_VERB = re.compile(
    r"\b(?:add|beat|blend|drizzle|drop|fold|incorporate|mix|pour|sift|spoon|sprinkle|stir|tip|trickle|whip|whisk|work)"
    r"(?:s|ing)?\b",
    re.IGNORECASE,
)
_PUTS_IN = re.compile(
    r"(?:add|drizzl|drop|incorporat|sift|spoon|sprinkl|trickl)\w*\b|"
    r"(?:beat|blend|fold|mix|pour|stir|tip|whip|whisk|work)\w*(?: \w+ly)? in\b",
    re.IGNORECASE,
)
_INTO = re.compile(r"\b(?:to|into|onto|over|on)\s(?:[\w-]+\s){0,2}$", re.IGNORECASE)
_MORE = re.compile(r",|&|\b(?:and|with)\b", re.IGNORECASE)
_END = re.compile(r"[.;,!?]|\b(?:and|then|with)\b", re.IGNORECASE)

Named = Mapping[str, Iterable[int]]
"""Where the words of a step name each ingredient, by its key."""


def goes_in_parts(text: str, start: int, end: int, named: Named) -> str:
    """The one ingredient that `in three additions` is about; empty where the words leave that open.

    It is the only one of its clause, before those words, or after them where they come first.

    Args:
        start: where these words begin in the text, and `end` where they end.

    >>> text = "Add the honey in 3 additions, then the milk."
    >>> goes_in_parts(text, 14, 28, {"honey": [8], "milk": [39]})
    'honey'
    >>> goes_in_parts("Add the sugar and milk in 3 additions.", 23, 37, {"sugar": [8], "milk": [18]})
    ''
    """
    begin = _clause(text, start)
    before = text[begin:start]
    if before.strip():
        keys = {key for key, places in named.items() for at in places if begin <= at < start and _is_put(text, at)}
        return keys.pop() if len(keys) == 1 and not _MORE.search(before) else ""
    rest = text[end:].lstrip(" ,")
    offset = len(text) - len(rest)
    stop = _END.search(rest)
    last = offset + (stop.start() if stop else len(rest))
    keys = {key for key, places in named.items() for at in places if offset <= at < last and _is_put(text, at)}
    return keys.pop() if len(keys) == 1 else ""


def puts_in(text: str, place: int) -> bool:
    """Whether the words before the name of an ingredient say that it goes in there.

    >>> puts_in("Gently fold in the milk.", 19), puts_in("Add sugar to the butter.", 17), puts_in("Beat the milk.", 9)
    (True, False, False)
    """
    return bool(_PUTS_IN.match(text, _clause(text, place))) and _is_put(text, place)


def _clause(text: str, end: int) -> int:
    """Where the clause begins that a place is in: at the last verb before it, or after the last sentence."""
    breaks = [found.end() for found in _BREAK.finditer(text, 0, end)]
    begin = breaks[-1] if breaks else 0
    verbs = [found.start() for found in _VERB.finditer(text, begin, end)]
    return verbs[-1] if verbs else begin


def _is_put(text: str, place: int) -> bool:
    """Whether what is named at a place is not what something else is put into."""
    return not _INTO.search(text[_clause(text, place) : place])
