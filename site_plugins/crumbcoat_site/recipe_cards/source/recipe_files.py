"""A recipe file as a build finds it."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeFile:
    """A recipe file: `name` is its path in docs_dir without the ending, `photos` are the pictures next to it.

    `kinds` are the site's own ingredients that it may use, by name, and `all_kinds` all of them, which a misspelled one
    is compared with; `region` is that of the site, if it has one. `has_trials`: whether there are trials beside it.
    """

    path: Path
    name: str
    photos: Mapping[str, str]
    kinds: Mapping[str, Mapping[str, object] | None] = field(default_factory=dict)
    all_kinds: Mapping[str, Mapping[str, object] | None] = field(default_factory=dict)
    region: str | None = None
    has_trials: bool = False

    @property
    def shown(self) -> str:
        """The path that errors show: an editor that is started in the same folder can open it."""
        return os.path.relpath(self.path)
