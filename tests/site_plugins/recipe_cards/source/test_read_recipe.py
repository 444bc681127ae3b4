"""Recipe files. YAML 1.2.2 (yaml.org/spec/1.2.2) is the outside standard; what the format refuses of it is ours."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe, read_recipe
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.yaml_errors import DEEPEST, YamlError
from crumbcoat_site.recipe_cards.source.yaml_text import read_document
from hypothesis import given
from hypothesis import strategies as st

GOLDEN = Path(__file__).parents[3] / "golden"
WRONG = sorted(GOLDEN.glob("wrong-*"))
GOOD = sorted(GOLDEN.glob("good-*"))


def test_there_are_enough_wrong_files() -> None:
    problems = {(case / "error.txt").read_text(encoding="utf-8").partition(" ")[2] for case in WRONG}
    assert len(problems) >= 40


@pytest.mark.parametrize("case", WRONG, ids=lambda case: case.name)
def test_a_wrong_file_gives_its_error(case: Path) -> None:
    with pytest.raises(SourceError) as caught:
        load_recipe(case / "recipe.yaml", "recipe.yaml")
    assert f"{caught.value}\n" == (case / "error.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", WRONG, ids=lambda case: case.name)
def test_an_error_has_a_place_in_the_file_a_problem_and_a_remedy(case: Path) -> None:
    place, _, remedy = (case / "error.txt").read_text(encoding="utf-8").rstrip("\n").partition("\n    Fix: ")
    file, line, problem = place.split(":", 2)
    lines = (case / "recipe.yaml").read_bytes().count(b"\n") + 1
    assert file == "recipe.yaml"
    assert 1 <= int(line) <= lines
    assert problem.startswith(" ")
    assert problem.endswith(".")
    assert remedy.endswith((".", "?"))
    assert "\n" not in remedy
    for word in ("Traceback", "Error", "None", "dict", "NoneType", "str'", "parse", "e+"):
        assert word not in place + remedy


@pytest.mark.parametrize("case", GOOD, ids=lambda case: case.name)
def test_a_good_file_gives_the_recipe_and_plain_data(case: Path) -> None:
    recipe, data = load_recipe(case / "recipe.yaml", "recipe.yaml")
    assert data["title"] == recipe.title
    again = json.loads(json.dumps({"recipe": data}))
    assert again == {"recipe": data}
    assert batch_of(recipe).total.mass_g > 0


def test_what_people_write_is_the_same_recipe_as_in_the_usual_spelling() -> None:
    case = GOLDEN / "good-as-people-write"
    people, usual = (load_recipe(case / name, name)[0] for name in ("recipe.yaml", "same.yaml"))
    assert replace(people, ingredients=()) == replace(usual, ingredients=())
    for one, other in zip(people.ingredients, usual.ingredients, strict=True):
        assert one.mass_g == pytest.approx(other.mass_g)
        assert one.temperature_c == pytest.approx(other.temperature_c)
        assert replace(one, amount=other.amount, temperature_c=other.temperature_c) == other


def test_values_stay_as_they_are_written() -> None:
    _, data = load_recipe(GOLDEN / "good-every-field" / "recipe.yaml", "recipe.yaml")
    assert data["keywords"] == ["buttercream", "010", "no"]
    assert data["published"] == "2026-03-31"
    assert read_document("{a: 1:30, b: ~, c: 0x10, d: 1e3, e: true}").data == {
        "a": "1:30", "b": "~", "c": "0x10", "d": "1e3", "e": "true",
    }  # fmt: skip


def test_line_ends_of_every_system_count_alike() -> None:
    text = (GOLDEN / "wrong-unknown-speed" / "recipe.yaml").read_text(encoding="utf-8")
    error = (GOLDEN / "wrong-unknown-speed" / "error.txt").read_text(encoding="utf-8")
    for end in ("\n", "\r\n", "\r"):
        for mark in ("", "\ufeff"):
            with pytest.raises(SourceError) as caught:
                read_recipe(mark + text.replace("\n", end), "recipe.yaml")
            assert f"{caught.value}\n" == error


def test_a_path_that_is_not_there_has_the_line_of_what_is_around_it() -> None:
    document = read_document("# remark\nmilk:\n  amount: 3 g\n  parts:\n    - one\n    - two\n")
    assert document.line_of(()) == 2
    assert document.line_of(("milk", "amount")) == 3
    assert document.line_of(("milk", "kind")) == 2
    assert document.line_of(("milk", "parts", 1)) == 6
    assert document.line_of(("milk", "parts", 7, "x")) == 4


def test_depth_is_refused_at_its_bound() -> None:
    assert read_document("[" * DEEPEST + "]" * DEEPEST).data is not None
    for depth in (DEEPEST + 1, 100_000):
        with pytest.raises(YamlError, match="nested"):
            read_document("[" * depth + "]" * depth)
        with pytest.raises(YamlError, match="nested"):
            read_document("- " * depth + "x")


def test_an_expanding_file_is_refused_before_it_grows() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 12)]
    with pytest.raises(YamlError, match="several places"):
        read_document("\n".join(lines))


def test_two_thousand_ingredients_are_read_and_none_is_lost() -> None:
    names = [f"sugar_{number}" for number in range(2000)]
    listed = "".join(f"  {name}:\n    kind: sugar_granulated\n    amount: {n + 1} g\n" for n, name in enumerate(names))
    added = "".join(f"          - {name}\n" for name in names)
    text = (
        "title: Two thousand sugars\nsummary: Many.\nauthor: Lantern Street teaching kitchen\nfamily: other\n"
        f"yield: {{portions: 1, of: heap}}\ningredients:\n{listed}"
        f"stages:\n  - title: Mix\n    steps:\n      - do: Mix.\n        add:\n{added}"
    )
    recipe, _ = read_recipe(text, "many.yaml")
    assert [ingredient.key for ingredient in recipe.ingredients] == names
    assert batch_of(recipe).total.mass_g == pytest.approx(2000 * 2001 / 2)  # sum of 1 to n
    with pytest.raises(SourceError, match=r"many.yaml:6004: no step uses 'sugar_1999'"):
        read_recipe(text.removesuffix("          - sugar_1999\n"), "many.yaml")


_WORDS = st.sampled_from(
    ["title", ": ", "\n", "  ", "- ", "[", "]", "{", "}", ",", "&a", "*a", "!!x", "'", '"', "|", ">", "#", "? ", "\t",
     "---", "...", "milk", "250 g", "\0", "\ud800", "\u2028", "é", "🧈", "%YAML 1.2", "@", "`", "\\", "\r", "<<", "~"]
)  # fmt: skip


@given(st.one_of(st.text(), st.lists(_WORDS, max_size=40).map("".join)))
def test_any_text_is_read_or_refused_with_place_problem_and_remedy(text: str) -> None:
    lines = text.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
    with pytest.raises(SourceError, match=r"^any\.yaml:\d+: .+[.?]\n    Fix: .+[.?]$") as caught:
        read_recipe(text, "any.yaml")
    assert 1 <= caught.value.line <= lines


@given(st.binary(max_size=200))
def test_any_bytes_are_refused_with_a_line(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    source = tmp_path_factory.getbasetemp() / "any.yaml"
    source.write_bytes(content)
    with pytest.raises(SourceError, match=r"^any\.yaml:\d+: .+[.?]\n    Fix: .+[.?]$"):
        load_recipe(source, "any.yaml")


_TEXTS = st.text(st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp", "Cn"]), max_size=20)
_DATA = st.recursive(
    _TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(_TEXTS.filter(str.strip), inner, max_size=4),
    max_leaves=15,
).filter(lambda data: data != "")


@given(_DATA)
def test_json_is_yaml_and_comes_back_as_it_was(data: object) -> None:
    """YAML 1.2.2, section 1.2: every JSON text is a YAML text."""
    assert read_document(json.dumps(data, ensure_ascii=False).replace("\ufeff", "\\ufeff")).data == data


def test_the_data_has_the_keys_of_the_kinds_that_a_recipe_names() -> None:
    """So the page's calculator, which has no list of names, reads the same recipe."""
    text = (GOLDEN / "good-smallest" / "recipe.yaml").read_text(encoding="utf-8")
    ingredients = """ingredients:
  starch:
    kind: Cornflour
    amount: 100 g
    replacements: {rice: {kind: "starch, rice"}, own: {name: own, composition: {starch: 90 %}}}
"""
    named = re.sub(r"ingredients:.*?(?=^stages:)", ingredients, text, flags=re.S | re.M)
    named = re.sub(r"add: .*", "add: [starch]", named)
    recipe, data = read_recipe(named, "r.yaml")
    fields = data["ingredients"]["starch"]
    assert (fields["kind"], fields["replacements"]["rice"]["kind"]) == ("cornstarch", "rice_starch")
    assert "kind" not in fields["replacements"]["own"]
    assert recipe_from(json.loads(json.dumps(data))) == recipe
