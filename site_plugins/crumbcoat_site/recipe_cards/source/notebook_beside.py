"""The other recipes that an author puts beside the trials of a recipe."""

from collections.abc import Container, Iterator

from crumbcoat_calc.recipe.model import Recipe

from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.yaml_text import Document


def lost_beside(recipe: Recipe, document: Document, shown: str, known: Container[str]) -> Iterator[SourceError]:
    """The problems of those that cannot be shown.

    Args:
        document: the recipe file.
        shown: its path, as problems show it.
        known: the names of the recipes that can be shown: paths in docs_dir without ending.
    """
    for place, name in enumerate(recipe.notebook.beside):
        if name not in known:
            problem = f"there is no recipe {name!r} in this site to put beside the trials"
            remedy = "name one by its path in the folder of the pages, without ending, such as `creams/whipped-cream`"
            yield SourceError(shown, document.line_of(("notebook", "beside", place)), problem, remedy)
