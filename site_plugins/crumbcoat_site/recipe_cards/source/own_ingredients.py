"""The site's own ingredients, as its recipes use them."""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_site.recipe_cards.source.source_errors import SourceError

_NO_LETTER = re.compile(r"[\W_]+")


@dataclass(frozen=True, slots=True)
class SiteIngredients:
    """The kinds by name, None for one that cannot be used, and the problems of the file."""

    kinds: Mapping[str, Mapping[str, object] | None]
    problems: tuple[SourceError, ...]

    def used_by(self, content: bytes) -> Mapping[str, Mapping[str, object] | None]:
        """The kinds that a recipe file may use: those whose name is in it, or all where a name may be hidden."""
        if b"\\" in content or not self.kinds:
            return self.kinds
        letters = letters_of(content.decode("utf-8", "replace"))
        return {
            key: kind
            for key, kind in self.kinds.items()
            if any(letters_of(name) in letters for name in names_of(key, kind))
        }


def names_of(key: str, kind: Mapping[str, object] | None) -> tuple[str, ...]:
    """What a recipe may call an ingredient of the site: its key, or its name."""
    return (key, str(kind["name"])) if kind and "name" in kind else (key,)


def letters_of(name: str) -> str:
    """A name as it is compared: without case, spaces and punctuation.

    >>> letters_of("Attic vanilla-paste") == letters_of("attic_vanilla_paste")
    True
    """
    return _NO_LETTER.sub("", unicodedata.normalize("NFKC", name).casefold())
