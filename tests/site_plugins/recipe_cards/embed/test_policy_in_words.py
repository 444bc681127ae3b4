"""What the page on embedded cards says that a blog's security policy must allow."""

import re
from pathlib import Path

from tests.foreign_page import policy

PAGE = Path(__file__).parents[4] / "recipes" / "reference" / "embedding.md"


def test_the_page_asks_for_what_the_strict_policy_of_our_foreign_pages_allows() -> None:
    asked = re.findall(r"^\| `([a-z]+-src) ([^`]+)` \|", PAGE.read_text(encoding="utf-8"), re.MULTILINE)
    tried = dict(part.split(" ", 1) for part in policy("https://kitchen.example/").split("; "))
    assert {name: set(sources.split()) for name, sources in asked} == {
        name: set(sources.split()) for name, sources in tried.items() if name not in ("default-src", "style-src")
    }
