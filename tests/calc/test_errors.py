"""The error written for people: its path grows outwards, its text has place, problem and remedy."""

import pytest
from crumbcoat_calc.errors import InputError
from hypothesis import given
from hypothesis import strategies as st

steps = st.lists(st.one_of(st.text(st.characters(categories=("Ll",)), min_size=1), st.integers(0, 99)), max_size=5)


@pytest.mark.parametrize(
    ("path", "shown"),
    [
        pytest.param((), "wrong: fix it", id="without a place"),
        pytest.param(("milk",), "milk: wrong: fix it", id="one field"),
        pytest.param(("ingredients", 2, "amount"), "ingredients.2.amount: wrong: fix it", id="a field in a list"),
    ],
)
def test_str(path: tuple[str | int, ...], shown: str) -> None:
    assert str(InputError("wrong", "fix it", path)) == shown


@given(outer=steps, inner=steps)
def test_within_puts_the_outer_steps_first(outer: list[str | int], inner: list[str | int]) -> None:
    error = InputError("wrong", "fix it", tuple(inner))
    seen = error.within(*outer)
    assert seen.path == (*outer, *inner)
    assert (seen.problem, seen.remedy) == ("wrong", "fix it")
    assert error.path == tuple(inner), "the error itself is not changed"


def test_it_is_a_value_error() -> None:
    with pytest.raises(ValueError, match="wrong"):
        raise InputError("wrong", "fix it")
