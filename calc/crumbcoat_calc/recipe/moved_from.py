"""Addresses that a recipe had before, as paths from the root of the site."""

import re

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import line

_EXAMPLE = "write its path alone, such as `2019/05/lemon-cream/`"
_WRONG = re.compile(r'[\\:*?"<>|#%]')
LONGEST_PATH = 300


def earlier_path(value: object) -> str:
    """Read a path; one without a file name ends with a slash.

    >>> earlier_path("/2019/05/lemon-cream"), earlier_path("lemon-cream.html")
    ('2019/05/lemon-cream/', 'lemon-cream.html')
    """
    written = line(value)
    if "://" in written:
        raise InputError(f"{written[:60]!r} is a whole address", _EXAMPLE)
    wrong = _WRONG.search(written)
    if wrong:
        problem = f"{written[:60]!r} has the character {wrong[0]!r}, which a path on a static host cannot have"
        raise InputError(problem, _EXAMPLE)
    parts = written.removeprefix("/").removesuffix("/").split("/")
    if any(part.strip(". ") == "" for part in parts) or len(written) > LONGEST_PATH:
        raise InputError(f"{written[:60]!r} is not the path of a page", _EXAMPLE)
    return "/".join(parts) + ("" if "." in parts[-1] and not written.endswith("/") else "/")
