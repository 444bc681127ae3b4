"""Claims in the texts of a recipe that its figures do not bear out, each with the rules and the figures beside it."""

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache, cached_property

from crumbcoat_calc.errors import Path
from crumbcoat_calc.foods.allergens import words_denied
from crumbcoat_calc.foods.table import foods, other_names
from crumbcoat_calc.label.batch_label import BatchLabel, label_of
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.values.display import list_text

from crumbcoat_site.recipe_cards.wording.figures import WORDS, Figures
from crumbcoat_site.recipe_cards.wording.tables import ClaimRule, claim_rules, claim_words, has_claim_words, plain_words
from crumbcoat_site.recipe_cards.wording.texts import PlacedText, texts_of

Found = tuple[Path, str, str]
"""A place, what was seen there, and what could be done."""

_NOT = re.compile(r"\b(?:not|never|nor|isn’t|isn't)(?: \w+)? $", re.IGNORECASE)


def unfounded_claims(
    recipe: Recipe, data: Mapping[str, object], section: str = "", label: BatchLabel | None = None
) -> Iterator[Found]:
    """The claims that the recipe's figures do not meet in some market, or that no figures of a recipe can show.

    A claim is silent where the figures meet the rule of each market, and where the author claims it in `claims` and
    no figure speaks against it. None of this is a clearance.

    Args:
        data: the fields of the recipe file.
        section: the folder of the file.
        label: that of the recipe, if it has been made.

    Source:
        claims.csv, with the law of each row.
    """
    judge = _Judge(recipe, label)
    with_claims = [placed for placed in texts_of(data, section) if has_claim_words(placed.text)]
    own = _own_names(recipe) if with_claims else []
    for placed in with_claims:
        text = _without_plain_words(placed, own)
        for claim, words in dict(_claims_in(text, placed.is_front)).items():
            problem = judge.problem(claim)
            if problem:
                yield placed.path, f"“{words}” is a claim: {problem[0]}", problem[1]
    for position, made in enumerate(recipe.claims):
        problem = judge.problem(made.claim)
        if problem:
            yield ("claims", position), f"“{made.claim}” is claimed: {problem[0]}", problem[1]


def _claims_in(text: str, is_front: bool) -> Iterator[tuple[str, str]]:
    for words in claim_words():
        if words.front_only and not is_front:
            continue
        for found in words.form.finditer(text):
            if not _NOT.search(text[: found.start()]):
                yield words.claim, found[0]


def _without_plain_words(placed: PlacedText, own: Sequence[re.Pattern[str]]) -> str:
    """The text without what looks like a claim and is not: texture and colour, and names of ingredients."""
    text = placed.text
    forms = [form for form, prose_only in plain_words() if not (prose_only and placed.is_front)]
    for form in (*forms, *own, *(() if placed.is_front else _names_of_kinds())):
        text = form.sub("…", text)
    return text


def _own_names(recipe: Recipe) -> list[re.Pattern[str]]:
    listed = [
        name
        for ingredient in recipe.ingredients
        for name in (ingredient.name, *(other.name for other in ingredient.replacements))
    ]
    return [_name_form(name) for name in listed if has_claim_words(name)]


@cache
def _names_of_kinds() -> tuple[re.Pattern[str], ...]:
    """Names of kinds that look like a claim, such as `low-fat milk`."""
    names = {food.name for food in foods().values()} | {
        other.name for others in other_names().values() for other in others
    }
    return tuple([_name_form(name) for name in sorted(names, key=len, reverse=True) if has_claim_words(name)])


def _name_form(name: str) -> re.Pattern[str]:
    return re.compile(rf"\b{re.escape(name)}\b", re.IGNORECASE)


