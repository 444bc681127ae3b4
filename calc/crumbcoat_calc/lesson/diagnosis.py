"""Spoiled batches to diagnose: signs at the checkpoints of recipes, and remedies to choose among."""

import re
from collections.abc import Sequence

from crumbcoat_calc.lesson.choices import to_choose
from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.exercise import Exercise
from crumbcoat_calc.recipe.model import Recipe, Trouble
from crumbcoat_calc.values.marks import plain_text

_MOST, _FEWEST_WRONG = 3, 1

_CAUSES = re.compile(
    r"\b(?:too|a|was|were|while|when|still|usually a)\s+(?:\w+ or \w+ )?(?:too )?(?:warm|cold|cool|hot)(?:er)?\b",
    re.IGNORECASE,
)
"""What a remedy says of the cause, which is not an action."""

_ACTIONS = {
    "cool": r"refrigerat|\bchill|\bcool|\bice\b|freez|cold pack",
    "warm": r"\bwarm|\bheat|\bboil|\bhot\b|steam|melt",
    "sieve": r"siev|strain|\bblend|\bpress\b|skim|wash",
    "thin": r"\bmilk\b|\bwater\b(?! bath)|\bcream\b|drink|spoonful|teaspoon",
    "again": r"begin again|next time|new one|use (?:it|this)|start again",
    "stir": r"\bstir|by hand|spatula|low\b",
}
"""What remedies do, by words: two that share an action could both be right (common practice, no source)."""

_PIECES_IN_IT = re.compile(r"lump|fleck|thread|grain|piece|crystal|gritty|curd|jelly|flake", re.IGNORECASE)
"""Signs that a sieve might help with, so that it is not offered as a wrong answer."""

_RAW_EGG = re.compile(r"\b(?:egg|yolk|white)s?\b", re.IGNORECASE)
_ADDS = re.compile(r"\b(?:add|(?:beat|stir|whisk|fold|mix) in)\b", re.IGNORECASE)
_KEEPS_WARM = re.compile(r"\b(?:keep|leave|let|hold)\b.*\b(?:warm|room temperature|out)\b", re.IGNORECASE)
_WARM = re.compile(r"\b(?:warm|hot|room temperature|oven|out)\b", re.IGNORECASE)
_COLD = re.compile(r"refrigerat|freez|chill|\bice\b", re.IGNORECASE)
_LONG = re.compile(r"\b(?:\d+(?:\.\d+)?|an?|two|three|four|several|half an)\s*(?:h|hours?)\b|overnight", re.IGNORECASE)
_MINUTES = re.compile(r"(\d+)\s*min|\b(fifteen|twenty|thirty|forty|fifty|sixty|ninety)\s+min", re.IGNORECASE)
_PIECES = re.compile(r"(?<=[.;:])\s|,? then\b")
_MOST_WARM_MIN = 10
"""Longer than this, nothing is kept warm in a remedy that is printed (our choice; no determination of safety)."""


def diagnoses(recipes: Sequence[Recipe], seed: str) -> list[Exercise]:
    """Up to three signs, each with remedies of the same recipe to choose among.

    A wrong answer is the remedy of another trouble, and does nothing that the right one does. Remedies that a class
    should not try (`is_safe`) are neither asked for nor offered.
    """
    draws = Draws(f"{seed}/diagnosis")
    found = []
    for recipe in recipes:
        listed = _troubles(recipe)
        for place, trouble in listed:
            wrong = [plain_text(other.remedy) for _, other in listed if not _alike(trouble, other)]
            if len(wrong) >= _FEWEST_WRONG:
                found.append((recipe, place, trouble, wrong))
    chosen = draws.some_of(found, _MOST)
    return [
        to_choose(
            draws,
            f"{recipe.title}, step {place}",
            f"{recipe.title}, step {place}: “{plain_text(trouble.sign)}” What do you do?",
            plain_text(trouble.remedy),
            wrong,
        )
        for recipe, place, trouble, wrong in chosen
    ]


def is_safe(recipe: Recipe, trouble: Trouble) -> bool:
    """Whether a remedy neither keeps food warm for long nor adds egg, as far as its words and what it adds show.

    In doubt it does. This is about what a worksheet prints; it does not determine safety.
    """
    kinds = {ingredient.key: ingredient.food.group for ingredient in recipe.ingredients}
    if any(kinds.get(use.what) == "egg" for use in trouble.adds):
        return False
    return not any(_is_risky(piece) for piece in _PIECES.split(plain_text(trouble.remedy)))


def _is_risky(piece: str) -> bool:
    """Whether a part of a remedy adds egg, or keeps something warm for long."""
    if (_ADDS.search(piece) and _RAW_EGG.search(piece)) or _KEEPS_WARM.search(piece):
        return True
    minutes = max((int(number or _MOST_WARM_MIN + 1) for number, _ in _MINUTES.findall(piece)), default=0)
    takes_long = minutes > _MOST_WARM_MIN or bool(_LONG.search(piece))
    return takes_long and (not _COLD.search(piece) or bool(_WARM.search(piece)))


def _troubles(recipe: Recipe) -> list[tuple[str, Trouble]]:
    return [
        (f"{stage_number}.{number}", trouble)
        for stage_number, stage in enumerate(recipe.stages, 1)
        for number, step in enumerate(stage.steps, 1)
        if step.checkpoint
        for trouble in step.checkpoint.troubles
        if is_safe(recipe, trouble)
    ]


def _alike(one: Trouble, other: Trouble) -> bool:
    """Whether both could be right, as far as their words show; in doubt, yes."""
    does, also = actions(one), actions(other)
    might_help = "sieve" in also and bool(_PIECES_IN_IT.search(one.sign))
    return not (does and also) or bool(does & also) or might_help


def actions(trouble: Trouble) -> frozenset[str]:
    """What a remedy does, of `_ACTIONS`; what it says of the cause does not count."""
    remedy = _CAUSES.sub("", plain_text(trouble.remedy))
    return frozenset([action for action, words in _ACTIONS.items() if re.search(words, remedy, re.IGNORECASE)])
