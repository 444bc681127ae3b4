"""The lines of a list of ingredients -> the ingredients of a draft; what has no amount is a decoration or a note."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from crumbcoat_calc.errors import Path
from crumbcoat_calc.foods.table import Food, foods

from crumbcoat_site.bring_in.amounts import ROUGH
from crumbcoat_site.bring_in.findings import Findings
from crumbcoat_site.bring_in.ingredient_lines import IngredientLine
from crumbcoat_site.bring_in.kinds import KindMatch, OwnKinds, find_kind, food_of, name_of
from crumbcoat_site.bring_in.marked_texts import in_prose
from crumbcoat_site.bring_in.measured import Measured, measured
from crumbcoat_site.bring_in.several_foods import ingredient_lines
from crumbcoat_site.bring_in.uses import Named, Portion

ON_THE_CAKE = re.compile(
    r"\b(?:decorat\w*|garnish\w*|to serve|for serving|to finish|topping|sprinkl\w+ on top)\b", re.IGNORECASE
)
_PORTIONS = ("first", "second", "third", "fourth", "fifth", "sixth")
_ENOUGH = 0.005
_LOOK = "look it up with `crumbcoat foods WORD`"


@dataclass(slots=True)
class DraftIngredient:
    """An ingredient: its line, its kind, its amount, and the fields of the draft."""

    key: str
    line: IngredientLine
    match: KindMatch
    food: Food | None
    amount: Measured
    heading: str
    fields: dict[str, object] = field(default_factory=dict)

    @property
    def named(self) -> Named:
        """How steps may name it."""
        return Named(self.key, self.line.name, self.match.kind, self.line.is_divided, self.heading)


@dataclass(slots=True)
class DraftLists:
    """What the lines of a page come to."""

    ingredients: list[DraftIngredient] = field(default_factory=list)
    decorations: list[dict[str, object]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def ingredients_of(lines: Sequence[str], own: OwnKinds, system: str, findings: Findings) -> DraftLists:
    """The ingredients of a draft, with what is to be said of each.

    Args:
        system: whose cups and spoons the page means.
    """
    lists = DraftLists()
    heading = ""
    pending: list[str] = []
    keys: set[str] = set()
    for line in [part for written in lines for part in ingredient_lines(written)]:
        if line.is_heading:
            heading = line.name
            pending.append(line.written)
        elif not line.name or _is_loose(line):
            _loose(line, lists, findings)
        else:
            match = find_kind(line, own, system)
            food = food_of(match.kind, own)
            one = DraftIngredient(_key(line, match, keys), line, match, food, measured(line, food, system), heading)
            _fill_in(one, own, findings)
            findings.comment(("ingredients", one.key), [*(f"— {text}" for text in pending), line.written])
            pending = []
            lists.ingredients.append(one)
    lists.notes += pending
    return lists


def _is_loose(line: IngredientLine) -> bool:
    """Whether a line has no amount, or for the cake only one that nobody weighs, such as a handful."""
    is_rough = all(amount.units <= ROUGH for amount in line.amounts)
    return not line.amounts or (is_rough and bool(ON_THE_CAKE.search(line.written)))


def _loose(line: IngredientLine, lists: DraftLists, findings: Findings) -> None:
    """A line without an amount: a decoration if it says so, else a note."""
    if ON_THE_CAKE.search(line.written) and line.name:
        words = [part for part in line.preparation if not ON_THE_CAKE.search(part)]
        findings.comment(("decorations", len(lists.decorations)), [line.written])
        lists.decorations.append({"what": ", ".join([line.name, *words])[:200]})
        findings.as_text(line.written, "without an amount in grams; under `decorations`")
    else:
        lists.notes.append(line.written)
        findings.as_text(line.written, "without an amount; under `notes`")


def _key(line: IngredientLine, match: KindMatch, keys: set[str]) -> str:
    """A short name for a line that no other one has."""
    words = re.findall("[a-z0-9]+", line.name.lower().replace("'", "").replace("’", ""))[:4]
    name = "_".join(words)[:40].strip("_")
    if not re.match("[a-z]", name):
        name = re.sub("[^a-z0-9]+", "_", match.kind.lower()).strip("_") if match.kind in foods() else "ingredient"
    key, number = name, 2
    while key in keys:
        key, number = f"{name}_{number}", number + 1
    keys.add(key)
    return key


def _fill_in(one: DraftIngredient, own: OwnKinds, findings: Findings) -> None:
    """The fields of an ingredient, and what is doubtful in them."""
    path: Path = ("ingredients", one.key)
    line, match = one.line, one.match
    if match.kind:
        one.fields["kind"] = match.kind
    one.fields["name"] = line.name[:200]
    one.fields["amount"] = one.amount.text
    preparation = [part for part in line.preparation if part.lower() not in ("optional", "divided")]
    preparation += [line.how] if line.how and not one.amount.is_how_used else []
    preparation += [text for text in (one.amount.most, line.more) if text]
    if preparation:
        one.fields["preparation"] = in_prose(", ".join(dict.fromkeys(preparation)))
    if line.is_optional:
        one.fields["optional"] = "yes"
    if match.is_sure:
        findings.sure(f"{line.name}: {match.kind}", match.confidence)
    else:
        _note_kind(one, (*path, "kind" if match.kind else "name"), own, findings)
    for doubt in one.amount.doubts:
        findings.doubtful((*path, "amount"), f"{line.name}: {one.amount.text}", doubt)
    if one.amount.mass_g is not None and not one.amount.doubts:
        findings.sure(f"{line.name}: {one.amount.text}")


def _note_kind(one: DraftIngredient, path: Path, own: OwnKinds, findings: Findings) -> None:
    match = one.match
    listed = " or ".join([_shown_kind(kind, own) for kind in match.others[:2]])
    if match.kind:
        why = f"{match.name}? If not, {listed or _LOOK}"
    else:
        why = f"no kind is called this: copy its label with `pack`, state its `composition`, or {_LOOK}"
        why += f"; only if it is the same food: {listed}" if listed else ""
    findings.doubtful(path, f"{one.line.name}: {match.kind or 'no kind'}", why, match.confidence, match.others)


def _shown_kind(kind: str, own: OwnKinds) -> str:
    """A kind as a recipe writes it; a number of a public table with the name of the food."""
    return kind if kind in foods() or kind in own else f"{kind} ({name_of(kind, own)})"


def put_portions(one: DraftIngredient, portions: Sequence[Portion], findings: Findings) -> list[str]:
    """Propose portions for an ingredient that several steps add; their names, or none if that is not possible."""
    says = any(portion.amount or portion.share for portion in portions)
    total_g = one.amount.mass_g
    if total_g is None or one.food is None or not 2 <= len(portions) <= len(_PORTIONS):
        if one.line.is_divided:
            why = "the page says divided: write `portions` if several steps add it"
            findings.doubtful(("ingredients", one.key, "amount"), f"{one.line.name}: divided", why)
        return []
    if not (one.line.is_divided or says or any(portion.is_rest for portion in portions)):
        return []
    masses = [_portion_g(portion, one.food, total_g) for portion in portions]
    known = [mass for mass in masses if mass is not None]
    left, open_ones = total_g - sum(known), len(masses) - len(known)
    if (open_ones and left <= _ENOUGH * total_g) or (not open_ones and abs(left) > _ENOUGH * total_g):
        findings.doubtful(
            ("ingredients", one.key, "amount"),
            f"{one.line.name}: divided",
            "the amounts in the steps do not add up to it",
        )
        return []
    grams = [round(left / open_ones if mass is None else mass, 1) for mass in masses]
    grams[-1] = round(total_g - sum(grams[:-1]), 1)
    if min(grams) <= 0:
        return []
    names = list(_PORTIONS[: len(grams)])
    one.fields["portions"] = {
        name: f"{mass:.1f}".removesuffix(".0") + " g" for name, mass in zip(names, grams, strict=True)
    }
    why = "by the amounts in the steps" if says else "the page does not say how much goes in where"
    findings.doubtful(("ingredients", one.key, "portions"), f"{one.line.name}: portions", why)
    return names


def _portion_g(portion: Portion, food: Food, total_g: float) -> float | None:
    if portion.share is not None:
        return portion.share * total_g
    if portion.amount is None:
        return None
    line = IngredientLine(written="", name="", amounts=(portion.amount,))
    return measured(line, food, "US").mass_g


def ingredient_fields(lists: DraftLists) -> Mapping[str, object]:
    """The fields of all ingredients by their short names."""
    return {one.key: one.fields for one in lists.ingredients}
