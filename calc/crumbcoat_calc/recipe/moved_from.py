"""Addresses that a recipe had before, as paths from the root of the site."""

import re

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import line

_EXAMPLE = "write its path alone, such as `2019/05/lemon-cream/`"
_WRONG = re.compile(r'[\\:*?"<>|#%]')
_FILE = re.compile(r"\.[a-z0-9]{1,12}$", re.IGNORECASE)
_PAGE_FILE = re.compile(r"\.(?:[sx]?html?|php|aspx?|jsp|cgi|cfm)$", re.IGNORECASE)
LONGEST_PATH = 300


def earlier_path(value: object) -> str:
    """Read a path; one without a file name ends with a slash.

    Raises:
        InputError: for a whole address, a file other than a page, such as `robots.txt`, and what steers a host.

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
    if parts[0].startswith("_") or any(part.startswith(".") for part in parts):
        raise InputError(f"{written[:60]!r} has a name that hosts keep for files of their own", _EXAMPLE)
    if written.endswith("/") or not _FILE.search(parts[-1]):
        return "/".join(parts) + "/"
    if not _PAGE_FILE.search(parts[-1]):
        raise InputError(
            f"{written[:60]!r} is not the file of a page", "write the path of a page, such as `old/cream.html`"
        )
    return "/".join(parts)
