"""The style sheets of all components together: where they reach, what they are written with, and that order is none."""

import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest
from crumbcoat_calc.pictures.drawing import MATERIALS
from crumbcoat_site.recipe_cards.build.assets import COMPONENTS

from .style_sheets import SKIN, TOKENS, Rule, all_rules, declarations, rules, sheets

ROOT = COMPONENTS.parents[3]
SCRIPTS = COMPONENTS.parent / "theme" / "assets" / "recipe_cards"
PICTURES = [ROOT / "calc" / "crumbcoat_calc" / name for name in ("pictures", "texts", "trials")]

NOT_STYLED = {
    "cc-bench-back": "a part that the script finds",
    "cc-bench-close": "a part that the script finds",
    "cc-bench-first": "the first screen looks like a list and no more",
    "cc-bench-main": "the left half of a step, which has no look of its own",
    "cc-bench-on": "a part that the script finds",
    "cc-bench-words": "what is beside an amount, so that it wraps together",
    "cc-class-group": "a place that the script fills",
    "cc-class-said": "a place that the script fills",
    "cc-why": "looks as every note in the margin does",
}
"""Classes that no style sheet names, and why they are there."""


def classes_in(text: str) -> set[str]:
    """Classes in a template or a script: not the custom properties of style sheets, nor ids of hatchings."""
    plain = re.sub(r"\{#.*?#\}|//[^\n]*|--cc-[\w-]+", "", text, flags=re.DOTALL)
    return set(re.findall(r"(?<![\w-])cc-[a-z][\w-]*\b(?!-)", plain))


def used_by_component() -> dict[str, set[str]]:
    return {
        folder.name: set().union(*(classes_in(file.read_text(encoding="utf-8")) for file in folder.glob("*.jinja")))
        for folder in COMPONENTS.iterdir()
        if folder.is_dir()
    }


def used_elsewhere() -> set[str]:
    """By scripts, by the pictures that calc draws, and by the two lines of HTML in Python."""
    files = [*SCRIPTS.glob("*.js"), *(file for folder in PICTURES for file in folder.glob("*.py"))]
    files += [COMPONENTS.parent / "handout" / "handout.py", COMPONENTS.parent / "plugin.py"]
    made = {f"cc-{name}" for name in MATERIALS} | {f"cc-bench-{kind}" for kind in ("first", "step", "end")}
    return made.union(*(classes_in(file.read_text(encoding="utf-8")) for file in files))


def test_every_rule_is_below_the_card() -> None:
    """A style sheet of ours reaches nothing outside `.cc-card`; `@page` and `@keyframes` style no element.

    Nor does what only names the paper, which must be the same from the beginning of the page.
    """
    assert len(all_rules()) > 500
    outside = []
    for rule in all_rules():
        if any(head.startswith(("@page", "@keyframes")) for head in (*rule.around, rule.selector)):
            continue
        if {name for name, _ in rule.declarations} == {"page"}:
            continue
        if "[dir] .cc-card" not in rule.selector:
            outside.append((rule.file.relative_to(COMPONENTS).as_posix(), rule.selector))
    assert outside == []
    assert {rule.selector for rule in rules(TOKENS)} == {".cc-card"}


def test_nothing_is_important() -> None:
    files = [*sheets(), TOKENS, SKIN, *(ROOT / "site_plugins").glob("*/calculators/theme/assets/calculators/*.css")]
    assert len(files) > 50
    assert [file for file in files if "!important" in file.read_text(encoding="utf-8")] == []


def test_what_folds_is_freed_of_the_themes_box_in_one_place() -> None:
    for pseudo in ("::details-content", "::-webkit-details-marker"):
        found = [
            file.relative_to(COMPONENTS).as_posix() for file in sheets() if pseudo in file.read_text(encoding="utf-8")
        ]
        assert found == ["card/card.css"], pseudo


def test_a_class_is_styled_and_a_styled_class_is_used() -> None:
    used = set().union(*used_by_component().values(), used_elsewhere())
    styled = set().union(*(rule.classes for rule in all_rules())) - {"cc-card"}
    assert sorted(styled - used) == []
    assert sorted(used - styled - {"cc-card"} - NOT_STYLED.keys()) == []
    assert sorted(NOT_STYLED.keys() - used | NOT_STYLED.keys() & styled) == []


