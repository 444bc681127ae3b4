"""The templates of this plugin: they show, they do not compute."""

from functools import cache
from pathlib import Path

from crumbcoat_calc.values.display import celsius_text, duration_text
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

_TEMPLATES = Path(__file__).parents[1] / "templates"


@cache
def environment() -> Environment:
    """The templates of this plugin: they show, they do not compute."""
    made = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=_in_one_line,
    )
    made.filters |= {
        "celsius": celsius_text,
        "duration": duration_text,
        "words": lambda key: key.replace("_", " ").replace("-", " "),
        "svg": Markup,  # only for pictures that calc drew: it escapes every text in them
    }
    return made


def _in_one_line(value: object) -> object:
    """No text of a recipe begins a line, where Markdown would read a heading."""
    return value.replace("\n", " ") if isinstance(value, str) and "\n" in value else value
