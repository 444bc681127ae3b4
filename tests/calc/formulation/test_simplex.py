"""Checks against scipy's linprog (HiGHS) on random programs, and published small ones."""

from dataclasses import replace
from fractions import Fraction

import pytest
from crumbcoat_calc.formulation.linear_program import Constraint, LinearProgram, UnboundedError, as_fraction
from crumbcoat_calc.formulation.simplex import minimise
from hypothesis import given, settings
from hypothesis import strategies as st

NUMBERS = st.integers(-6, 6).map(Fraction)
SENSES = st.sampled_from(["<=", "=", ">="])


@st.composite
def programs(draw):
    variables = draw(st.integers(1, 6))
    rows = draw(
        st.lists(
            st.builds(
                lambda coefficients, sense, right: Constraint(tuple(coefficients), sense, right),
                st.lists(NUMBERS, min_size=variables, max_size=variables),
                SENSES,
                st.integers(-20, 20).map(Fraction),
            ),
            max_size=5,
        )
    )
    low = draw(st.lists(st.integers(0, 5).map(Fraction), min_size=variables, max_size=variables))
    width = draw(st.lists(st.one_of(st.none(), st.integers(0, 8)), min_size=variables, max_size=variables))
    high = tuple([None if more is None else one + more for one, more in zip(low, width, strict=True)])
    cost = draw(st.lists(NUMBERS, min_size=variables, max_size=variables))
    return LinearProgram(tuple(cost), tuple(rows), tuple(low), high)


def by_highs(program):
    import numpy as np
    from scipy.optimize import linprog

    upper, upper_right, equal, equal_right = [], [], [], []
    for row in program.constraints:
        cells = [float(c) for c in row.coefficients]
        if row.sense == "=":
            equal.append(cells)
            equal_right.append(float(row.right_side))
        else:
            sign = 1 if row.sense == "<=" else -1
            upper.append([sign * c for c in cells])
            upper_right.append(sign * float(row.right_side))
    return linprog(
        [float(c) for c in program.cost],
        A_ub=np.array(upper) if upper else None,
        b_ub=upper_right or None,
        A_eq=np.array(equal) if equal else None,
        b_eq=equal_right or None,
        bounds=[
            (float(low), None if high is None else float(high))
            for low, high in zip(program.low, program.high, strict=True)
        ],
        method="highs",
    )


@settings(max_examples=5 * settings().max_examples)
@given(programs())
def test_the_answer_is_that_of_highs_and_meets_every_condition(program):
    reference = by_highs(program)
    try:
        answer = minimise(program)
    except UnboundedError:
        # HiGHS' presolve may call such a program infeasible, though it has points; so it is asked about boxes of it.
        small, large = (by_highs(boxed(program, side)) for side in (1e4, 1e5))
        assert small.status == large.status == 0
        assert large.fun < small.fun - 1
        return
    if answer is None:
        # HiGHS' presolve may call an infeasible program "infeasible or unbounded" (status 4).
        assert reference.status in (2, 4)
        return
    assert reference.status == 0
    assert float(answer.cost) == pytest.approx(reference.fun, abs=1e-6)
    assert answer.cost == sum(c * x for c, x in zip(program.cost, answer.x, strict=True))
    for row in program.constraints:
        left = sum(c * x for c, x in zip(row.coefficients, answer.x, strict=True))
        assert {"<=": left <= row.right_side, "=": left == row.right_side, ">=": left >= row.right_side}[row.sense]
    for x, low, high in zip(answer.x, program.low, program.high, strict=True):
        assert low <= x
        assert high is None or x <= high


def boxed(program, side):
    """The same program, with a bound where a variable has none."""
    return replace(program, high=tuple([Fraction(side) if high is None else high for high in program.high]))


def program(cost, rows, high=None):
    count = len(cost)
    return LinearProgram(
        tuple(Fraction(c) for c in cost),
        tuple(Constraint(tuple(Fraction(c) for c in cells), sense, Fraction(right)) for cells, sense, right in rows),
        (Fraction(0),) * count,
        tuple(high or [None] * count),
    )


def test_it_does_not_cycle_where_the_textbook_example_does():
    """Beale's example (1955): the largest-coefficient rule cycles on it; the minimum is -1/20."""
    quarter = Fraction(1, 4)
    beale = program(
        (Fraction(-3, 4), 150, Fraction(-1, 50), 6),
        [
            ((quarter, -60, Fraction(-1, 25), 9), "<=", 0),
            ((Fraction(1, 2), -90, Fraction(-1, 50), 3), "<=", 0),
            ((0, 0, 1, 0), "<=", 1),
        ],
    )
    assert minimise(beale).cost == Fraction(-1, 20)


def test_doubled_conditions_do_no_harm():
    rows = [((1, 1), "=", 4), ((2, 2), "=", 8), ((1, -1), "=", 0)]
    assert minimise(program((1, 0), rows)).x == (2, 2)


def test_conditions_that_collide_have_no_answer():
    assert minimise(program((1, 1), [((1, 1), ">=", 5), ((1, 1), "<=", 4)])) is None
    assert minimise(LinearProgram((Fraction(1),), (), (Fraction(2),), (Fraction(1),))) is None


def test_a_cost_without_end_is_a_mistake():
    with pytest.raises(UnboundedError):
        minimise(program((-1,), []))


def test_numbers_are_taken_as_written():
    assert as_fraction(0.1) == Fraction(1, 10)
    assert as_fraction(81.11) == Fraction(8111, 100)
    assert as_fraction(Fraction(1, 3)) == Fraction(1, 3)
