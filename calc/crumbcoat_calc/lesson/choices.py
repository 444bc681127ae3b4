"""Questions with several answers to choose from."""

from collections.abc import Sequence

from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.exercise import Exercise

LETTERS = "abcd"
MOST_CHOICES = len(LETTERS)


def to_choose(draws: Draws, topic: str, question: str, right: str, wrong: Sequence[str], *working: str) -> Exercise:
    """A question with the right answer among up to three wrong ones, in a drawn order.

    Args:
        wrong: answers that are surely wrong, at least one; those equal to the right one are left out.
    """
    others = list(dict.fromkeys([one for one in wrong if one != right]))
    listed = draws.some_of([right, *draws.some_of(others, MOST_CHOICES - 1)], MOST_CHOICES)
    return in_order(topic, question, right, listed, *working)


def in_order(topic: str, question: str, right: str, listed: Sequence[str], *working: str) -> Exercise:
    """A question whose answers come in this order."""
    letter = LETTERS[list(listed).index(right)]
    return Exercise(topic=topic, question=question, choices=tuple(listed), working=working, answer=f"{letter}) {right}")
