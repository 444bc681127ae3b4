"""The family of a frosting by the words of a page."""

import re

_WORDS = (
    ("ganache", r"ganache"),
    ("cream-cheese frosting", r"cream[- ]cheese|soft cheese"),
    ("meringue buttercream", r"(?:swiss|italian) (?:meringue|buttercream)|meringue buttercream"),
    ("egg-yolk buttercream", r"french buttercream|egg[- ]yolk buttercream|pâte à bombe"),
    ("custard buttercream", r"german buttercream|custard buttercream|mousseline"),
    ("cooked-flour buttercream", r"ermine|(?:cooked|boiled)[- ](?:flour|milk)|flour (?:frosting|buttercream)"),
    ("condensed-milk buttercream", r"russian buttercream|condensed[- ]milk (?:buttercream|frosting)"),
    ("curd or custard filling", r"\bcurd\b|pastry cream|crème pâtissière|custard"),
    ("whipped cream", r"whipped cream|chantilly"),
    ("glaze or icing", r"\bglaze\b|royal icing|glacé icing|\bicing\b"),
    ("sugar-and-butter frosting", r"american buttercream|buttercream|butter ?cream|butter frosting"),
)
_PATTERNS = tuple([(family, re.compile(pattern, re.IGNORECASE)) for family, pattern in _WORDS])
OTHER = "other"


def family_of(*texts: str) -> str:
    """The family that the first of these texts names; `other` if none does.

    >>> family_of("Loft cream", "Swiss meringue buttercream"), family_of("Lemon drizzle cake")
    ('meringue buttercream', 'other')
    """
    for text in texts:
        for family, pattern in _PATTERNS:
            if pattern.search(text):
                return family
    return OTHER
