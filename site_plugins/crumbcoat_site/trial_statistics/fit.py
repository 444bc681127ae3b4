"""A linear model fitted by least squares: its coefficients, their errors and intervals."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

CONFIDENCE = 0.95
"""The confidence of the intervals (common practice)."""


@dataclass(frozen=True, slots=True)
class Estimated:
    """A coefficient with its standard error, its interval, and the chance of one as large if it were zero."""

    value: float
    error: float
    low: float
    high: float
    p: float

    def times(self, factor: float) -> "Estimated":
        """The same of another unit; the factor is above zero."""
        return Estimated(factor * self.value, factor * self.error, factor * self.low, factor * self.high, self.p)


@dataclass(frozen=True, slots=True)
class Fit:
    """The coefficients by name, `mean` for the constant; the squares that are left, and their degrees of freedom."""

    terms: Mapping[str, Estimated]
    squares_left: float
    free: int


def fitted(columns: Mapping[str, Sequence[float]], values: Sequence[float]) -> Fit | None:
    """The coefficients of some columns and of a constant that fit values best.

    None if they cannot be separated, or if no degree of freedom is left for their errors.

    Args:
        columns: by name, as long as `values`.
    """
    import numpy
    from scipy import linalg, stats

    table = numpy.column_stack([numpy.ones(len(values)), *columns.values()])
    free = len(values) - table.shape[1]
    if free < 1 or numpy.linalg.matrix_rank(table) < table.shape[1]:
        return None
    q, r = linalg.qr(table, mode="economic")
    measured = numpy.asarray(values, dtype=float)
    found = linalg.solve_triangular(r, q.T @ measured)
    left = measured - table @ found
    squares_left = float(left @ left)
    inverse = linalg.solve_triangular(r, numpy.eye(len(found)))
    errors = numpy.sqrt(squares_left / free * (inverse**2).sum(axis=1))
    t = float(stats.t.ppf((1 + CONFIDENCE) / 2, free))
    terms = {}
    for name, value, error in zip(("mean", *columns), found.tolist(), errors.tolist(), strict=True):
        p = 2 * float(stats.t.sf(abs(value) / error, free)) if error > 0 else 0.0
        terms[name] = Estimated(value, error, value - t * error, value + t * error, p)
    return Fit(terms, squares_left, free)
