"""The JSON Schema of a trial file: it is the one in the repository, and agrees with the reader."""

import copy
from typing import Any

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.trials.reading import trial_from
from crumbcoat_site.recipe_cards.source.trial_schema import TRIAL_FILE, trial_schema, trial_schema_text
from crumbcoat_site.reference.trial_file import trial_file_page
from jsonschema import Draft202012Validator

from tests.calc.trials.whole_trial import SMALLEST, WHOLE

VALIDATOR = Draft202012Validator(trial_schema())


def accepted(data: object) -> bool:
    try:
        trial_from(data)
    except InputError:
        return False
    return True


def test_it_is_a_schema_and_its_file_is_up_to_date() -> None:
    Draft202012Validator.check_schema(trial_schema())
    assert TRIAL_FILE.read_text(encoding="utf-8") == trial_schema_text()


@pytest.mark.parametrize("data", [WHOLE, SMALLEST], ids=["whole", "smallest"])
def test_what_the_reader_accepts_the_schema_accepts(data: dict[str, object]) -> None:
    assert accepted(data)
    assert list(VALIDATOR.iter_errors(data)) == []


def places(value: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Every block of fields in the whole trial."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    found = [place for key, part in inner for place in places(part, (*path, key))]
    return [path, *found] if isinstance(value, dict) else found


NAMED = {("changed", "ingredients"), ("changed", "steps"), ("weighed",)}


@pytest.mark.parametrize("path", [path for path in places(WHOLE) if path not in NAMED], ids=str)
def test_an_unknown_field_is_refused_by_both(path: tuple[str | int, ...]) -> None:
    data: Any = copy.deepcopy(WHOLE)
    block = data
    for key in path:
        block = block[key]
    block["colour"] = "blue"
    assert not accepted(data)
    assert not VALIDATOR.is_valid(data)


@pytest.mark.parametrize("field", ["number", "date"])
def test_what_is_needed_is_missed_by_both(field: str) -> None:
    data = {name: value for name, value in SMALLEST.items() if name != field}
    assert not accepted(data)
    assert not VALIDATOR.is_valid(data)


def test_every_field_has_a_description_and_is_in_the_reference() -> None:
    page = trial_file_page()

    def fields(schema: object) -> list[tuple[str, dict[str, str]]]:
        if isinstance(schema, list):
            return [found for part in schema for found in fields(part)]
        if not isinstance(schema, dict):
            return []
        own = list(schema["properties"].items()) if isinstance(schema.get("properties"), dict) else []
        return own + [found for name, part in schema.items() if name != "$defs" for found in fields(part)]

    of_trial = [(name, field) for name, field in fields(trial_schema()) if "ingredients." not in field["description"]]
    assert len(of_trial) > 60
    assert all(field["description"].endswith((".", "`", ")")) for _, field in of_trial)
    listed = {name for name, _ in of_trial if f"| `{name}`" in page}
    assert {"number", "changed", "brix", "weeping", "marks", "shot", "because"} <= listed
