"""The recipes that the form of a calculator can start from."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeOption:
    """A recipe that the reader can choose: its path in docs_dir without the ending, its title, and the way from the
    page with the form to its card.json."""

    name: str
    title: str
    card: str
