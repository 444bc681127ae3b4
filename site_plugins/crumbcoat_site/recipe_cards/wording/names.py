"""The law of composition: whether an ingredient or a recipe may be called butter, cream, milk or chocolate."""

import re
from collections.abc import Iterator

from crumbcoat_calc.errors import Path
from crumbcoat_calc.foods.bounds import range_of
from crumbcoat_calc.foods.table import STATED, Food, other_names
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.values.display import list_text, plain_number_text

from crumbcoat_site.recipe_cards.wording.claims import Found
from crumbcoat_site.recipe_cards.wording.tables import NameRule, name_rules, traditional_names

Range = tuple[float, float]

_WORDS = {
    "milk_fat_g": "milk fat", "milk_solids_not_fat_g": "milk solids not fat", "water_g": "water", "fat_g": "fat",
    "milk_solids": "milk solids", "sugars_g": "sugars",
}  # fmt: skip
_OF_FAT = frozenset(("milk_fat_g", "fat_g"))
_ROUNDING_G = 0.5
"""By how much a figure may miss a limit: packs print whole grams from 10 g on."""

_HONEY_RULE = "Directive 2001/110/EC; in the US, 21 U.S.C. 343(b)"
_CHOCOLATE_RULE = "Directive 2000/36/EC; 21 CFR 163.124 and 163.130"

_TITLE = {"butter": ("milk_fat_g", 39.0), "whipped cream": ("milk_fat_g", 10.0)}
_OF_MILK = re.compile(r"\b(?:butter|cream|milk|cheese|yogh?urt|buttermilk|crème)\b", re.IGNORECASE)
_OF_PLANTS = re.compile(
    r"\b(?:plant|vegan|vegetable|dairy[- ]free|non[- ]dairy)(?:[- ]based)? (butter|cream|milk|cheese|yogh?urt)\b",
    re.IGNORECASE,
)
_TITLE_RULE = "Regulation (EU) No 1308/2013, Annex VII Part III; case C-422/16"


def unlawful_names(recipe: Recipe, region: str | None = None) -> Iterator[Found]:
    """The names of ingredients and the words of the title that a law reserves for foods of another composition.

    A name is silent where the law of the region has no rule for it, where its figures are not known, and where it is
    that of its kind in the ingredient table. Without a region it must fail in each market that has a rule.

    Args:
        region: that of the site, `EU`, `UK` or `US`, if it has one.

    Source:
        name_rules.csv, with the law of each row; traditional_names.csv for what the laws leave free.
    """
    for ingredient in recipe.ingredients:
        path: Path = ("ingredients", ingredient.key)
        yield from _of_food(ingredient.name, ingredient.food, path, region)
        for other in ingredient.replacements:
            yield from _of_food(other.name, other.food, (*path, "replacements", other.key), region)
    yield from _of_kinds(recipe)
    yield from _of_creams(recipe, region)
    if region != "US":
        yield from _of_title(recipe)


def _of_kinds(recipe: Recipe) -> Iterator[Found]:
    """Honey and kinds of chocolate that kinds of the ingredient table are called, and are not."""
    for ingredient in recipe.ingredients:
        known = " ".join(_names_of(ingredient.food))
        if ingredient.food.key and re.search(r"\bhoney$", _plain(ingredient.name)) and "honey" not in known:
            text = f"“{ingredient.name}” is {ingredient.food.name}, and “honey” is what bees make ({_HONEY_RULE})"
            yield ("ingredients", ingredient.key), text, f"call it “{ingredient.food.name}”"
    chocolates = [part for part in recipe.ingredients if "chocolate" in f"{part.name} {part.food.name}".lower()]
    for name in ("milk chocolate", "white chocolate"):
        called = [" ".join({part.name.lower(), *_names_of(part.food)}) for part in chocolates]
        all_known = bool(chocolates) and all(part.food.key for part in chocolates)
        if (
            re.search(rf"\b{name}\b", recipe.title, re.IGNORECASE)
            and all_known
            and not any(name in one for one in called)
        ):
            text = f"“{name}” is in the title, and the chocolate is {list_text([part.name for part in chocolates])}"
            yield ("title",), f"{text} ({_CHOCOLATE_RULE})", "name the chocolate that is in it"


def _of_creams(recipe: Recipe, region: str | None) -> Iterator[Found]:
    """A kind of cream in the title, such as clotted cream, that no ingredient can be in any market of the region."""
    for name, rules in name_rules().items():
        if not name.endswith(" cream") or not re.search(rf"\b{name}\b", recipe.title, re.IGNORECASE):
            continue
        of_region = [rule for rule in rules if region is None or region in rule.market]
        if of_region and not any(_may_meet(rule, part.food) for rule in of_region for part in recipe.ingredients):
            rule = of_region[0]
            text = f"“{name}” is in the title, and no ingredient has {rule.at_least:g} % milk fat or more"
            yield ("title",), f"{text}, as in the {rule.market} ({rule.rule})", "name the cream that is in it"
            return


def _of_food(written: str, food: Food, path: Path, region: str | None) -> Iterator[Found]:
    name = _plain(written)
    if food.source != STATED and name in _names_of(food):
        return
    rules = _rules_for(name)
    by_market: dict[str, list[NameRule]] = {}
    for rule in rules:
        by_market.setdefault(rule.market, []).append(rule)
    if region is not None:
        by_market = {market: of for market, of in by_market.items() if region in market} or {
            market: of for market, of in by_market.items() if market == "Codex" and region != "US"
        }
    failed = {market: [rule for rule in of if not _may_meet(rule, food)] for market, of in by_market.items()}
    if failed and all(failed.values()):
        said = [_said(of[0], food) for market, of in failed.items() if market != "Codex" or len(failed) == 1]
        fitting = [] if _is_of_plants(name, food) else _fitting(rules[0].name, food, list(failed))
        instead = (
            f"such as {list_text(fitting, 'or')}" if fitting else f"with its fat, such as “{_with_fat(name, food)}”"
        )
        text = f"“{written}” is a protected name: {'; '.join(said)}"
        yield path, text, f"call it what its pack does, {instead}, or correct its figures"


