"""Texts of a label: nutrients by both regimes, ingredients with allergens in capitals, what none of them contains."""

from collections.abc import Collection, Sequence

from crumbcoat_calc.foods.bounds import TRANS_IN_EGG_FAT, TRANS_IN_MILK_FAT, Range
from crumbcoat_calc.label.batch_label import BatchLabel
from crumbcoat_calc.label.ingredient_list import IngredientList
from crumbcoat_calc.label.legal_names import MARKETS
from crumbcoat_calc.label.nutrients import LabelLine, us_energy_kcal
from crumbcoat_calc.label.suitable import ListedOrigin
from crumbcoat_calc.label.table_energy import TableEnergy
from crumbcoat_calc.label.us import Serving, UsLabel
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.label_draft import draft_rows
from crumbcoat_calc.texts.portions import one_portion_text
from crumbcoat_calc.values.display import NOT_KNOWN, list_text, mass_text, number_text, plain_number_text, range_text
from crumbcoat_calc.values.region import REGIONS, words_in

_INDENT = "\u2003"


def label_texts(batch: Batch, label: BatchLabel, region: str = REGIONS[0]) -> Texts:
    """`label.words`, `label.us` and `label.eu`: rows; `label.serving`, `label.portion` and `label.missing`.

    `label.draft`: rows of what else a label needs; `label.short` is what it contains.
    """
    us, eu = label.us, label.eu
    return {
        "label.us": [
            [*_us_name(line), line.percent_text, _us_amount(whole)]
            for line, whole in zip(us.per_serving, us.per_100g, strict=True)
        ],
        "label.eu": [
            [_name(line), line.text, *part] for line, part in zip(eu.per_100g, _portion_cells(label), strict=True)
        ],
        "label.serving": _serving_text(us, label.density_g_per_ml),
        "label.portion": _portion_text(batch, label),
        "label.missing": " ".join(
            filter(None, (_trans_text(batch, us), _missing_text((*us.per_serving, *eu.per_100g))))
        ),
        "label.words": [
            *_list_rows(label.lists, region),
            *words_in(
                region,
                [
                    *_doubt_rows(batch, label.lists),
                    *_origin_rows(label.origins, {claim.claim for claim in label.claims}),
                ],
            ),
            *_claim_rows(label),
        ],
        "label.draft": words_in(region, draft_rows(batch, region)),
        "label.short": words_in(region, _contains_text(batch, label.lists)),
    }


def _name(line: LabelLine) -> str:
    return _INDENT * line.nutrient.indent + line.nutrient.name


def _portion_cells(label: BatchLabel) -> list[list[str]]:
    """The cell of each line for a portion, or none where a portion is for several people."""
    eu = label.eu
    return [[line.text] for line in eu.per_portion] if label.person_g is not None else [[] for _ in eu.per_100g]


def _portion_text(batch: Batch, label: BatchLabel) -> str:
    recipe = batch.recipe
    what = f"{mass_text(recipe.portion_g)}: {one_portion_text(batch)}"
    if label.person_g is None:
        return f"One portion is {what}, which can be for several people, so there are no figures for a portion."
    people = recipe.yields.people or 1
    if people > 1:
        return (
            f"One portion is {what}, for {people} people; the figures are for one of them, {mass_text(label.person_g)}."
        )
    return f"One portion is {what}."


def _us_amount(line: LabelLine) -> str:
    """The amount; that of "Calories" has no unit."""
    return line.text.removesuffix(" kcal")


def _us_name(line: LabelLine) -> list[str]:
    """The name and the amount; added sugars have theirs in one line of words, by 21 CFR 101.9(c)(6)(iii)."""
    if line.nutrient.key != "added_sugars":
        return [_name(line), _us_amount(line)]
    indent = _INDENT * line.nutrient.indent
    if line.declared is None:
        return [f"{indent}Includes added sugars", line.text]
    return [f"{indent}Includes {line.text} added sugars", ""]


def _serving_text(label: UsLabel, density_g_per_ml: float | None) -> str:
    servings = f"this batch has about {plain_number_text(label.servings, 0)}"
    if density_g_per_ml is None:
        return f"A serving is {label.serving.text}, which nobody measured; {servings}."
    return f"A serving is {label.serving.text}, the reference amount at {density_g_per_ml:g} g/mL; {servings}."


def by_table_text(batch: Batch, serving: Serving, energy: TableEnergy) -> str:
    """The energy by the factors of each food beside that by the general ones, both before a label's rounding."""

    def shown(span: Range, mass_g: float) -> str:
        low, high = (f"{number_text(end * mass_g / batch.total.mass_g, 0)} kcal" for end in span)
        return range_text(low, high)

    general = us_energy_kcal(batch.total)
    words = (
        f"By the factors that the table of USDA has for each food, 100 g have {shown(energy.kcal, 100)} and a serving "
        f"{shown(energy.kcal, serving.mass_g)}; by the general factors of the US label they have {shown(general, 100)} "
        f"and {shown(general, serving.mass_g)}, not rounded. The first are for comparing with tables, not for a label."
    )
    if energy.general:
        words += f" The general factors also count for {list_text(energy.general)}, which that table has none for."
    return words


