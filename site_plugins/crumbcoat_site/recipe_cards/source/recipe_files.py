"""A recipe file as a build finds it."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeFile:
    """A recipe file: `name` is its path in docs_dir without the ending, `photos` are the pictures next to it."""

    path: Path
    name: str
    photos: Mapping[str, str]

    @property
    def shown(self) -> str:
        """The path that errors show: an editor that is started in the same folder can open it."""
        return os.path.relpath(self.path)
