"""Whether the constraint solver is installed."""

from importlib.util import find_spec

REMEDY = "install it beside Crumbcoat: `pip install 'crumbcoat[planner]'`, or ortools by itself"


def is_installed() -> bool:
    """Whether ortools can be imported."""
    return find_spec("ortools") is not None
