"""Marks in prose, a part of CommonMark 0.31.2 (sections 2.4, 6.1, 6.2 and 6.3); Node reads marks.json too."""

import json
from pathlib import Path

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.marks import Marked, marks_in, plain_text, prose, prose_line
from hypothesis import given
from hypothesis import strategies as st

CASES = json.loads((Path(__file__).parent / "marks.json").read_text(encoding="utf-8"))


def as_lists(parts: tuple[str | Marked, ...]) -> list[object]:
    return [
        part if isinstance(part, str) else [part.kind, as_lists(part.parts), *([part.href] if part.href else [])]
        for part in parts
    ]


@pytest.mark.parametrize(("written", "parts"), CASES, ids=[repr(written) for written, _ in CASES])
def test_marks(written: str, parts: list[object]) -> None:
    assert [part for part in as_lists(marks_in(written)) if part] == parts


@given(st.text(st.sampled_from("*_`[]()\\ab 1<>&:/#."), max_size=40))
def test_a_text_loses_only_signs_of_marks_and_addresses(written: str) -> None:
    plain = plain_text(written)
    letters = iter(written)
    assert all(letter in letters for letter in plain)  # In the same order.
    if not set(written) & set("*_`[\\"):
        assert plain == written


@given(st.text(max_size=30))
def test_a_text_in_code_stays_as_it_is(written: str) -> None:
    if "`" not in written and written:
        assert marks_in(f"`{written}`") == (Marked("code", (written,)),)


def test_a_long_text_of_open_marks_is_read_in_one_go() -> None:
    """No pattern tries anything twice: 4000 characters, the longest text that is read, of each sign."""
    for sign in ("*a ", "**a ", "_a ", "`a", "[a](", "[", "\\", "*", "[a](b(", "*a*", "[a"):
        written = (sign * 4000)[:4000]
        assert len(plain_text(written)) <= 4000


@pytest.mark.parametrize(
    ("written", "problem", "remedy"),
    [
        (
            "[a](javascript:alert(1))",
            "'javascript:alert(1)' does not lead to a page",
            "begins with `https://`, `http://` or",
        ),
        ("see [a](//example.org/x)", "'//example.org/x' does not lead to a page", "or a path such as `../custard/`"),
        ("[a](../about.md)", "'../about.md' is to a file", "from this page to that one: `../../about/`"),
        ("[a](curd.yaml#step-1-1)", "'curd.yaml#step-1-1' is to a file", "that one: `../curd/#step-1-1`"),
        ("[a](../index.md)", "'../index.md' is to a file", "that one: `../../`"),
    ],
)
def test_a_link_that_leads_nowhere_is_refused(written: str, problem: str, remedy: str) -> None:
    for read in (prose, prose_line):
        with pytest.raises(InputError) as refused:
            read(written)
        assert problem in refused.value.problem
        assert remedy in refused.value.remedy


@pytest.mark.parametrize(
    "written", ["`[a](javascript:x)`", "[a](https://example.org/x.md)", "[a](mailto:a@b.md)", "[a] (b:c)"]
)
def test_a_text_without_a_wrong_link_is_read(written: str) -> None:
    assert prose(written) == written
