"""Whether the library for statistics is installed."""

from importlib.util import find_spec

REMEDY = "install it beside Crumbcoat: `pip install 'crumbcoat[statistics]'`, or scipy by itself"


def is_installed() -> bool:
    """Whether scipy can be imported."""
    return find_spec("scipy") is not None
