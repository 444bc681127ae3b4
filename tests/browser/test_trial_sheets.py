"""The sheets of a notebook on paper: each begins a page, nothing is cut, there is room to write, ticked ones print."""

import io
import re
import unicodedata
from pathlib import Path

import pytest
from playwright.sync_api import Page
from pypdf import PdfReader

SILK = "milk-emulsions/silk-milk-frosting/trials/sheets/"
CREAM = "creams-and-ganache/stabilised-whipped-cream/trials/sheets/"
ROOM_PT = 12
"""The least height of what is written into by pen."""

PT_PER_PX = 0.75
PAPERS_PT = {"A4": (595.3, 841.9), "Letter": (612, 792)}
"""ISO 216 and ANSI/ASME Y14.1; a browser rounds up to whole pixels."""


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", unicodedata.normalize("NFKC", text))


def printed(page: Page, paper: str) -> list[str]:
    """The text of each page; the paper is the one that is chosen in the browser."""
    reader = PdfReader(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=True)))
    for one in reader.pages:
        assert [float(side) for side in one.mediabox[2:]] == pytest.approx(PAPERS_PT[paper], abs=1)
    return [squeezed(one.extract_text()) for one in reader.pages]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(("address", "pages_of_a_weigh_sheet"), [(SILK, 2), (CREAM, 1)])
def test_every_sheet_begins_a_page_and_nothing_is_cut(
    page: Page, site: tuple[Path, str], address: str, pages_of_a_weigh_sheet: int, paper: str
) -> None:
    page.goto(site[1] + address)
    texts = page.locator("section.cc-to-fill").evaluate_all(
        """sections => sections.map(section => [...section.querySelectorAll("h2, th, td, dd, p, li")]
             .filter(one => !one.querySelector("p, li")).map(one => one.textContent))"""
    )
    kinds = page.locator("section.cc-to-fill").evaluate_all(
        "sections => sections.map(section => !!section.querySelector('.cc-weigh'))"
    )
    sheets = printed(page, paper)
    assert len(sheets) == sum(pages_of_a_weigh_sheet if weighs else 1 for weighs in kinds)
    at = 0
    for weighs, words in zip(kinds, texts, strict=True):
        count = pages_of_a_weigh_sheet if weighs else 1
        paper_text = "".join(sheets[at : at + count])
        assert squeezed(words[1]) in sheets[at], words[1]
        for text in words:
            assert squeezed(text).replace("☐", "") in paper_text.replace("☐", ""), text
        at += count
    assert "Printthissheet" not in "".join(sheets)
    assert "thenotebook" not in "".join(sheets)


def test_there_is_room_to_write_and_all_is_black_on_white(page: Page, site: tuple[Path, str]) -> None:
    page.goto(site[1] + SILK)
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 688, "height": 1000})  # 182 mm: A4 without its margins.
    heights = page.locator(".cc-pen, .cc-fill-in > span").evaluate_all(
        "boxes => boxes.map(box => box.getBoundingClientRect().height)"
    )
    assert len(heights) > 500
    assert min(heights) * PT_PER_PX >= ROOM_PT
    colours = page.locator(".cc-to-fill *:not(input)").evaluate_all(
        "all => [...new Set(all.map(one => getComputedStyle(one).color))]"
    )
    assert colours == ["rgb(0, 0, 0)"]
    assert page.evaluate("document.documentElement.scrollWidth") <= 688


def test_only_the_sheets_that_are_ticked_are_printed(page: Page, site: tuple[Path, str]) -> None:
    page.goto(site[1] + CREAM)
    for name in ("Sun test", "Keeping test"):
        page.locator("section", has=page.get_by_role("heading", name=name)).get_by_label("Print this sheet").check()
    sheets = printed(page, "A4")
    assert len(sheets) == 2
    assert "Keepingtest" in sheets[0]
    assert "Suntest" in sheets[1]
