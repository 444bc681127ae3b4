"""What a batch is for, as the drawing of a recipe without a picture shows it beside that of its family."""

_SMALL_CAKES = ("cupcake", "muffin")
_PIPED = ("piped", "piping", "swirl", "rosette")
_OTHERS = (("slice", "slice"), ("layer", "layers"), ("tier", "cake"), ("cake", "cake"))
"""Words of the yield, the first that fits, and the drawing."""


def made_for(yields_of: str) -> str:
    """The name of the drawing, of those in components/drawing, by the words of the yield.

    >>> made_for("cupcakes, piped"), made_for("slices of a 20 cm cake, filled and coated"), made_for("eclairs")
    ('cupcake, piped', 'slice', 'bowl')
    """
    words = yields_of.lower()
    if any(word in words for word in _SMALL_CAKES):
        return "cupcake, piped" if any(word in words for word in _PIPED) else "cupcake"
    return next((drawing for word, drawing in _OTHERS if word in words), "bowl")
