"""The label of a recipe as published, as figures for other programs."""

from crumbcoat_calc.calculators.label import Answer
from crumbcoat_calc.label.batch_label import BatchLabel
from crumbcoat_calc.label.information import nutrition_information
from crumbcoat_calc.label.legal_names import MARKETS
from crumbcoat_calc.label.nutrients import LabelLine
from crumbcoat_calc.label.suitable import claimed_diets
from crumbcoat_calc.purchasing.cost import Cost
from crumbcoat_calc.values.region import words_in


def json_ld_of(label: BatchLabel) -> dict[str, object]:
    """The properties of schema.org's Recipe that come from the label."""
    found: dict[str, object] = {"nutrition": nutrition_information(label.us)}
    diets = claimed_diets(label.claims, label.origins)
    if diets:
        found["suitableForDiet"] = [f"https://schema.org/{diet}" for diet in diets]
    return found


def label_figures(answer: Answer) -> dict[str, object]:
    """The figures of label, allergens, claims and cost for card.json."""
    us, eu = answer.label.us, answer.label.eu
    return {
        "label": {
            "us": {
                "serving_g": us.serving.mass_g,
                "per_serving": _lines(us.per_serving),
                "per_100g": _lines(us.per_100g),
            },
            "eu": {
                "portion_g": eu.portion_g,
                "per_portion": _lines(eu.per_portion),
                "per_100g": _lines(eu.per_100g),
            },
        },
        "ingredient_lists": {
            market.lower(): found.text for market, found in zip(MARKETS, answer.label.lists, strict=True)
        },
        "allergens": _allergens(answer),
        "listed": {
            origin.fact: {"inside": list(origin.inside), "not_certain": list(origin.unsure)}
            for origin in answer.label.origins
        },
        "claims": {claim.claim: claim.ground for claim in answer.label.claims},
        "suitable_for": claimed_diets(answer.label.claims, answer.label.origins),
        "cost": None if answer.cost is None else _cost(answer.cost),
    }


def _lines(lines: tuple[LabelLine, ...]) -> dict[str, object]:
    return {
        line.nutrient.key: {
            "unit": line.nutrient.unit,
            "amount": line.amount,
            "declared": line.declared,
            "missing": list(line.missing),
        }
        for line in lines
    }


def _allergens(answer: Answer) -> dict[str, object]:
    """The allergens by regime in the words of a label, and the ingredients whose allergens are not all known."""
    lists = dict(zip(MARKETS, answer.label.lists, strict=True))
    contains: dict[str, object] = {
        regime.lower(): words_in(regime, list(found.contains)) for regime, found in lists.items() if regime != "UK"
    }
    not_known = list(dict.fromkeys(name for found in lists.values() for name, _ in found.doubts))
    return contains | {"not_known_of": not_known, "may_contain": list(answer.label.lists[0].may_contain)}


def _cost(cost: Cost) -> dict[str, object]:
    """Decimals are texts, because most programs read a number in JSON as a float."""
    return {
        "currency": cost.currency,
        "batch": f"{cost.batch:f}",
        "per_kg": f"{cost.per_kg:f}",
        "per_portion": f"{cost.per_portion:f}",
        "missing": list(cost.missing),
        "oldest_price": cost.oldest,
        "newest_price": cost.newest,
    }
