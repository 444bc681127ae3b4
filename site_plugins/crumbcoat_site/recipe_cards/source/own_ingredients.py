"""The site's own ingredients, as its recipes use them."""

from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_site.recipe_cards.source.source_errors import SourceError


@dataclass(frozen=True, slots=True)
class SiteIngredients:
    """The kinds by name, None for one that cannot be used, and the problems of the file."""

    kinds: Mapping[str, Mapping[str, object] | None]
    problems: tuple[SourceError, ...]

    def used_by(self, content: bytes) -> Mapping[str, Mapping[str, object] | None]:
        """The kinds that a recipe file may use: those whose name is in it, or all where a name may be hidden."""
        if b"\\" in content:
            return self.kinds
        return {name: kind for name, kind in self.kinds.items() if name.encode() in content}
