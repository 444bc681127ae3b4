"""Card -> card.json, the same figures for other programs; `card_fields` describes it."""

import json
from math import isfinite

from crumbcoat_calc.foods.composition import Mixture, energy
from crumbcoat_calc.foods.figures import FIGURES, figure_value

from crumbcoat_site.recipe_cards.build.page_context import digest_of
from crumbcoat_site.recipe_cards.card.card import Card
from crumbcoat_site.recipe_cards.card.label import label_figures

FORMAT = 1


def card_json(card: Card) -> str:
    """The text of card.json. Masses are in g and shares in g per 100 g, not rounded."""
    batch = card.batch
    content = {
        "format": FORMAT,
        "title": card.recipe.title,
        "family": card.recipe.family,
        "recipe": card.data,
        "recipe_digest": digest_of(card.data),
        "ingredients": [
            {
                "key": weighed.key,
                "name": weighed.name,
                "kind": weighed.food.key,
                "mass_g": weighed.mass_g,
                "portions_g": dict(weighed.portions_g),
                "kept_back_g": dict(weighed.kept_back_g),
            }
            for weighed in batch.weighed
        ],
        "stages": [
            {"title": stage.title, "makes": stage.makes, **_figures(vessel.mixture)}
            for stage, vessel in zip(batch.recipe.stages, batch.vessels, strict=True)
        ],
        "total": {**_figures(batch.total), "water_lost_g": batch.vessels[-1].water_lost_g},
        **label_figures(card.label),
        "region": card.label.readers.region,
        "cautions": _cautions(card),
        "texts": dict(card.texts),
    }
    return json.dumps(content, ensure_ascii=False)


def _cautions(card: Card) -> dict[str, object]:
    """The cautions as the page prints them."""
    rows = card.label_texts["cautions"]
    assert isinstance(rows, list)
    notes = [dict(zip(("title", "words", "source"), row, strict=True)) for row in rows]
    return {"first": card.label_texts["cautions.first"], "notes": notes}


def _figures(mixture: Mixture) -> dict[str, object]:
    figures: dict[str, object] = {}
    for figure in FIGURES:
        value = figure_value(figure, mixture)
        figures[figure.key] = {
            "mass_g": value.mass_g,
            "percent": value.percent,
            "most_g": value.most_g if isfinite(value.most_g) else None,
            "missing": list(value.missing),
        }
    total = energy(mixture)
    figures["energy"] = {"kcal": total[0], "kj": total[1]} if total else None
    return {"mass_g": mixture.mass_g, "figures": figures}
