"""`python -m illustrations`: the cover and the steps of each recipe of the demo, beside its file; names pick some."""

import sys
from pathlib import Path

from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from PIL import Image

from illustrations.light import Scene, picture
from illustrations.scenes import scene_of
from illustrations.steps import step_scenes

RECIPES = Path(__file__).parents[1] / "recipes"
COVER, STEP = (960, 720), (800, 600)
"""Width and height of a cover and of a step's picture, in pixels."""
_RENDERED = 1104, 828
"""Before it is made smaller, so that edges are smooth."""


def main(names: list[str]) -> None:
    """Render the pictures of these recipes, or of all."""
    for number, path in enumerate(sorted(RECIPES.glob("*/*.yaml"))):
        if names and path.stem not in names:
            continue
        recipe, _ = load_recipe(path, path.name)
        _write(scene_of(recipe, number), path.with_suffix(".webp"), COVER)
        for place, scene in step_scenes(path.stem, recipe, number).items():
            _write(scene, path.with_name(f"{path.stem}.{place}.webp"), STEP)


def _write(scene: Scene, path: Path, size: tuple[int, int]) -> None:
    width, height = _RENDERED
    pixels = picture(scene, width=width, height=height)
    image = Image.fromarray(pixels).resize(size, Image.Resampling.LANCZOS)
    image.save(path, quality=86, method=6)
    print(path.relative_to(RECIPES))


if __name__ == "__main__":
    main(sys.argv[1:])
