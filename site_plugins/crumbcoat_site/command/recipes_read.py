"""The recipe files that one command reads, each of them once, and the pictures around them."""

import os
from collections.abc import Mapping
from pathlib import Path

from crumbcoat_site.recipe_cards.pictures.formats import is_picture
from crumbcoat_site.recipe_cards.source.every_problem import ReadFile, read_file
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder


class RecipesRead:
    """What is in recipe files and folders; one that was read is not read again."""

    def __init__(self) -> None:
        self._files: dict[Path, ReadFile] = {}
        self._pictures: dict[Path, Mapping[str, Path]] = {}

    def read(self, file: Path, own: OwnKinds, region: str | None) -> ReadFile:
        """The recipe in a file, or every problem of it; see `read_file`."""
        place = file.resolve()
        if place not in self._files:
            self._files[place] = read_file(file, os.path.relpath(file), own, region)
        return self._files[place]

    def pictures_in(self, folder: Path) -> Mapping[str, Path]:
        """The pictures below a folder by their paths from it, without those of trials."""
        place = folder.resolve()
        if place not in self._pictures:
            self._pictures[place] = _pictures_in(place)
        return self._pictures[place]


def _pictures_in(folder: Path) -> Mapping[str, Path]:
    found = {path.relative_to(folder).as_posix(): path for path in sorted(folder.rglob("*")) if is_picture(path.name)}
    return {place: path for place, path in found.items() if not is_in_a_trial_folder(place) and path.is_file()}
