"""The same data can be read from a written recipe file, whatever its texts contain; PyYAML reads it."""

import pytest
import yaml
from crumbcoat_calc.recipe.writing import recipe_text
from hypothesis import given
from hypothesis import strategies as st

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
DATA = st.recursive(
    TEXT,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT.filter(bool), inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(TEXT.filter(bool), DATA, min_size=1, max_size=5))
def test_it_reads_back(data: dict[str, object]) -> None:
    assert yaml.load(recipe_text(data), Loader=yaml.BaseLoader) == data


@pytest.mark.parametrize(
    "value",
    ["yes", "1:30", "010", "- a", "a: b", "a #b", "#", "", " a", "a ", "'", '"', "\n", "é", "½ c", "~", "null"],
)
def test_text_that_yaml_could_read_as_something_else(value: str) -> None:
    assert yaml.load(recipe_text({"a": value, "b": [value]}), Loader=yaml.BaseLoader) == {"a": value, "b": [value]}


def test_it_looks_like_a_recipe_file() -> None:
    assert recipe_text({"title": "Milk cream", "stages": [{"title": "Beat", "steps": [{"add": ["butter"]}]}]}) == (
        "title: Milk cream\nstages:\n  - title: Beat\n    steps:\n      - add:\n          - butter\n"
    )
