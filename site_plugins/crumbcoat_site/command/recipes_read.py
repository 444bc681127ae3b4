"""The recipe files that one command reads, each of them once."""

import os
from pathlib import Path

from crumbcoat_site.recipe_cards.source.every_problem import ReadFile, read_file
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds


class RecipesRead:
    """What is in recipe files; a file that was read is not read again."""

    def __init__(self) -> None:
        self._files: dict[Path, ReadFile] = {}

    def read(self, file: Path, own: OwnKinds, region: str | None) -> ReadFile:
        """The recipe in a file, or every problem of it; see `read_file`."""
        place = file.resolve()
        if place not in self._files:
            self._files[place] = read_file(file, os.path.relpath(file), own, region)
        return self._files[place]
