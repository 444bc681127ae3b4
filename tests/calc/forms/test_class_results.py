"""Codes of the groups: in any order, the newest counts; what is damaged or hostile is reported, and harms nothing."""

import zlib

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.class_results import MOST_LETTERS, adler32, found_in
from hypothesis import given
from hypothesis import strategies as st

FIELDS = {
    "title": "Everyday_milk_frosting", "group": "3", "made": "2026-11-27T10:05:00", "mass": "512",
    "cup": "metric~5f.cup", "cup_weighs": "182", "t_c": "21,5", "marks.sweetness": "7,_8,_6", "note": "Cr~e8.me",
}  # fmt: skip


def code(**changed: str) -> str:
    """A code as a phone makes it, with zlib's checksum."""
    fields = {**FIELDS, **{name.replace("__", "."): value for name, value in changed.items()}}
    body = f"crumbcoat:1;{''.join(f'{name}={value};' for name, value in fields.items() if value)}"
    return f"{body}check={zlib.adler32(body.encode()):08x}."


@given(st.text(st.characters(max_codepoint=127), max_size=200))
def test_the_checksum_is_that_of_zlib(text: str) -> None:
    assert adler32(text) == f"{zlib.adler32(text.encode()):08x}"


def test_a_code_brings_what_the_group_found() -> None:
    (found,), unusable = found_in(code())
    assert unusable == []
    assert (found.group, found.title, found.date) == (3, "Everyday milk frosting", "2026-11-27")
    assert (found.mass_g, found.t_c, found.cup, found.cup_g) == (512, 21.5, "metric_cup", 182)
    assert (found.marks, found.note) == ({"sweetness": (7, 8, 6)}, "Crème")


def test_codes_may_be_broken_into_lines_inside_messages_and_in_any_order() -> None:
    broken = "\n".join([code()[at : at + 30] for at in range(0, len(code()), 30)])
    found, unusable = found_in(f"Hi! {code(group='5')} from us\n\n> {broken}\nbye. {code(group='1')}")
    assert [one.group for one in found] == [1, 3, 5]
    assert unusable == []


def test_of_two_codes_of_a_group_the_newer_one_counts() -> None:
    older, newer = code(mass="500"), code(mass="600", made="2026-11-27T10:06:00")
    for both in (older + newer, newer + older):
        (found,), _ = found_in(both)
        assert found.mass_g == 600
    (found,), _ = found_in(code(mass="1") + code(mass="2"))
    assert found.mass_g == 2


@pytest.mark.parametrize(
    ("damaged", "which", "problem"),
    [
        (code().replace("512", "521"), "Code 1, of group 3", "it was changed on the way"),
        (code()[:-9], "Code 1, of group 3", "part of it is missing"),
        ("crumbcoat:", "Code 1", "part of it is missing"),
        (code(title=""), "Code 1, of group 3", "it does not say which group made what, and when"),
        (code(made="today"), "Code 1, of group 3", "it does not say which group made what, and when"),
        (code(group="99"), "Code 1, of group 99", "the group: '99' is not a whole number from 1 to 40"),
        (code(mass="9999999"), "Code 1, of group 3", "the mass: '9999999' is too large"),
        (code(t_c="-273"), "Code 1, of group 3", "the temperature: '-273' is too small"),
        (code(cup="bucket"), "Code 1, of group 3", "the cup: unknown cup 'bucket'"),
        (code(marks__sweetness="11"), "Code 1, of group 3", "sweetness: '11' is not a whole number from 1 to 9"),
    ],
)
def test_a_code_that_cannot_be_used_says_why_and_the_others_count(damaged: str, which: str, problem: str) -> None:
    found, (unusable,) = found_in(damaged + "\n" + code(group="7"))
    assert [one.group for one in found] == [7]
    assert (unusable.which, unusable.problem) == (which, problem)
    assert unusable.remedy


def test_text_without_a_code_and_far_too_much_of_it_are_refused() -> None:
    with pytest.raises(InputError, match="there is no code in it"):
        found_in("we forgot")
    with pytest.raises(InputError, match="too much text"):
        found_in("x" * (MOST_LETTERS + 1))
    assert found_in("  ") == ([], [])


@given(st.text(max_size=300), st.integers(0, 200), st.characters())
def test_no_text_does_harm(text: str, at: int, letter: str) -> None:
    for written in (f"crumbcoat:{text}", code()[:at] + letter + code()[at + 1 :], code(note="~110000._~d800._~1.")):
        try:
            found_in(written)
        except InputError:
            continue
