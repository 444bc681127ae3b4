"""The templates of this plugin, component by component: they show, they do not compute."""

from functools import cache

from crumbcoat_calc.values.display import celsius_text, date_text, duration_text
from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from crumbcoat_site.recipe_cards.build.assets import COMPONENTS
from crumbcoat_site.recipe_cards.build.prose import prose, prose_elsewhere, prose_unlinked


@cache
def environment() -> Environment:
    """The templates of all components, which know `component`: the way from one to another."""
    made = Environment(
        loader=FileSystemLoader(COMPONENTS),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=_in_one_line,
    )
    made.filters |= {
        "celsius": celsius_text,
        "date": date_text,
        "duration": duration_text,
        "words": lambda key: key.replace("_", " ").replace("-", " "),
        "prose": prose,
        "prose_elsewhere": prose_elsewhere,
        "prose_unlinked": prose_unlinked,
        "svg": Markup,  # only for pictures that calc drew: it escapes every text in them
    }
    made.globals["component"] = component
    return made


def component(name: str, /, **shown: object) -> Markup:
    """The HTML of a component with what it shows; nothing where its folder is gone.

    Args:
        name: of its folder, which has a template of that name (`checkpoint`), or of another one in it (`cake/tiers`).
    """
    template = _template(name)
    return Markup(template.render(shown).strip() if template else "")


@cache
def _template(name: str) -> Template | None:
    folder, _, part = name.partition("/")
    if not (COMPONENTS / folder).is_dir():
        return None
    return environment().get_template(f"{folder}/{part or folder}.jinja")


def _in_one_line(value: object) -> object:
    """No text of a recipe begins a line, where Markdown would read a heading."""
    return value.replace("\n", " ") if isinstance(value, str) and "\n" in value else value