def groups() -> Iterator[list[Rule]]:
    """Rules of several components that say the same property of an element of one class with the same weight."""
    found: dict[object, list[Rule]] = defaultdict(list)
    for rule in all_rules():
        pseudo = re.findall(r"::[\w-]+", rule.subject)
        for name in re.findall(r"\.(cc-[\w-]+)", re.sub(r":(?:not|has)\((?:[^()]|\([^()]*\))*\)", "", rule.subject)):
            for declared, _ in rule.declarations:
                found[name, tuple(pseudo), declared, rule.weight].append(rule)
    yield from found.values()


def test_the_order_of_components_does_not_matter() -> None:
    """Where two rules weigh the same, the later wins: so no two components say the same of one element."""
    pairs = {
        (first.component, other.component, first.selector, other.selector)
        for group in groups()
        for first in group
        for other in group
        if first.component < other.component
        and not excluded(first.around, other.around)
        and not apart(first.classes, other.classes)
    }
    assert sorted(pairs) == []


def excluded(around: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """Whether two conditions never hold together: one is for paper, one for a screen."""
    return {"@media print", "@media screen"} <= {*around, *other}


def apart(classes: frozenset[str], others: frozenset[str]) -> bool:
    """Whether each selector names a class that the other does not: parts of a page that are not in one another."""
    return bool(classes - others) and bool(others - classes)


def tokens(prefix: str) -> list[str]:
    screen = next(rule for rule in rules(TOKENS) if "@media print" not in rule.around)
    return [name for name, _ in screen.declarations if re.fullmatch(prefix, name)]


SIZES = ("label", "note", "text", "read", "lead", "head", "show", "numeral")


def test_there_are_eight_sizes_of_type_and_eight_spaces() -> None:
    assert tokens(r"--cc-s\d") == [f"--cc-s{number}" for number in range(1, 9)]
    fonts = {name for _, declared, value in declarations() if declared in ("font", "font-size") for name in used(value)}
    faces = {"--cc-sans", "--cc-face", "--cc-serif", "--cc-caps", "--cc-leading", "--cc-tight"}
    assert {name for name in fonts if name.startswith("--cc-")} - faces == {f"--cc-{size}" for size in SIZES}


def used(value: str) -> list[str]:
    return re.findall(r"var\((--[\w-]+)", value)


ABSOLUTE = re.compile(r"(?<![\w.-])\d*\.?\d+(?:rem|px|pt|mm|cm)\b")
INSIDE_PICTURES = {"picture", "drawing"}
"""Lengths in these are the picture's own units, written as px."""


def test_type_has_no_size_but_those_of_the_tokens() -> None:
    """Sizes in em follow the type around them; a handout has a base of its own on paper, for normal and large print."""
    raw = [
        (rule.file.relative_to(COMPONENTS).as_posix(), rule.selector, value)
        for rule, name, value in declarations()
        if name in ("font", "font-size") and ABSOLUTE.search(value) and rule.component not in INSIDE_PICTURES
    ]
    assert [found for found in raw if found[0] != "handout/handout.css" or found[2] not in ("10pt", "16pt")] == []


def test_no_length_on_a_screen_is_written_but_in_the_tokens() -> None:
    raw = [
        (rule.file.relative_to(COMPONENTS).as_posix(), name, value)
        for rule, name, value in declarations()
        if re.search(r"\d(?:rem|px)\b", value) and rule.component not in INSIDE_PICTURES and not rounded_off(value)
    ]
    assert raw == []


def rounded_off(value: str) -> bool:
    """One pixel, which hides something or is as thin as a line can be."""
    return set(re.findall(r"[\d.]+(?:rem|px)", value)) <= {"1px", "1.5px", "2px"}


COLOUR = re.compile(r"#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|oklch)a?\(")
ON_PAPER = {"#000", "#fff"}


def test_colours_are_tokens() -> None:
    """A component names no colour; a mask is black whatever it shows, and paper is black on white."""
    raw = []
    for rule, name, value in declarations():
        colours = set(COLOUR.findall(re.sub(r'url\("[^"]*"\)', "", value)))
        mask = "mask" in name or name.startswith("--cc-") or "linear-gradient" in value
        if colours - (ON_PAPER if "@media print" in rule.around else set()) and not mask:
            raw.append((rule.file.relative_to(COMPONENTS).as_posix(), rule.selector, value))
    assert raw == []


@pytest.mark.parametrize("file", [SKIN, TOKENS], ids=lambda file: file.name)
def test_every_custom_property_is_used(file: Path) -> None:
    everything = "".join(path.read_text(encoding="utf-8") for path in [*sheets(), SKIN, TOKENS])
    set_here = {name for rule in rules(file) for name, _ in rule.declarations if name.startswith(("--cc-", "--cj-"))}
    assert [name for name in sorted(set_here) if f"var({name})" not in everything] == []
