"""`python -m illustrations`: the cover of each recipe of the demo, beside its file; names pick some of them."""

import sys
from pathlib import Path

from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from PIL import Image

from illustrations.light import picture
from illustrations.scenes import scene_of

RECIPES = Path(__file__).parents[1] / "recipes"
WIDTH, HEIGHT = 960, 720
_FINER = 1.15
"""Rendered this much larger, and made smaller, so that edges are smooth."""


def main(names: list[str]) -> None:
    """Render the covers of these recipes, or of all."""
    for number, path in enumerate(sorted(RECIPES.glob("*/*.yaml"))):
        if names and path.stem not in names:
            continue
        recipe, _ = load_recipe(path, path.name)
        scene = scene_of(recipe, number)
        size = round(WIDTH * _FINER), round(HEIGHT * _FINER)
        pixels = picture(scene, width=size[0], height=size[1])
        image = Image.fromarray(pixels).resize((WIDTH, HEIGHT), Image.Resampling.LANCZOS)
        image.save(path.with_suffix(".webp"), quality=86, method=6)
        print(path.with_suffix(".webp").relative_to(RECIPES))


if __name__ == "__main__":
    main(sys.argv[1:])
