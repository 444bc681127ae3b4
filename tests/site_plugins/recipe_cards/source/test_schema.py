"""The published schema against JSON Schema 2020-12 (the jsonschema library) and against the reader."""

import copy
import re
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import FIELD_NAMES
from crumbcoat_calc.foods.pack import PACK_FIELDS
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.recipe import credits, ingredients, reading, stages
from crumbcoat_calc.recipe.photo import PHOTO_FIELDS
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_site.recipe_cards.source import field_descriptions as about
from crumbcoat_site.recipe_cards.source.schema import FILE, recipe_schema, schema_text
from crumbcoat_site.recipe_cards.source.short_forms import written_out
from crumbcoat_site.recipe_cards.source.yaml_text import Document, read_document
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

ROOT = Path(__file__).parents[4]
GOLDEN = ROOT / "tests" / "golden"
GOOD = [*sorted((ROOT / "recipes").glob("*/*.yaml")), *sorted(GOLDEN.glob("good-*/recipe.yaml"))]
VALIDATOR = Draft202012Validator(recipe_schema())

STRUCTURAL = (
    "a-list-of-recipes", "block-where-a-text", "composition-of-something-unknown", "composition-without-name",
    "composition-without-unit", "checkpoint-without-troubles", "empty-title", "ingredients-as-a-list",
    "list-where-a-text", "missing-amount", "missing-kind", "missing-step-text", "missing-title",
    "name-with-emoji", "negative-amount", "no-stages", "one-portion-only", "optional-maybe", "plain-sentence",
    "portions-of-the-yield-in-words", "published-the-day-before-yesterday", "replacement-without-kind",
    "shares-without-makes", "stored-nowhere", "text-where-a-block", "text-where-a-list", "trouble-without-remedy",
    "decoration-without-a-name", "made-of-nothing", "may-contain-traces", "unknown-allergen",
    "unknown-family", "unknown-field", "unknown-field-far-off", "unknown-field-of-a-step",
    "unknown-speed", "words-for-a-number",
)  # fmt: skip


ONE_OR_MORE = ("keywords", "made_of", "passes", "notes", "moved_from", "cover", "tips", "equipment")
"""Lists of texts: one text by itself is a list as well; and a picture, of which one text says what it shows."""


class CoreLoader(yaml.BaseLoader):
    """The core schema of YAML 1.2.2, section 10.3.2, by which editors read a file."""


_FLOAT = r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?"
for tag, pattern, first, convert in (
    ("null", r"null|Null|NULL|~|", ["n", "N", "~", ""], lambda _, node: None),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF"), lambda _, node: node.value.lower() == "true"),
    ("int", r"[-+]?[0-9]+", list("-+0123456789"), lambda _, node: int(node.value)),
    ("float", _FLOAT, list("-+.0123456789"), lambda _, node: float(node.value)),
):
    CoreLoader.add_implicit_resolver(tag, re.compile(f"(?:{pattern})$"), first)
    CoreLoader.add_constructor(tag, convert)


def test_the_file_is_what_the_program_writes() -> None:
    assert FILE.read_text(encoding="utf-8") == schema_text()


def test_it_is_a_schema() -> None:
    Draft202012Validator.check_schema(recipe_schema())


@pytest.mark.parametrize(
    ("fields", "descriptions"),
    [
        (reading.RECIPE_FIELDS, about.RECIPE),
        (reading.STORAGE_FIELDS, about.STORAGE),
        (reading.YIELD_FIELDS, about.YIELD),
        (reading.MEASURED_FIELDS, about.MEASURED),
        (reading.TRIED_FIELDS, about.TRIED),
        (reading.DECORATION_FIELDS, about.DECORATION),
        (reading.CLAIM_FIELDS, about.CLAIM),
        (credits.AUTHOR_FIELDS, about.AUTHOR),
        (credits.VIDEO_FIELDS, about.VIDEO),
        (ingredients.INGREDIENT_FIELDS, about.INGREDIENT),
        (ingredients.REPLACEMENT_FIELDS, about.REPLACEMENT),
        (stages.STAGE_FIELDS, about.STAGE),
        (stages.STEP_FIELDS, about.STEP),
        (stages.CHECKPOINT_FIELDS, about.CHECKPOINT),
        (stages.TROUBLE_FIELDS, about.TROUBLE),
        (tuple(FIELD_NAMES), about.COMPOSITION),
        (PACK_FIELDS, about.PACK),
        (PHOTO_FIELDS, about.PHOTO),
    ],
)
def test_every_field_has_its_description(fields: tuple[str, ...], descriptions: dict[str, str]) -> None:
    assert set(fields) == set(descriptions)
    assert [text for text in descriptions.values() if not re.fullmatch(r"[A-Z`].+[.`]", text)] == []


