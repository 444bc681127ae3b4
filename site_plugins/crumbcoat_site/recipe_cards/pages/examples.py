"""Each component by itself, filled from a sample recipe, and all of them on one page to look at.

python -m crumbcoat_site.recipe_cards.pages.examples build/components.html
"""

import sys
from collections.abc import Mapping, Sequence
from functools import cache
from importlib.resources import files
from pathlib import Path

from crumbcoat_calc.forms.context import published_from
from crumbcoat_calc.trials.page import page_of
from crumbcoat_calc.trials.protocols import PROTOCOLS
from crumbcoat_calc.trials.weigh_sheets import weigh_sheet_of
from markupsafe import Markup, escape

from crumbcoat_site.recipe_cards.build.assets import COMPONENTS, sheet
from crumbcoat_site.recipe_cards.build.environment import environment
from crumbcoat_site.recipe_cards.card.card import card_from
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.contrast.check import theme_sheets
from crumbcoat_site.recipe_cards.pages.form_html import form_html
from crumbcoat_site.recipe_cards.pages.recipe_options import RecipeOption
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.recipe_mark import recipe_mark
from crumbcoat_site.recipe_cards.source.trial_files import read_trials

SAMPLE = "sample"
"""The name of the sample recipe, which is in the folder of the components."""

_PRICES = "item,pack,price,currency,date,note\nsugar_powdered,1 kg,2.40,EUR,2026-01-19,\n"
_PARTS = ("shared", "card", "page", "handout", "bench", "notebook", "sheets")


def names() -> list[str]:
    """The names of all components."""
    return sorted(folder.name for folder in COMPONENTS.iterdir() if (folder / "example.jinja").is_file())


def example(name: str) -> Markup:
    """The example of a component."""
    template = environment().get_template(f"{name}/example.jinja")
    return Markup(template.render(_shown()).strip())


def page() -> str:
    """All examples on one page, in Material's own colours, light and dark; controls show as if Python were ready."""
    styles = [*theme_sheets([str(files("material") / "templates")]), sheet(*_PARTS)]
    shown = "".join([_in_both_schemes(name, example(name)) for name in names()])
    return "".join([_HEAD, *(f"<style>{style}</style>" for style in styles), _BODY, shown, "</body></html>\n"])


@cache
def _shown() -> Mapping[str, object]:
    file = RecipeFile(path=COMPONENTS / f"{SAMPLE}.yaml", name=SAMPLE, photos={})
    recipe, data = load_recipe(file.path, file.shown)
    shown, published = CardOptions("how-the-figures-are-made/", show_cost=True), published_from(data, recipe)
    card = card_from(published, file, _PRICES, shown, True)
    trial_card = card_from(published, file, _PRICES, shown._replace(trials=True), True)
    options = [RecipeOption(name=SAMPLE, title=recipe.title, card="card.json")]

    def form(calculator: str, recipes: int = 1) -> str:
        return form_html(calculator, [SAMPLE] * recipes, {SAMPLE: data}, options)

    trials = read_trials(file.path, data, {}, None).notebook.made
    notebook = page_of(card.batch, trials, recipe_mark(data), None, None, frozenset(["rosette.jpg"]))
    return {
        "card": card, "trial_card": trial_card, "recipe": recipe, "texts": card.texts, "form": form, "options": options,
        "notebook": notebook, "sheets": {"weigh": [weigh_sheet_of(trials[0])], "protocols": PROTOCOLS[:1]},
    }  # fmt: skip


def _in_both_schemes(name: str, shown: Markup) -> str:
    both = "".join(
        f'<div class="example" data-md-color-scheme="{scheme}" data-md-color-primary="indigo"'
        f' data-md-color-accent="indigo"><div class="md-typeset"><div class="cc-card">{shown}</div></div></div>'
        for scheme in ("default", "slate")
    )
    return f"<h2>{escape(name.replace('_', ' '))}</h2><div class='both'>{both}</div>"


_HEAD = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Components</title>"""
_BODY = """<style>
body { display: block; margin: 1rem; font: .8rem/1.6 system-ui, sans-serif; }
.both { display: grid; grid-template-columns: 1fr 1fr; gap: 1rem; }
.example { contain: layout paint; overflow: auto; max-height: 40rem; min-height: 3rem; padding: 1rem;
  background: var(--md-default-bg-color); color: var(--md-default-fg-color); border: .05rem solid #888; }
</style>
<script>
for (const name of ["calculator", "reader"]) customElements.define(`recipe-${name}`, class extends HTMLElement {});
</script></head><body dir="ltr"><h1>Components</h1>
"""


def main(arguments: Sequence[str]) -> None:
    """The command: writes the page into the file that is named."""
    place = Path(*arguments or ("build/components.html",))
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(page(), encoding="utf-8")
    print(place)


if __name__ == "__main__":
    main(sys.argv[1:])
