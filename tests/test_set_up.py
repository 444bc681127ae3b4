"""The lists of packages agree: what is set up for developers is all that is set up for a site."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[1]


def pinned(name: str) -> set[str]:
    """The packages of a list, each with its version."""
    return set(re.findall(r"^([\w.-]+==[^ \\]+)", (ROOT / name).read_text(encoding="utf-8"), re.MULTILINE))


def test_developers_get_all_that_a_site_needs_in_the_same_versions() -> None:
    for name in ("requirements.txt", "requirements-node.txt"):
        assert pinned(name)
        assert pinned(name) <= pinned("requirements-dev.txt"), name
