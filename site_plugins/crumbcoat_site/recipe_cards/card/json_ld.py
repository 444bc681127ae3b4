"""Card -> schema.org Recipe as JSON-LD: what search engines and programs that collect recipes read."""

from collections.abc import Sequence
from math import fsum

from crumbcoat_calc.recipe.credits import Video
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.values.display import iso_duration
from crumbcoat_calc.values.marks import plain_text

from crumbcoat_site.recipe_cards.build.addresses import Place
from crumbcoat_site.recipe_cards.card.card import Card
from crumbcoat_site.recipe_cards.card.json_ld_lines import ingredient_lines
from crumbcoat_site.recipe_cards.card.json_ld_steps import instructions
from crumbcoat_site.recipe_cards.card.label import json_ld_of

_FILM = (".mp4", ".m4v", ".mov", ".webm", ".ogv")


def json_ld(
    card: Card, place: Place, images: Sequence[str], *, region: str | None, language: str, version: str | None
) -> dict[str, object]:
    """The recipe in the terms of schema.org, for one batch as published.

    Args:
        place: where its page is.
        images: the addresses of its cover, one for each shape.
        region: that of the site, whose measures and degrees its texts have.
        language: that of the site, by BCP 47.
        version: which version of the recipe it is, if its trials made one.

    Source:
        schema-org.
    """
    recipe = card.recipe
    data: dict[str, object] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "url": place.page,
        "mainEntityOfPage": place.page,
        "name": recipe.title,
        "description": plain_text(recipe.summary),
        "author": _author(recipe),
        "inLanguage": language,
        "isAccessibleForFree": True,
        "recipeCategory": recipe.family,
        "recipeYield": [str(recipe.yields.portions), card.texts["portions_of"]],
        "recipeIngredient": ingredient_lines(card, region),
        "recipeInstructions": instructions(card, place, region),
    }
    data |= json_ld_of(card.label.label) | _times(recipe)
    more: dict[str, object] = {
        "image": list(images),
        "tool": [{"@type": "HowToTool", "name": tool} for tool in [*card.equipment.tools, *card.equipment.added]],
        "recipeCuisine": recipe.cuisine,
        "keywords": ", ".join(recipe.keywords),
        "datePublished": recipe.published,
        "dateModified": recipe.updated,
        "version": version,
        "video": recipe.video and _video(recipe.video, plain_text(recipe.summary), images),
    }
    return data | {name: value for name, value in more.items() if value}


def _author(recipe: Recipe) -> dict[str, object]:
    author = recipe.author
    named: dict[str, object] = {"@type": "Person" if author.is_person else "Organization", "name": author.name}
    return named | ({"url": author.url} if author.url else {})


def _times(recipe: Recipe) -> dict[str, object]:
    """The longest times, as a reader has to plan: work without heat, all work with heat, and everything, waits too."""
    heated = [step for step in _steps(recipe) if step.heat_to_c is not None or step.water_lost_g]
    prepared = [step for step in _steps(recipe) if step not in heated and not step.unattended]
    sums = {"prepTime": _sum(prepared), "cookTime": _sum(heated), "totalTime": _sum(_steps(recipe))}
    return {name: iso_duration(time_s) for name, time_s in sums.items() if time_s}


def _sum(steps: Sequence[Step]) -> float:
    return fsum([step.time.longest_s for step in steps if step.time])


def _steps(recipe: Recipe) -> list[Step]:
    return [step for stage in recipe.stages for step in stage.steps]


def _video(video: Video, summary: str, images: Sequence[str]) -> dict[str, object]:
    is_file = video.url.partition("?")[0].lower().endswith(_FILM)
    data: dict[str, object] = {
        "@type": "VideoObject",
        "name": video.title,
        "description": summary,
        "contentUrl" if is_file else "embedUrl": video.url,
        "uploadDate": video.published,
    }
    if video.picture or images:
        data["thumbnailUrl"] = video.picture or list(images)
    return data | ({"duration": iso_duration(video.length_s)} if video.length_s else {})
