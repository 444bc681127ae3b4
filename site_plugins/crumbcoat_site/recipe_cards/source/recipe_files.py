"""Recipe files as a build finds them."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from crumbcoat_site.recipe_cards.pictures.formats import is_picture
from crumbcoat_site.recipe_cards.pictures.ready import Ready
from crumbcoat_site.recipe_cards.source.own_ingredients import SiteIngredients
from crumbcoat_site.recipe_cards.source.trial_folders import trial_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeFile:
    """A recipe file: `name` is its path in docs_dir without the ending, `photos` are the pictures that it may
    show, by their paths from its folder; one that cannot be used is None.

    `kinds` are the site's own ingredients that it may use, by name, and `all_kinds` all of them, which a misspelled one
    is compared with; `region` is that of the site, if it has one. `has_trials`: whether there are trials beside it.
    """

    path: Path
    name: str
    photos: Mapping[str, Ready | None]
    kinds: Mapping[str, Mapping[str, object] | None] = field(default_factory=dict)
    all_kinds: Mapping[str, Mapping[str, object] | None] = field(default_factory=dict)
    region: str | None = None
    has_trials: bool = False

    @property
    def shown(self) -> str:
        """The path that errors show: an editor that is started in the same folder can open it."""
        return os.path.relpath(self.path)


def recipe_files(
    paths: Mapping[str, Path],
    photos: Mapping[str, Mapping[str, Ready | None]],
    own: SiteIngredients,
    region: str | None,
) -> list[RecipeFile]:
    """The recipe files of a site.

    Args:
        paths: where each is, by its name.
        photos: the pictures that each may show, by its name.
        own: the site's own ingredients.
        region: that of the site, if it has one.
    """
    return [
        RecipeFile(
            path=path,
            name=name,
            photos=photos[name],
            kinds=own.used_by(path.read_bytes()),
            all_kinds=own.kinds,
            region=region,
            has_trials=trial_folder(path).is_dir(),
        )
        for name, path in paths.items()
    ]


def pictures_beside(file: Path) -> list[str]:
    """The names of the pictures in the folder of a file, used or not."""
    return sorted(path.name for path in file.parent.iterdir() if is_picture(path.name))
