"""Every demo recipe on paper, at several sizes and in several measures: two pages, legible, whole, and no controls."""

import io
import os
import re
import shutil
import subprocess
import unicodedata
from pathlib import Path

import pytest
from playwright.sync_api import Page
from pypdf import PdfReader

ROOT = Path(__file__).parents[2]
RECIPES = sorted(
    path.relative_to(ROOT / "recipes").with_suffix("").as_posix() for path in ROOT.glob("recipes/*/*.yaml")
)
SIZES = {
    "as published": "",
    "one and a half batches": "factor=1.5",
    "US cups": "units=us",
    "two batches in Australian cups": "factor=2&units=australian",
    "half a batch in ounces": "factor=0.5&units=ounces",
    "an awkward factor on a scale to 5 g": "factor=1.37&scale=coarse",
}
PAPERS = ("A4", "Letter")
LONGEST = "milk-emulsions/silk-milk-frosting"
"""The card that leaves the least room on its second page."""

SMALLEST_PT = 8.5
"""No sentence of the recipe is printed smaller; labels, second measures, figures and cautions may be."""

SENTENCES = ".cc-do, .cc-ingredient, .cc-look, .cc-why, .cc-scaled, .cc-checkpoint li, .cc-checkpoint :is(dt, dd)"
AMOUNTS = (
    ".cc-ingredients .cc-printed, .cc-portion [data-text], .cc-goes-in .cc-amount, .cc-after dd, .cc-key dd > span"
)
CONTROLS = (
    "Work through it", "Copy a link", "Undo", "Redo", "As published", "Start timer", "leave it out",
    "leave this step out", "Show amounts in", "Round to my scale", "My eggs", "Size it by",
    "Handout for a class", "print the",
)  # fmt: skip


OPEN_LINK = """fragment => new Promise(shown => {
  document.addEventListener("recipe-state", () => shown(), { once: true });
  location.hash = fragment;
})"""
"""Open a link to another size in the open page, and wait until it is computed and shown."""


def squeezed(text: str) -> str:
    """Without spaces and ligatures, which vary between PDFs."""
    return re.sub(r"\s+", "", unicodedata.normalize("NFKC", text))


def shown(page: Page, selector: str) -> list[str]:
    """The printed texts of what the selector finds, without the labels in front of them and the boxes to tick."""
    found = page.evaluate(
        """selector => [...document.querySelectorAll(selector)].filter(one => one.getClientRects().length).map(one => {
          const copy = one.cloneNode(true);
          for (const label of copy.querySelectorAll("b, .cc-tag, .cc-without")) label.remove();
          return copy.textContent;
        })""",
        selector,
    )
    return [squeezed(text) for text in found if text.strip()]


def sizes_pt(reader: PdfReader) -> list[tuple[float, str]]:
    """Each run of letters with its printed size, whatever the scale of the page."""
    runs: list[tuple[float, str]] = []

    def note(text: str, cm: list[float], tm: list[float], _: object, size: float) -> None:
        if text.strip():
            runs.append((size * abs(tm[3] * cm[3]), squeezed(text)))

    for one in reader.pages:
        one.extract_text(visitor_text=note)
    return runs


def has_palatino() -> bool:
    """Whether there is a font with the width that the promise of two pages is based on."""
    if shutil.which("fc-list") is None:
        return True
    listed = [subprocess.run(["fc-list", name], capture_output=True).stdout for name in ("Palatino", "P052")]
    return any(listed)


def cells(full: bool) -> dict[str, tuple[str, ...]]:
    """The papers that a recipe is printed on at each size.

    The longest as published on both, and in its longest measures on the shorter paper. In `make test-all` everything.
    """
    if full:
        return dict.fromkeys(SIZES, PAPERS)
    return {"as published": PAPERS, "two batches in Australian cups": ("Letter",)}


@pytest.mark.skipif(not has_palatino() and "CI" not in os.environ, reason="neither Palatino nor P052 is installed")
@pytest.mark.parametrize(
    "name", [pytest.param(name, marks=() if name == LONGEST else pytest.mark.full) for name in RECIPES]
)
def test_every_recipe_prints_completely_on_two_pages_at_most(
    page: Page, site: tuple[Path, str], full: bool, name: str
) -> None:
    address = f"{site[1]}{name}/"
    page.goto(address)
    page.wait_for_function("!!customElements.get('recipe-calculator')")
    for size, papers in cells(full).items():
        fragment = SIZES[size]
        if fragment:
            page.evaluate(OPEN_LINK, fragment)
            page.wait_for_function("location.hash === ''")  # It is kept.
        page.emulate_media(media="print")
        sentences, amounts, link = shown(page, SENTENCES), shown(page, AMOUNTS), shown(page, "[data-link]")
        assert link[0].partition("#")[0] == address
        assert {*link[0].partition("#")[2].split("&")} == {*fragment.split("&")}
        assert len(sentences) > 10
        assert len(amounts) > 10
        for paper in papers:
            place = f"{name}, {size}, {paper}"
            reader = PdfReader(io.BytesIO(page.pdf(format=paper)))
            assert len(reader.pages) <= 2, place
            runs = sizes_pt(reader)
            printed = "".join(text for _, text in runs)
            for text in (*sentences, *amounts, *link):
                assert text in printed, (place, text)
            for words in CONTROLS:
                assert squeezed(words) not in printed, (place, words)
            recipe_text = "".join(sentences)
            small = [
                (pt, text) for pt, text in runs if pt < SMALLEST_PT - 0.05 and len(text) > 15 and text in recipe_text
            ]
            assert small == [], place


def test_a_story_is_not_printed_and_parts_no_page(page: Page, site: tuple[Path, str]) -> None:
    page.goto(f"{site[1]}buttercreams/cooked-flour-buttercream/")
    stories = page.locator(".cc-story").all_text_contents()
    page.emulate_media(media="print")
    reader = PdfReader(io.BytesIO(page.pdf(format="A4")))
    printed = [squeezed(leaf.extract_text()) for leaf in reader.pages]
    assert len(printed) == 2
    assert ["Ingredients" in leaf and "Method" in leaf for leaf in printed] == [True, False]
    words = [squeezed(line) for story in stories for line in story.splitlines() if len(line.split()) > 4]
    assert len(words) > 4
    assert [line for line in words if line[:40] in "".join(printed)] == []
