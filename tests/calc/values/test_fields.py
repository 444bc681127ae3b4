"""Reading outside data: what is accepted, and each refusal with its path and its remedy."""

from collections.abc import Callable

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import (
    LONGEST_TEXT,
    did_you_mean,
    each,
    each_named,
    mapping,
    one_of,
    only,
    sequence,
    slug,
    take,
    take_or,
    text,
    yes_no,
)
from crumbcoat_calc.values.units import grams
from hypothesis import given
from hypothesis import strategies as st

anything = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=20)),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=5), inner, max_size=3)),
    max_leaves=8,
)


def refusal(read: object, value: object) -> InputError:
    with pytest.raises(InputError) as refused:
        read(value)  # type: ignore[operator]
    return refused.value


def test_take_and_take_or() -> None:
    data = {"butter": "250 g"}
    assert take(data, "butter", grams) == 250
    assert take_or(data, "butter", grams, None) == 250
    assert take_or(data, "milk", grams, None) is None


def test_a_missing_field_says_how_to_add_it() -> None:
    error = refusal(lambda data: take(data, "milk", grams), {})
    assert "'milk' is missing" in error.problem
    assert "`milk: …`" in error.remedy
    assert error.path == ()


def test_a_wrong_field_is_never_replaced_by_the_default() -> None:
    assert refusal(lambda data: take_or(data, "milk", grams, 0.0), {"milk": "some"}).path == ("milk",)


def test_the_path_leads_through_fields_lists_and_names() -> None:
    def recipe(value: object) -> object:
        return take(mapping(value), "parts", each(lambda part: take(mapping(part), "amounts", each_named(amount))))

    def amount(name: str, value: object) -> float:
        return take(mapping(value), "mass", grams)

    good = {"parts": [{"amounts": {"milk": {"mass": "5 g"}}}]}
    assert recipe(good) == ((5.0,),)
    bad = {"parts": [{"amounts": {}}, {"amounts": {"milk": {"mass": "5"}}}]}
    assert refusal(recipe, bad).path == ("parts", 1, "amounts", "milk", "mass")


@pytest.mark.parametrize(
    ("read", "value", "problem", "remedy"),
    [
        pytest.param(mapping, "salt", "expected fields, but found 'salt'", "", id="a text for fields"),
        pytest.param(mapping, ["a"], "expected fields, but found a list", "without `- `", id="a list for fields"),
        pytest.param(sequence, "salt", "expected a list, but found 'salt'", "- ", id="a text for a list"),
        pytest.param(
            sequence, {"a": "b"}, "expected a list, but found a block of fields", "- ", id="fields for a list"
        ),
        pytest.param(text, ["a"], "expected text, but found a list", "text", id="a list for a text"),
        pytest.param(text, {"a": "b"}, "expected text, but found a block of fields", "text", id="fields for a text"),
        pytest.param(text, "  ", "empty", "fill it in", id="blanks"),
        pytest.param(text, "x" * (LONGEST_TEXT + 1), f"{LONGEST_TEXT + 1} characters", "shorten", id="too long"),
        pytest.param(text, "a\x07b", "U+0007", "type the text again", id="a bell"),
        pytest.param(yes_no, "maybe", "neither yes nor no", "`yes` or `no`", id="neither"),
        pytest.param(slug, "Brown butter", "short name", "lower-case letters", id="a name with a space"),
        pytest.param(slug, "9lives", "short name", "starting with a letter", id="a name with a digit first"),
        pytest.param(one_of("low", "high"), "hihg", "'hihg'", "did you mean 'high'?", id="a slip"),
        pytest.param(one_of("low", "high"), "xyz", "'xyz'", "low, high", id="an unknown word"),
        pytest.param(each(text, at_least=2), ["a"], "", "2", id="too short a list"),
        pytest.param(each_named(lambda name, value: name, at_least=1), {}, "", "", id="no fields"),
    ],
)
def test_what_cannot_be_read_is_refused(read: object, value: object, problem: str, remedy: str) -> None:
    error = refusal(read, value)
    assert problem in error.problem
    assert remedy in error.remedy
    assert error.remedy


def test_an_unknown_field_is_refused_with_the_nearest() -> None:
    error = refusal(lambda data: only(data, ("title", "summary")), {"title": "", "sumary": ""})
    assert error.path == ("sumary",)
    assert error.remedy == "did you mean 'summary'? The others: title"
    only({"title": ""}, ("title", "summary"))


def test_a_wrong_name_is_refused_at_its_place() -> None:
    error = refusal(each_named(lambda name, value: value), {"good": "1", "Not good": "2"})
    assert error.path == ("Not good",)


@pytest.mark.parametrize(
    ("word", "value"), [("yes", True), ("no", False), ("Yes", True), (" no ", False), ("true", True), ("False", False)]
)
def test_yes_no(word: str, value: bool) -> None:
    assert yes_no(word) is value


@pytest.mark.parametrize(
    ("word", "remedy"), [("buter", "did you mean 'butter'?"), ("qqq", "leave it out")], ids=["near", "far"]
)
def test_did_you_mean(word: str, remedy: str) -> None:
    assert did_you_mean(word, ["butter", "milk"], "leave it out") == remedy


def outcome(read: Callable[[object], object], value: object) -> object:
    try:
        return read(value)
    except InputError as error:
        return error


READERS = (mapping, sequence, text, yes_no, slug, one_of("a", "b"), each(text), each_named(lambda name, value: name))


@given(value=anything)
def test_anything_is_read_or_refused_briefly_and_never_fails_in_another_way(value: object) -> None:
    for read in READERS:
        found = outcome(read, value)
        assert not isinstance(found, InputError) or (found.remedy and 0 < len(found.problem) < 160)


@pytest.mark.parametrize("sign", ["\u202a", "\u202d", "\u202e", "\u2066", "\u2069"])
def test_a_text_that_is_not_what_it_looks_like_is_refused(sign: str) -> None:
    """Unicode Technical Standard 55: such characters make source text look like another one."""
    with pytest.raises(InputError) as error:
        text(f"100 g {sign}salt")
    assert error.value.problem == f"the text contains a character that cannot be displayed, U+{ord(sign):04X}"


@pytest.mark.parametrize("written", ["כרם", "قشدة", "ق\u200cش", "👩\u200d🍳", "a\u200e", "1\u202f000", "a\u2060b"])
def test_letters_of_any_direction_and_what_joins_them_are_text(written: str) -> None:
    assert text(written) == written


def test_a_refusal_quotes_a_part_of_a_long_text() -> None:
    refused = refusal(yes_no, "q" * LONGEST_TEXT)
    assert len(refused.problem) < 400
    assert refused.problem.startswith("'qqq")
    assert refused.problem.endswith("qqq' is neither yes nor no")
    assert refused.at(("draft",)).problem == refused.problem
