"""Texts on allergies in the room: what brings them, what can go in instead, and who decides."""

from collections.abc import Sequence

from crumbcoat_calc.foods.allergens import regimes
from crumbcoat_calc.label.legal_names import MARKETS
from crumbcoat_calc.lesson.allergies import Bringer, InRoom, in_room
from crumbcoat_calc.lesson.lesson import WITHOUT, Lesson
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import list_text
from crumbcoat_calc.values.region import words_in

_DECIDES = (
    "Ask students and their parents or guardians before you plan, and follow your school's rules. The table says what "
    "ingredients hold by their nature, and what the recipe states of them; the list on each pack decides. Nothing here "
    "says that a food is safe for someone."
)
_APART = (
    "It is best if all groups make it so: then nothing has to be kept apart. If only one group does, give it a place "
    "and tools of its own, washed first and used for nothing else; label its bowls and what it makes "
    "(common practice, no source)."
)


def allergy_texts(recipes: Sequence[Recipe], lesson: Lesson, region: str) -> Texts:
    """Rows of `allergens.room`: recipe, what brings an allergen, what instead, what is not known.

    `allergens.law`: what the law of the region lists; `allergens.decides`, `allergens.apart`, `allergens.made`: empty
    without allergies in the room.
    """
    law = regimes()[MARKETS[region]]
    listed = f"{'US' if MARKETS[region] == 'US' else region} law lists {list_text(words_in(region, list(law)))}."
    texts: Texts = {
        "allergens.room": [],
        "allergens.law": listed,
        "allergens.decides": "",
        "allergens.apart": "",
        "allergens.made": "",
    }
    if not lesson.allergies:
        return texts
    found = [in_room(recipe, lesson.allergies) for recipe in recipes]
    return texts | {
        "allergens.room": [
            words_in(region, _row(recipe, one, lesson)) for recipe, one in zip(recipes, found, strict=True)
        ],
        "allergens.decides": f"In the room: {words_in(region, list_text(lesson.allergies))}. {_DECIDES}",
        "allergens.apart": _APART,
        "allergens.made": " ".join(_made(recipe, one, lesson) for recipe, one in zip(recipes, found, strict=True)),
    }


def _row(recipe: Recipe, found: InRoom, lesson: Lesson) -> list[str]:
    brings = [f"{one.name} ({list_text(one.words)})" for one in found.bringers]
    instead = [_instead(one) for one in found.bringers]
    gaps = []
    if found.unknown:
        gaps.append(f"not known of {list_text(found.unknown)}")
    if found.by_accident:
        gaps.append(f"the recipe says that {list_text(found.by_accident)} may get in")
    none = "none of its ingredients by its nature, as far as is known"
    return [recipe.title, list_text(brings) or none, "; ".join(instead), "; ".join(gaps)]


def _instead(one: Bringer) -> str:
    """What the recipe itself has instead of an ingredient; what a pack has to show is said."""
    if one.instead:
        return f"{one.instead[1]} instead of {one.name}: check its pack"
    out = f"leave out {one.name}, it is optional"
    if not one.optional:
        out = f"for {one.name} the recipe has no replacement that is known to be without it"
    return f"{out}; of {list_text(one.doubtful)} that is not known" if one.doubtful else out


def _made(recipe: Recipe, found: InRoom, lesson: Lesson) -> str:
    """Whether the groups that are to make a recipe without the allergens can, by the recipe's own replacements."""
    if not found.bringers or lesson.without == WITHOUT[0]:
        return ""
    if not found.is_avoidable:
        held = dict.fromkeys(word for one in found.bringers if not one.is_avoidable for word in one.words)
        return (
            f"{recipe.title} cannot be made without {list_text(list(held), 'or')} by its own replacements, so "
            "its sheets are as published: choose another recipe for someone who has to avoid that."
        )
    who = "all groups" if lesson.without == WITHOUT[1] else f"group {lesson.apart or lesson.groups}"
    return f"The sheets of {recipe.title} for {who} are made with these changes."