def _of_title(recipe: Recipe) -> Iterator[Found]:
    """A word for a milk product in the title of a recipe that has none of it; the US has no rule for such names."""
    title = recipe.title
    for form, ingredient_only in traditional_names():
        title = title if ingredient_only else form.sub("…", title)
    plant = _OF_PLANTS.search(title)
    if plant:
        word = f"“{plant[1].lower()}”"
        text = f"“{plant[0]}” is in the title, and the EU and UK reserve {word} for milk products, whatever precedes it"
        yield ("title",), f"{text} ({_TITLE_RULE})", _title_hint(word)
        return
    inside = [ingredient.food for ingredient in recipe.ingredients]
    for word, (component, least) in _TITLE.items():
        if re.search(rf"\b{word}\b", title, re.IGNORECASE) and all(range_of(f, component)[1] < least for f in inside):
            text = f"“{word}” is in the title, and no ingredient has {least:g} % milk fat or more"
            yield ("title",), f"{text}, as it would have to in the EU and UK ({_TITLE_RULE})", _title_hint(f"“{word}”")
            return
    found = list(dict.fromkeys(word.lower() for word in _OF_MILK.findall(title)))
    milk = ("milk_fat_g", "milk_solids_not_fat_g")
    if found and all(range_of(food, component)[1] <= 0 for food in inside for component in milk):
        quoted = [f"“{word}”" for word in found]
        is_are, words = ("is", "word") if len(found) == 1 else ("are", "words")
        text = f"{list_text(quoted)} {is_are} in the title, and nothing in the recipe is made from milk"
        yield (
            ("title",),
            f"{text}, for which the EU and UK reserve the {words} ({_TITLE_RULE})",
            _title_hint(list_text(quoted)),
        )


def _title_hint(quoted: str) -> str:
    return f"name what it is made of, such as “frosting with a plant block”, instead of {quoted}"


def _with_fat(name: str, food: Food) -> str:
    """A name with its fat that no law protects: by what it replaces, and whether it is made from plants."""
    low, high = range_of(food, "fat_g")
    shown = f", {plain_number_text(low, 0)} % fat" if high - low < 1 else ""
    if range_of(food, "milk_fat_g")[0] > 0:
        return f"spread{shown}"
    for word, instead in (("milk", "drink"), ("cream", "topping")):
        if name.endswith(word):
            return f"plant-based {instead}{shown}"
    return f"plant-based spread{shown}"


def _plain(written: str) -> str:
    return re.sub(r"\s+", " ", written.partition(",")[0].lower()).strip()


def _names_of(food: Food) -> set[str]:
    names = [food.name, *(other.name for other in other_names().get(food.key, ()))]
    return {_plain(name) for name in names} | {name.lower() for name in names}


def _rules_for(name: str) -> tuple[NameRule, ...]:
    """The rules of the longest name that the words end with; none for traditional names of other things."""
    for form, _ in traditional_names():
        name = form.sub("…", name)
    words = name.split(" ")
    endings = [" ".join(words[start:]) for start in range(len(words))]
    return next((rules for ending in endings if (rules := name_rules().get(ending))), ())


def _may_meet(rule: NameRule, food: Food) -> bool:
    """Whether the figures can meet a rule; other figures than fat count only where the author states them."""
    if rule.component not in _OF_FAT and food.source != STATED:
        return True
    low, high = _range(food, rule.component)
    below = rule.at_least is not None and high < rule.at_least - _ROUNDING_G
    above = rule.at_most is not None and low > rule.at_most + _ROUNDING_G
    return not below and not above


def _range(food: Food, component: str) -> Range:
    if component == "milk_solids":
        fat, other = range_of(food, "milk_fat_g"), range_of(food, "milk_solids_not_fat_g")
        return fat[0] + other[0], fat[1] + other[1]
    return range_of(food, component)


def _said(rule: NameRule, food: Food) -> str:
    low, high = _range(food, rule.component)
    ends = [plain_number_text(end, 1) for end in (low, high)]
    figure = ends[0] if ends[0] == ends[1] else " to ".join(ends)
    least = "" if rule.at_least is None else f"at least {rule.at_least:g} %"
    most = "" if rule.at_most is None else f"at most {rule.at_most:g} %"
    where = "by the Codex" if rule.market == "Codex" else f"in the {rule.market}"
    limits = " and ".join(filter(None, (least, most)))
    return f"{where} {limits} {_WORDS[rule.component]} ({rule.rule}), and this has {figure} %"


def _is_of_plants(name: str, food: Food) -> bool:
    return range_of(food, "milk_fat_g")[1] <= 0 or bool(re.search(r"\b(?:plant|vegan|vegetable)", name))


def _fitting(name: str, food: Food, markets: list[str]) -> list[str]:
    """Other names of the same family that the figures do meet."""
    last = name.rpartition(" ")[2]
    found = []
    for other, rules in name_rules().items():
        in_market = [rule for rule in rules if rule.market in markets]
        alike = other != name and other.rpartition(" ")[2] == last and other != last
        if alike and in_market and all(_may_meet(rule, food) for rule in in_market):
            found.append(f"“{other}”")
    return found
