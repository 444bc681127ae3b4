"""Blind tastings: how likely a number of right answers, or an uneven choice, is by chance alone."""


def triangle_p(people: int, right: int) -> float:
    """The chance that at least this number find the odd one of three by guessing: exact binomial with 1/3."""
    from scipy import stats

    return float(stats.binom.sf(right - 1, people, 1 / 3))


def paired_p(people: int, chose: int) -> float:
    """The chance of a choice at least as uneven, either way, if both were liked alike: exact binomial with 1/2."""
    from scipy import stats

    return float(stats.binomtest(chose, people, 0.5).pvalue)