def _trans_text(batch: Batch, label: UsLabel) -> str:
    """What a range of trans fat rests on; empty where it has none."""
    line = next(line for line in label.per_100g if line.nutrient.key == "trans_fat")
    if line.amount is not None or line.declared is None:
        return ""
    milk = batch.total.at_most("milk_fat_g") > 0
    egg = any(weighed.inside_g > 0 and weighed.food.group == "egg" for weighed in batch.weighed)
    kinds = [("milk", TRANS_IN_MILK_FAT)] * milk + [("egg", TRANS_IN_EGG_FAT)] * egg
    shares = [
        f"{plain_number_text(100 * least, 1)} to {plain_number_text(100 * most, 1)} % of {kind} fat"
        for kind, (least, most) in kinds
    ]
    return f"Trans fat is {list_text(shares)}, as in those that were analysed." if shares else ""


def _missing_text(lines: Sequence[LabelLine]) -> str:
    """Which contents are not known for which ingredients; each name once."""
    hidden: dict[tuple[str, ...], list[str]] = {}
    for line in lines:
        if line.missing and not (line.nutrient.key == "trans_fat" and line.declared is not None):
            name = line.nutrient.name.removeprefix("of which ")
            name = name[0].lower() + name[1:]
            names = hidden.setdefault(line.missing, [])
            if name not in names:
                names.append(name)
    return " ".join(
        f"{NOT_KNOWN.capitalize()} for {list_text(who)}: {list_text(what)}." for who, what in hidden.items()
    )


def _list_rows(lists: Sequence[IngredientList], region: str) -> list[list[str]]:
    """Lists that are the same in one row, that of the region first; what it contains and may contain."""
    markets: dict[str, list[str]] = {}
    for market, found in zip(MARKETS, lists, strict=True):
        markets.setdefault(found.text, []).append(market)
    in_order = sorted(markets.items(), key=lambda item: region == "US" and "US" not in item[1])
    rows = [[_heading(named, len(markets)), text] for text, named in in_order]
    law = MARKETS[region]
    contains = {
        regime: words_in(regime, list_text(list(found.contains))) or "no allergen that the law lists, as far as known"
        for found, regime in zip(lists, MARKETS.values(), strict=True)
    }
    if set(lists[0].contains) == set(lists[-1].contains):
        rows.append(["Contains", contains[law]])
    else:
        rows += [
            [f"Contains, {regime}", words]
            for regime, words in sorted(contains.items(), key=lambda item: item[0] != law)
        ]
    if lists[0].may_contain:
        rows.append(["May contain", words_in(law, list_text(lists[0].may_contain))])
    return rows


def _doubt_rows(batch: Batch, lists: Sequence[IngredientList]) -> list[list[str]]:
    """Of what the allergens are not all known, and why; of decorations they never are."""
    doubts = dict.fromkeys(doubt for found in lists for doubt in found.doubts)
    extras = dict.fromkeys((extra.what, "read its pack") for extra in batch.recipe.decorations if extra.eaten)
    return [[f"Allergens of {name}", f"{NOT_KNOWN}: {why}"] for name, why in {**doubts, **extras}]


def _heading(markets: Sequence[str], lists: int) -> str:
    return "Ingredients" if lists == 1 else f"Ingredients, {list_text(list(markets))}"


def _contains_text(batch: Batch, lists: Sequence[IngredientList]) -> str:
    """All that either regime lists as an allergen, whether some are not known, and apart from it what may get in."""
    contains = dict.fromkeys(word for found in lists for word in found.contains)
    unknown = any(found.doubts for found in lists) or any(extra.eaten for extra in batch.recipe.decorations)
    doubts = ", others not known" if unknown else ""
    by_accident = f"; may contain {list_text(lists[0].may_contain)}" if lists[0].may_contain else ""
    if contains:
        return f"Contains {list_text(list(contains))}{doubts}{by_accident}"
    return f"No allergen that the law lists, as far as known{by_accident}"


_GLUTEN_FREE = (
    "; that is not “gluten-free”, which is at most 20 mg/kg in the food as sold (US: less than 20), what gets in from "
    "other foods included (EU 828/2014, 21 CFR 101.91)"
)
"""What the claim means that a list of ingredients cannot show."""


def _origin_rows(origins: Sequence[ListedOrigin], claimed: Collection[str]) -> list[list[str]]:
    animal, slaughter, gluten = origins
    vegan, vegetarian = "vegan" in claimed, "vegan" in claimed or "vegetarian" in claimed
    rows = [["From animals", _origin_text(animal, "no ingredient listed", vegan)]]
    if not animal.none_listed:
        rows.append(["Meat, fish, gelatine", _origin_text(slaughter, "no ingredient listed", vegetarian)])
    return [*rows, ["Gluten", _origin_text(gluten, f"no ingredient listed contains it{_GLUTEN_FREE}")]]


def _origin_text(origin: ListedOrigin, none: str, claimed: bool = False) -> str:
    if claimed and origin.unsure and not origin.inside:
        return f"{none}; for {list_text(origin.unsure)} the list alone does not show it, and the claim answers for that"
    parts = [list_text(origin.inside)] if origin.inside else []
    if origin.unsure:
        parts.append(f"not certain: {list_text(origin.unsure)}")
    return "; ".join(parts) or none


def _claim_rows(label: BatchLabel) -> list[list[str]]:
    """What the author claims and answers for, with the ground."""
    return [[f"Claimed: {claim.claim}", claim.ground] for claim in label.claims]
