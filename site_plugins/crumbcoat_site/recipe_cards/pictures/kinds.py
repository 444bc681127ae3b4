"""What can be made of pictures, by kind; this loads Pillow."""

from collections.abc import Callable, Mapping
from typing import Any

from crumbcoat_site.recipe_cards.pictures.making import Made, clean_copy, sizes
from crumbcoat_site.recipe_cards.pictures.reading import PictureError
from crumbcoat_site.recipe_cards.pictures.social import social_picture

KINDS: Mapping[str, Callable[..., Made]] = {"sizes": sizes, "copy": clean_copy, "social": social_picture}


def make(kind: str, source: bytes, inputs: Mapping[str, Any]) -> Made:
    """Facts and files; of a picture that cannot be used, its problem and remedy among the facts."""
    try:
        return KINDS[kind](source, **inputs)
    except PictureError as error:
        return {"problem": [error.problem, error.remedy]}, {}
