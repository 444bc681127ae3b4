"""What readers asked about a recipe."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What readers asked about the recipe, and the author's answer."""

    question: str
    answer: str
