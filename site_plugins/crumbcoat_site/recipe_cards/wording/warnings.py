"""What the words of a recipe file promise beyond its figures, with the line of each place."""

from collections.abc import Iterator

from crumbcoat_calc.label.batch_label import BatchLabel
from crumbcoat_calc.recipe.model import Recipe

from crumbcoat_site.recipe_cards.source.yaml_text import Document
from crumbcoat_site.recipe_cards.wording.claims import unfounded_claims
from crumbcoat_site.recipe_cards.wording.names import unlawful_names

Warned = tuple[int, str, str, str]
"""A line, a kind of warning, what was seen, and what could be done."""


def wording_warnings(
    recipe: Recipe,
    document: Document,
    section: str = "",
    region: str | None = None,
    label: BatchLabel | None = None,
) -> Iterator[Warned]:
    """The warnings about the words of a recipe, in the order of the rules.

    Args:
        document: its file, without short forms.
        section: the folder of the file, which readers see as a heading and in the address.
        region: that of the site, if it has one.
        label: that of the recipe, if it has been made.
    """
    assert isinstance(document.data, dict)
    for path, text, hint in unfounded_claims(recipe, document.data, section, label):
        yield document.line_of(path), "claim", f"{text}.", f"{hint}."
    for path, text, hint in unlawful_names(recipe, region):
        yield document.line_of(path), "name", f"{text}.", f"{hint}."
