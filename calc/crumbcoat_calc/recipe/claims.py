"""What an author claims of a food and answers for; the law defines some of it."""

from dataclasses import dataclass

CLAIMS = (
    "calorie-free", "low calorie", "reduced calorie", "fat-free", "low fat", "reduced fat", "light",
    "low saturated fat", "cholesterol-free", "sugar-free", "low sugar", "no added sugar", "reduced sugar", "salt-free",
    "low salt", "reduced salt", "no added salt", "source of fibre", "high fibre", "source of protein", "high protein",
    "source of", "high in", "source of calcium", "high calcium", "source of iron", "high iron", "source of potassium",
    "high potassium", "healthy", "diet", "organic", "allergen-free", "gluten-free", "lactose-free", "milk-free",
    "egg-free", "nut-free", "vegan", "vegetarian",
)  # fmt: skip
"""What an author may claim of a food; some of it the law defines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """What the author claims of the food, a word of CLAIMS, and on which ground, such as an analysis."""

    claim: str
    ground: str