@pytest.mark.parametrize("path", GOOD, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_good_file_is_valid_as_texts_and_as_an_editor_reads_it(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    VALIDATOR.validate(read_document(text).data)
    VALIDATOR.validate(yaml.load(text, CoreLoader))


def test_the_editor_sees_numbers_where_the_reader_sees_texts() -> None:
    assert yaml.load("[12, 0.5, .5, yes, true, ~, 2026-03-31, 1e3]", CoreLoader) == [
        12, 0.5, 0.5, "yes", True, None, "2026-03-31", 1000.0,
    ]  # fmt: skip


@pytest.mark.parametrize("case", STRUCTURAL)
def test_a_structural_error_is_invalid_too(case: str) -> None:
    data = read_document((GOLDEN / f"wrong-{case}" / "recipe.yaml").read_text(encoding="utf-8")).data
    assert not VALIDATOR.is_valid(data)


@pytest.mark.parametrize("written", ["cornstarch", "Cornflour", "corn starch", "no kind at all"])
def test_a_kind_may_be_a_name_that_only_the_reader_knows(written: str) -> None:
    data = read_document((GOLDEN / "good-smallest" / "recipe.yaml").read_text(encoding="utf-8")).data
    next(iter(data["ingredients"].values()))["kind"] = written
    assert VALIDATOR.is_valid(data)
    assert set(foods()) == set(recipe_schema()["$defs"]["kind"]["anyOf"][0]["enum"])


FULL = read_document((GOLDEN / "good-every-field" / "recipe.yaml").read_text(encoding="utf-8")).data


def places(data: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Every path in the data."""
    entries = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [path, *(place for key, value in entries for place in places(value, (*path, key)))]


PLACES = places(FULL)[1:]


def changed(path: tuple[str | int, ...], value: object) -> object:
    """The recipe with another value at a path; None takes the field out."""
    data = copy.deepcopy(FULL)
    at = data
    for key in path[:-1]:
        at = at[key]
    if value is None:
        del at[path[-1]]
    else:
        at[path[-1]] = value
    return data


def accepted(data: object) -> bool:
    try:
        recipe_from(written_out(Document(data, {(): 1, ("yield",): 1})).data)
    except InputError:
        return False
    return True


def test_the_recipe_that_is_changed_has_every_field_of_every_block() -> None:
    named = {key for place in PLACES for key in place}
    blocks = (
        reading.RECIPE_FIELDS, reading.STORAGE_FIELDS, reading.YIELD_FIELDS, reading.MEASURED_FIELDS,
        reading.TRIED_FIELDS, reading.DECORATION_FIELDS, reading.CLAIM_FIELDS, reading.NOTEBOOK_FIELDS,
        reading.ASKED_FIELDS, credits.VIDEO_FIELDS, PHOTO_FIELDS,
        ingredients.INGREDIENT_FIELDS,
        ingredients.REPLACEMENT_FIELDS, stages.STAGE_FIELDS, stages.STEP_FIELDS, stages.CHECKPOINT_FIELDS,
        stages.TROUBLE_FIELDS,
    )  # fmt: skip
    assert {field for block in blocks for field in block} <= named
    assert accepted(FULL)


def required(path: tuple[str | int, ...]) -> bool:
    """Whether the schema requires the field; walks the schema beside the path."""
    schema = recipe_schema()
    at = schema
    needed = False
    for key in path:
        while "$ref" in at:
            at = schema["$defs"][str(at["$ref"]).rpartition("/")[2]]
        needed = key in at.get("required", ())
        at = at["items"] if isinstance(key, int) else at.get("properties", {}).get(key) or at["additionalProperties"]
    return needed


@pytest.mark.parametrize("path", [path for path in PLACES if required(path)], ids=lambda path: ".".join(map(str, path)))
def test_a_required_field_left_out_is_refused_by_both(path: tuple[str | int, ...]) -> None:
    data = changed(path, None)
    assert not accepted(data)
    assert not VALIDATOR.is_valid(data)


def value_at(path: tuple[str | int, ...]) -> object:
    at = FULL
    for key in path:
        at = at[key]
    return at


FIXED_BLOCKS = [
    path for path in PLACES
    if isinstance(value_at(path), dict)
    and path[-1] not in ("ingredients", "portions", "kept_back", "shares", "replacements")
]  # fmt: skip


@pytest.mark.parametrize("path", [(), *FIXED_BLOCKS], ids=lambda path: ".".join(map(str, path)) or "recipe")
def test_an_unknown_field_is_refused_by_both(path: tuple[str | int, ...]) -> None:
    data = changed((*path, "colour"), "blue")
    assert not accepted(data)
    assert not VALIDATOR.is_valid(data)


@pytest.mark.no_cover  # Hundreds of refusals, each of which the test of its reader measures.
@pytest.mark.parametrize("path", PLACES, ids=lambda path: ".".join(map(str, path)))
def test_another_type_is_refused_by_both(path: tuple[str | int, ...]) -> None:
    for other in ("a sentence.", ["a sentence."], {"a": "sentence."}):
        if not isinstance(value_at(path), type(other)):
            data = changed(path, other)
            is_short = isinstance(other, str) and path[-1] in (*ONE_OR_MORE, "author")
            is_short |= isinstance(other, list) and path[-1] == "photo"  # One of several.
            assert accepted(data) == is_short
            assert VALIDATOR.is_valid(data) == is_short


VALUES = st.one_of(
    st.text(max_size=8),
    st.sampled_from(
        ["250 g", "1 US cup", "0 g", "-3 g", "1/2", "12", "50 %", "yes", "no", "Yes", "maybe", "3 min", "18 °C",
         "-5 °C", "medium", "ganache", "butter", "base/cold",
         "milk/cooked", "2026-02-30", "2026-03-30", "6", "0.5", "0.8 g/mL",
         "milk_whole", "½ lb", ".5 kg", "in the freezer", "1e3", "", " ", "nan", "1,5 kg",
         "½ tsp", "1 lb 2 oz", "1 h 30", "5-8 min", "2:30", "TRUE", "false", "The Fridge", "on the counter",
         "20 C", "68F", "٣ min", "⅕ kg", "Medium High", "med", "Soybeans", "*x* [a](../b/)", "milk",
         "[a](javascript:b)"]
    ),
    st.just([]), st.just({}), st.just(["milk/cooked"]), st.just({"fat": "80 %"}), st.just({"a": "100 g", "b": "200 g"}),
)  # fmt: skip


@given(path=st.sampled_from(PLACES), value=VALUES)
def test_the_schema_refuses_nothing_that_the_reader_accepts(path: tuple[str | int, ...], value: object) -> None:
    data = changed(path, value)
    assert VALIDATOR.is_valid(data) or not accepted(data)
