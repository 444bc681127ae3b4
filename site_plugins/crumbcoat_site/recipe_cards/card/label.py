"""What the label calculator says of a recipe as published: its texts for the card, its figures for programs."""

import json
from dataclasses import dataclass

from crumbcoat_calc.calculators import label
from crumbcoat_calc.label.eu import EuLabel, eu_label
from crumbcoat_calc.label.information import nutrition_information
from crumbcoat_calc.label.ingredient_list import lists_of
from crumbcoat_calc.label.nutrients import Line
from crumbcoat_calc.label.us import UsLabel
from crumbcoat_calc.purchasing.cost import Cost, cost_of, prices_from
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.label import marks_of, portion_g, us_label_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """The label of a batch: its texts, and what the calculator is given beside the recipe; `cost` is None without
    prices."""

    batch: Batch
    given: str
    texts: Texts
    us: UsLabel
    eu: EuLabel
    diets: tuple[str, ...]
    cost: Cost | None

    @property
    def json_ld(self) -> dict[str, object]:
        """The properties of schema.org's Recipe that a label gives."""
        found: dict[str, object] = {"nutrition": nutrition_information(self.us)}
        if self.diets:
            found["suitableForDiet"] = [f"https://schema.org/{diet}" for diet in self.diets]
        return found

    @property
    def card_json(self) -> dict[str, object]:
        """The figures for card.json."""
        return {
            "label": {
                "us": {
                    "serving_g": self.us.serving.mass_g,
                    "per_serving": _lines(self.us.per_serving),
                    "per_100g": _lines(self.us.per_100g),
                },
                "eu": {
                    "portion_g": self.eu.portion_g,
                    "per_portion": _lines(self.eu.per_portion),
                    "per_100g": _lines(self.eu.per_100g),
                },
            },
            "allergens": _allergens(self.batch),
            "suitable_for": list(self.diets),
            "cost": None if self.cost is None else _cost(self.cost),
        }


def label_of(batch: Batch, prices: str | None) -> Label:
    """The label of a batch as published; `prices` is the text of the file of prices."""
    given = json.dumps({} if prices is None else {"prices": prices}, ensure_ascii=False)
    known = None if prices is None else prices_from(prices)
    density = batch.recipe.measured.density_g_per_ml
    answer = label.Answer(batch=batch, prices=known, density_g_per_ml=density, cake_g=None)
    return Label(
        batch=batch,
        given=given,
        texts=label.show(answer),
        us=us_label_of(batch, density),
        eu=eu_label(batch.total, portion_g(batch)),
        diets=tuple(mark.diet for mark in marks_of(batch) if mark.suitable),
        cost=None if known is None else cost_of(batch, known),
    )


def _lines(lines: tuple[Line, ...]) -> dict[str, object]:
    return {
        line.nutrient.key: {
            "unit": line.nutrient.unit,
            "amount": line.amount,
            "declared": line.declared,
            "missing": list(line.missing),
        }
        for line in lines
    }


def _allergens(batch: Batch) -> dict[str, object]:
    """By regime in the words of a list, with the ingredients of which not all are known."""
    lists = dict(zip(("EU", "US"), lists_of(batch), strict=True))
    contains: dict[str, object] = {regime.lower(): list(one.contains) for regime, one in lists.items()}
    not_known = list(dict.fromkeys(name for one in lists.values() for name, _ in one.doubts))
    return contains | {"not_known_of": not_known, "may_contain": list(batch.recipe.may_contain)}


def _cost(cost: Cost) -> dict[str, object]:
    """Decimals as texts, since JSON's numbers are floats to most programs."""
    return {
        "currency": cost.currency,
        "batch": f"{cost.batch:f}",
        "per_kg": f"{cost.per_kg:f}",
        "per_portion": f"{cost.per_portion:f}",
        "missing": list(cost.missing),
        "oldest_price": cost.oldest,
        "newest_price": cost.newest,
    }
