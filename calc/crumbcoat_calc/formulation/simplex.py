"""An exact solver of linear programs: simplex with bounds, two phases, Bland's rule, on fractions."""

from fractions import Fraction

from crumbcoat_calc.formulation.linear_program import LinearProgram, Solution, UnboundedError


def minimise(program: LinearProgram) -> Solution | None:
    """The x with the least cost, or None if no x meets the constraints.

    Bounds are handled by complementing variables, not as constraints, because a formulation has few balances and many
    bounds. Bland's rule (lowest index first) prevents cycling; fractions prevent rounding errors.

    Raises:
        UnboundedError: if the cost has no minimum.

    Source:
        derivation (bounded-variable simplex with Bland's rule).

    >>> from crumbcoat_calc.formulation.linear_program import Constraint
    >>> one, two = Fraction(1), Fraction(2)
    >>> constraint = Constraint((one, one), ">=", two)
    >>> minimise(LinearProgram((one, two), (constraint,), (Fraction(0),) * 2, (Fraction(3, 2), None)))
    Solution(x=(Fraction(3, 2), Fraction(1, 2)), cost=Fraction(5, 2))
    """
    count = len(program.cost)
    if any(high is not None and high < low for low, high in zip(program.low, program.high, strict=True)):
        return None
    tableau = _Tableau(program)
    if not tableau.phase_one():
        return None
    tableau.minimise([*program.cost, *[Fraction(0)] * (tableau.width - count)])
    x = tuple([value + low for value, low in zip(tableau.values()[:count], program.low, strict=True)])
    return Solution(x, sum([c * v for c, v in zip(program.cost, x, strict=True)], Fraction(0)))


class _Tableau:
    """The rows of B^-1 A with their right sides; the columns are variables, slacks and artificial variables."""

    def __init__(self, program: LinearProgram) -> None:
        count = len(program.cost)
        slacks = [constraint.sense for constraint in program.constraints]
        real = count + sum(sense != "=" for sense in slacks)
        self.width = real + len(program.constraints)
        self.artificial = real
        self.high: list[Fraction | None] = [
            None if high is None else high - low for low, high in zip(program.low, program.high, strict=True)
        ]
        self.high += [None] * (self.width - count)
        self.turned = [False] * self.width
        self.basis: list[int] = []
        self.rows: list[list[Fraction]] = []
        self.right: list[Fraction] = []
        slack = count
        for number, constraint in enumerate(program.constraints):
            cells = [*constraint.coefficients, *[Fraction(0)] * (self.width - count)]
            if constraint.sense != "=":
                cells[slack] = Fraction(1 if constraint.sense == "<=" else -1)
                slack += 1
            at_low = sum([c * low for c, low in zip(constraint.coefficients, program.low, strict=True)], Fraction(0))
            right = constraint.right_side - at_low
            if right < 0:
                cells, right = [-cell for cell in cells], -right
            cells[real + number] = Fraction(1)
            self.rows.append(cells)
            self.right.append(right)
            self.basis.append(real + number)

    def phase_one(self) -> bool:
        """Make all artificial variables zero; False if that is impossible."""
        self.minimise([Fraction(0)] * self.artificial + [Fraction(1)] * (self.width - self.artificial))
        if any(self.basis[r] >= self.artificial and self.right[r] > 0 for r in range(len(self.rows))):
            return False
        for r in range(len(self.rows)):
            if self.basis[r] >= self.artificial:
                column = next((j for j in range(self.artificial) if self.rows[r][j] != 0), None)
                if column is not None:
                    self._pivot(r, column)
        for j in range(self.artificial, self.width):
            self.high[j] = Fraction(0)
        return True

    def minimise(self, cost: list[Fraction]) -> None:
        while True:
            signed = [-c if turned else c for c, turned in zip(cost, self.turned, strict=True)]
            entering = self._entering(signed)
            if entering is None:
                return
            self._bring_in(entering)

    def _entering(self, signed: list[Fraction]) -> int | None:
        basic = set(self.basis)
        prices = [(signed[j], row) for j, row in zip(self.basis, self.rows, strict=True) if signed[j] != 0]
        for j in range(self.width):
            if j in basic or self.high[j] == 0:
                continue
            reduced = signed[j]
            for price, row in prices:
                if row[j]:
                    reduced -= price * row[j]
            if reduced < 0:
                return j
        return None

    def _bring_in(self, j: int) -> None:
        """Raise variable j until it or a basic variable reaches a bound; among equals, the lowest index leaves."""
        best, leaving, at_top = self.high[j], -1, False
        for r, row in enumerate(self.rows):
            rate = row[j]
            if rate == 0:
                continue
            top = self.high[self.basis[r]]
            if rate > 0:
                room = self.right[r] / rate
            elif top is not None:
                room = (self.right[r] - top) / rate
            else:
                continue
            index = j if leaving < 0 else self.basis[leaving]
            if best is None or room < best or (room == best and self.basis[r] < index):
                best, leaving, at_top = room, r, rate < 0
        if best is None:
            raise UnboundedError("the cost of a linear program has no minimum")
        if leaving < 0:
            self._turn(j)
            return
        if at_top:
            self._turn_basic(leaving)
        self._pivot(leaving, j)

    def _turn(self, j: int) -> None:
        """Measure a nonbasic variable down from its high bound instead of up from its low bound."""
        high = self.high[j]
        assert high is not None
        for r, row in enumerate(self.rows):
            if row[j]:
                self.right[r] -= row[j] * high
                row[j] = -row[j]
        self.turned[j] = not self.turned[j]

    def _turn_basic(self, r: int) -> None:
        """The same for the basic variable of a row: x = high - x', and the row times -1."""
        j = self.basis[r]
        high = self.high[j]
        assert high is not None
        self.right[r] = high - self.right[r]
        self.rows[r] = [-cell for cell in self.rows[r]]
        self.rows[r][j] = Fraction(1)
        self.turned[j] = not self.turned[j]

    def _pivot(self, r: int, j: int) -> None:
        pivot = self.rows[r][j]
        self.rows[r] = row = [cell / pivot for cell in self.rows[r]]
        self.right[r] /= pivot
        for other, cells in enumerate(self.rows):
            factor = cells[j]
            if other != r and factor:
                self.rows[other] = [a - factor * b if b else a for a, b in zip(cells, row, strict=True)]
                self.right[other] -= factor * self.right[r]
        self.basis[r] = j

    def values(self) -> list[Fraction]:
        """The value of each variable, measured from its low bound."""
        x = [Fraction(0)] * self.width
        for j, right in zip(self.basis, self.right, strict=True):
            x[j] = right
        for j, turned in enumerate(self.turned):
            if turned:
                high = self.high[j]
                assert high is not None
                x[j] = high - x[j]
        return x
