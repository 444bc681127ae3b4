"""Outside data -> the family of a recipe; a word that is none of them is answered with those that it may mean."""

import difflib
import re

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_calc.values.fields import one_of, text

_WHAT_IT_IS = {
    "emulsified milk frosting": "butter beaten into thickened milk",
    "meringue buttercream": "butter beaten into Swiss or Italian meringue",
    "egg-yolk buttercream": "butter beaten into yolks with hot syrup; French buttercream",
    "custard buttercream": "butter beaten with custard; German buttercream, mousseline",
    "cooked-flour buttercream": "butter beaten with milk cooked with flour; ermine, boiled-milk frosting",
    "condensed-milk buttercream": "butter beaten with sweetened condensed milk; Russian buttercream",
    "sugar-and-butter frosting": "butter beaten with icing sugar; American buttercream",
    "cream-cheese frosting": "cream cheese and sugar, with or without butter",
    "whipped cream": "cream whipped with sugar; Chantilly",
    "ganache": "chocolate and cream",
    "curd or custard filling": "lemon curd, pastry cream",
    "glaze or icing": "sugar and water, juice or egg white; royal or glacé icing",
    "other": "anything else",
}
"""What each family is, and what else people call it (common practice, no source)."""

_LIKE_ENOUGH = 0.9
"""How like a family a word must be, by difflib, to be a slip of it (our judgement, no source)."""

_SMALL_WORDS = frozenset(("with", "into", "beaten", "without", "butter", "anything", "else"))


def family_from(value: object) -> str:
    """Read a family.

    Raises:
        InputError: if it is none of them, with those whose names it shares a word with, or else all.

    >>> family_from("ganache")
    'ganache'
    """
    try:
        return one_of(*FAMILIES)(value)
    except InputError as error:
        near = _near(text(value))
        listed = "; ".join([f"`{family}` ({_WHAT_IT_IS[family]})" for family in near or FAMILIES])
        others = ", ".join([family for family in FAMILIES if family not in near])
        remedy = f"did you mean {listed}? The others: {others}" if len(near) == 1 else f"write one of: {listed}"
        raise InputError(error.problem, f"{remedy}. The others: {others}" if len(near) > 1 else remedy) from None


def _near(written: str) -> list[str]:
    """The family of which this is a slip; else those that share a word with it in their names or in what they are."""
    slips = difflib.get_close_matches(written.lower(), FAMILIES, n=1, cutoff=_LIKE_ENOUGH)
    if slips:
        return slips
    words = _words(written)
    shared = [family for family in FAMILIES if words & _words(family)]
    also = [family for family in FAMILIES if words & _words(_WHAT_IT_IS[family]) and family not in shared]
    return [*shared, *also]


def _words(written: str) -> set[str]:
    return set(re.findall(r"\w{4,}", written.lower())) - _SMALL_WORDS
