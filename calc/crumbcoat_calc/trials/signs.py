"""A sign for what a trial did: a shape of its own for each word, so that none needs a colour."""

from crumbcoat_calc.pictures.drawing import XMLNS, element, number
from crumbcoat_calc.trials.model import OUTCOMES

NOT_SAID = "not said"

SHAPES = {
    "held": "M-5.5 0a5.5 5.5 0 1 0 11 0a5.5 5.5 0 1 0 -11 0Z",
    "too soft": "M-6.5 3.5a6.5 6.5 0 0 1 13 0Z",
    "too stiff": "M-5 -5h10v10h-10Z",
    "slumped": "M-6.5 -4.5h13L0 6.5Z",
    "wept": "M0 -7.5C4 -2 5.2 0 5.2 2.3a5.2 5.2 0 0 1 -10.4 0C-5.2 0 -4 -2 0 -7.5Z",
    "split": "M-6 -3.8L-3.8 -6L0 -2.2L3.8 -6L6 -3.8L2.2 0L6 3.8L3.8 6L0 2.2L-3.8 6L-6 3.8L-2.2 0Z",
    "grainy": "M0 -7L2 -2L7 0L2 2L0 7L-2 2L-7 0L-2 -2Z",
    "cracked": "M-6 6L-2 -6L0 -1L3 -5L6 6L2 1L0 5L-2 1Z",
    NOT_SAID: "M-4.5 0a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0 -9 0ZM-3 0a3 3 0 1 1 6 0a3 3 0 1 1 -6 0Z",
}
"""The outline of each, around a point."""

assert {*OUTCOMES, NOT_SAID} == SHAPES.keys()


def sign(did: str | None, x: float = 0.0, y: float = 0.0) -> str:
    """The sign as part of a picture, around a point."""
    word = did or NOT_SAID
    kind = "cc-sign-held" if word == "held" else "cc-sign-open" if word == NOT_SAID else "cc-sign-other"
    place = {"transform": f"translate({number(x)} {number(y)})"} if x or y else {}
    return element("path", d=SHAPES[word], class_=f"cc-sign {kind}", **place)


def sign_alone(did: str | None) -> str:
    """The sign as a small picture in a line of text, beside its word."""
    return element("svg", sign(did), xmlns=XMLNS, class_="cc-sign-alone", viewBox="-8 -8 16 16", aria_hidden="true")


def sign_key(words: list[str]) -> list[tuple[str, str]]:
    """The signs that are used, with their words, those of a table of outcomes in its order."""
    used = [word for word in (*OUTCOMES, NOT_SAID) if word in words]
    return [(sign_alone(None if word == NOT_SAID else word), word) for word in used]
