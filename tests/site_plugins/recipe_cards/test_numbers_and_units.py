"""No line of a card ends between a number and its unit.

Units are those of the SI Brochure (9th edition, 2019): tables 2, 4 and 8 with the prefixes of table 7 that cards use,
and its 5.4.3, by which a space is between a number and a unit; and of NIST Handbook 44 (2024), appendix C, for the
kitchen's.
"""

import re
from pathlib import Path

import pytest

from .conftest import Element
from .test_page import NAMES, article, page

pytestmark = pytest.mark.no_cover

SI = r"°C|%|[kmµ]?g|[mc]?L|[kcmµ]?m|min|[hs]|k?J|k?Pa|W"
KITCHEN = r"°F|lb|(?:US |metric |imperial )?(?:fl oz|cups?|tbsp|tsp|pints?|quarts?|qt)|oz|EUR|(?:day|hour|minute)s?"
PARTED = re.compile(rf"[0-9½¼¾⅓⅔⅛⅜⅝⅞]\s(?:{SI}|{KITCHEN})(?![A-Za-z])", re.ASCII)
SPACED = re.compile(rf"[0-9½¼¾⅓⅔⅛⅜⅝⅞]\u00a0(?:{SI}|{KITCHEN})(?![A-Za-z])")
AS_WRITTEN = {"pre", "code", "script", "style", "svg", "select", "datalist", "textarea"}
IN_A_LINE = {"a", "abbr", "b", "em", "i", "output", "small", "span", "strong", "time"}


def lines(element: Element) -> str:
    """What is seen of an element; what is not in one line with what is around it has lines of its own."""
    seen = [child if isinstance(child, str) else lines(child) for child in element.children]
    text = "" if element.name in AS_WRITTEN else re.sub(r"\s*\n\s*", " ", "".join(seen))
    return text if element.name in IN_A_LINE else f"\x00{text}\x00"


@pytest.mark.parametrize("name", NAMES)
def test_a_number_stays_with_its_unit(demo: Path, name: str) -> None:
    text = lines(article(demo, name))
    assert [text[found.start() - 30 : found.end() + 10] for found in PARTED.finditer(text)] == []
    assert len(SPACED.findall(text)) > 100


@pytest.mark.parametrize("name", [*(f"{name}/handout" for name in NAMES), "."])
def test_so_it_does_on_handouts_and_lists(demo: Path, name: str) -> None:
    shown = page(demo, name).all(class_="cc-list" if name == "." else "cc-card")
    text = "".join(map(lines, shown))
    assert [text[found.start() - 30 : found.end() + 10] for found in PARTED.finditer(text)] == []
    assert SPACED.search(text)