class _Judge:
    """Judges claims by one recipe, each once; most recipes make none, and need neither figures nor a label for that."""

    def __init__(self, recipe: Recipe, label: BatchLabel | None) -> None:
        self._recipe, self._made = recipe, label
        self._grounds = {made.claim for made in recipe.claims}
        self._known: dict[str, tuple[str, str] | None] = {}

    @cached_property
    def _batch(self) -> Batch:
        return batch_of(self._recipe)

    @cached_property
    def _figures(self) -> Figures:
        return Figures(self._batch.total, self._recipe.measured.density_g_per_ml)

    @cached_property
    def _label(self) -> BatchLabel:
        return self._made or label_of(self._batch, self._recipe.measured.density_g_per_ml)

    def problem(self, claim: str) -> tuple[str, str] | None:
        """What the rules ask and the figures are, and the remedy; None where there is nothing to say."""
        if claim not in self._known:
            self._known[claim] = self._judged(claim)
        return self._known[claim]

    def _judged(self, claim: str) -> tuple[str, str] | None:
        rules = claim_rules()[claim]
        failed = [rule for rule in rules if not self._is_met(rule, claim in self._grounds)]
        if not failed:
            return None
        return "; ".join(f"in the {rule.market} {self._asked(rule)} ({rule.rule})" for rule in failed) + self._has(
            failed[0]
        ), self._remedy(failed[0])

    def _is_met(self, rule: ClaimRule, has_ground: bool) -> bool:
        if rule.test in ("less", "ground"):
            return has_ground
        if rule.test in ("as sold", "without"):
            inside, unsure = self._holding(rule.figure)
            return not inside and (has_ground or (rule.test == "without" and not unsure))
        if rule.test == "never":
            return False
        low, high = self._figures.in_part(rule.figure, rule.per, rule.market)
        limit = float(rule.limit)
        return low >= limit if rule.test == "at least" else high < limit if rule.test == "below" else high <= limit

    def _asked(self, rule: ClaimRule) -> str:
        if rule.test in ("as sold", "ground"):
            return f"{rule.limit} of gluten in the food as sold" if rule.test == "as sold" else rule.limit
        if rule.test == "never":
            return "the law knows no such claim" if rule.limit == "-" else rule.limit
        if rule.test == "without":
            return "no law defines it, and it must be true"
        unit, name = WORDS[rule.figure]
        if rule.test == "less":
            return f"at least {rule.limit} % less {name} than a similar food that is named"
        where = f" in {self._figures.part_text(rule.per)}" if rule.per != "-" else ""
        has = self._figures.text(rule.figure, rule.per, rule.market)
        return f"{rule.test} {rule.limit} {unit} of {name}{where}, and this has {has}"

    def _has(self, rule: ClaimRule) -> str:
        """The figure of this recipe, where the rules were not said with it."""
        if rule.test in ("less", "never") and rule.figure in WORDS:
            return f"; this has {self._figures.text(rule.figure, '100 g', rule.market)} in 100 g"
        if rule.test not in ("as sold", "without"):
            return ""
        inside, unsure = self._holding(rule.figure)
        if inside:
            return f"; this has {list_text(inside)}"
        return f"; not certain here: {list_text(unsure)}" if unsure else "; a list of ingredients cannot show that"

    def _holding(self, what: str) -> tuple[list[str], list[str]]:
        """What is in the recipe of that which a claim denies, and what may be."""
        for origin in self._label.origins:
            if origin.fact == what:
                return list(origin.inside), list(origin.unsure)
        words, lists = words_denied(what), self._label.lists
        inside = [word for found in lists for word in found.contains if word in words]
        doubts = [name for found in lists for name, _ in found.doubts]
        doubts += [extra.what for extra in self._recipe.decorations if extra.eaten]
        may = [f"{word} that may get in" for word in lists[0].may_contain if word in words]
        return list(dict.fromkeys(inside)), list(dict.fromkeys([*doubts, *may]))

    def _remedy(self, rule: ClaimRule) -> str:
        if rule.test in ("at most", "below", "at least", "never", "less") and rule.figure in WORDS:
            per = "-" if rule.figure == "protein_energy" else "100 g"
            figure = self._figures.text(rule.figure, per, rule.market)
            where = "" if per == "-" else " in 100 g"
            plain = f"say what it has, such as “{figure} of {WORDS[rule.figure][1]}{where}”, or leave it out"
            compared = ", or state in `claims` what it is compared with" if rule.test == "less" else ""
            return plain + compared
        if rule.test == "never":
            instead = {"keeping": "say how long you kept it and where, under `storage`, or leave it out"}
            return instead.get(rule.figure, "leave it out")
        inside, _ = self._holding(rule.figure) if rule.test in ("as sold", "without") else ([], [])
        if inside:
            return "leave it out"
        fact = {"gluten": "say that no ingredient listed contains gluten", "health": "leave it out"}
        return f"{fact.get(rule.figure, 'leave it out')}, or state in `claims` on which ground you claim it"
