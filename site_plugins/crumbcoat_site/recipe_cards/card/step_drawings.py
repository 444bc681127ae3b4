"""The drawing that takes the place of a step's picture until there is one."""

from crumbcoat_calc.recipe.model import Step

_DRAWING_OF = (
    ("blender", "blender"),
    ("saucepan", "pan"),
    ("refrigerator", "shelf"),
    ("tray", "shelf"),
    ("dish", "shelf"),
    ("spoon", "spoon"),
    ("spatula", "spoon"),
    ("ribbon", "spoon"),
    ("peak", "peaks"),
    ("butter", "block"),
    ("piping", "bag"),
    ("mixer", "mixer"),
)
"""Words of a step's tool and picture, the first that fits, and the drawing in components/drawing."""


def drawing_of(step: Step) -> str:
    """The name of the drawing that fits the step's tool or what its picture must show."""
    words = f"{step.tool or ''} {' '.join([photo.shows or '' for photo in step.photos])}".lower()
    return next((drawing for word, drawing in _DRAWING_OF if word in words), "bowl")
