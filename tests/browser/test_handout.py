"""Handouts in Chromium: live, and on paper. Paper sizes are from ISO 216 and ANSI/ASME Y14.1."""

import functools
import json
import os
import shutil
import subprocess
import sys
import unicodedata
from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from crumbcoat_site.recipe_cards.handout.pdf import handouts_in
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.card_page import context_on
from tests.chromium import HEADLESS
from tests.conftest import Once

ROOT = Path(__file__).parents[2]
Printed = Callable[[str, bool], dict[str, Path]]
MM = 72 / 25.4
PAPERS = {"A4": (210 * MM, 297 * MM), "Letter": (8.5 * 72, 11 * 72)}
SILK = "milk-emulsions/silk-milk-frosting/handout/"


FEW = ("creams-and-ganache/coating-ganache", "milk-emulsions/silk-milk-frosting")
"""The recipes with the shortest and the longest handouts that show every part: printed by `make test`."""


@pytest.fixture(scope="module")
def printed(
    site: tuple[Path, str], browser: object, full: bool, once: Once, tmp_path_factory: pytest.TempPathFactory
) -> Printed:
    """What the command prints, by address; `browser` is asked for so that a machine without one skips these tests."""
    kept: dict[tuple[str, bool], dict[str, Path]] = {}
    few = tmp_path_factory.mktemp("few")
    (few / "assets").symlink_to(site[0] / "assets")
    for name in FEW:
        shutil.copytree(site[0] / name, few / name)
    # In large print, `make test` lets the command find the same engine without a frame, which starts in half the time.
    shell = tmp_path_factory.mktemp("shell") / "chromium"
    shell.write_text(f'#!/bin/sh\nexec {HEADLESS} "$@"\n')
    shell.chmod(0o755)
    frameless = {**os.environ, "PATH": f"{shell.parent}{os.pathsep}{os.environ['PATH']}"}

    def make(paper: str, large: bool) -> dict[str, Path]:
        if (paper, large) not in kept:
            of = site[0] if full else few
            command = [sys.executable, "-m", "crumbcoat_site.recipe_cards.handout.pdf", "--paper", paper]
            command += ["--site", str(of), *(["--large"] if large else [])]

            def print_to(out: Path) -> None:
                done = subprocess.run(
                    [*command, "--out", str(out)],
                    cwd=ROOT,
                    env=frameless if large and not full else os.environ,
                    capture_output=True,
                    text=True,
                    check=True,
                )
                (out / "printed.txt").write_text(done.stdout, encoding="utf-8")

            out = once(f"handouts-{paper}-{large}", print_to)
            files = [Path(line) for line in (out / "printed.txt").read_text(encoding="utf-8").splitlines()]
            kept[paper, large] = dict(zip(handouts_in(of), files, strict=True))
        return kept[paper, large]

    return make


def check_sizes(file: Path, paper: str) -> None:
    """The run sheet is first, on its side; all others are upright, on the same paper."""
    wide, high = PAPERS[paper]
    sizes = [(float(sheet.mediabox.width), float(sheet.mediabox.height)) for sheet in PdfReader(file).pages]
    assert sizes[0] == pytest.approx((high, wide), abs=1.5)
    on_its_side = [width > height for width, height in sizes]
    assert on_its_side == sorted(on_its_side, reverse=True)
    for size, turned in zip(sizes, on_its_side, strict=True):
        assert size == pytest.approx((high, wide) if turned else (wide, high), abs=1.5)


def type_size_pt(file: Path) -> float:
    """The size of type that most letters are printed in."""
    letters: Counter[float] = Counter()

    def count(text: str, page: Sequence[float], line: Sequence[float], _: object, size: float) -> None:
        letters[size * abs(line[3] * page[3])] += len(text.strip())

    for sheet in PdfReader(file).pages:
        sheet.extract_text(visitor_text=count)
    return letters.most_common(1)[0][0]


@functools.cache
def texts_of(file: Path) -> list[str]:
    """The text on each page."""
    return [sheet.extract_text() for sheet in PdfReader(file).pages]


def words(text: str) -> str:
    """Without white space, and with ligatures as single letters: some fonts print `ﬀ` for ff."""
    return "".join(unicodedata.normalize("NFKC", text).split())


def test_what_a_teacher_changes_is_shown_in_every_part(site: tuple[Path, str], page: Page) -> None:
    page.goto(site[1] + SILK)
    calculator = page.locator("recipe-calculator[name=handout]")
    context = context_on(page)
    page.locator("[name=groups]").fill("3")
    page.locator("[name=sheets]").select_option("different")
    page.get_by_text("Kitchen: what all groups share").click()
    page.locator("[name=mixers]").fill("1")
    wanted = run("handout", context, {}, {"groups": "3", "sheets": "different", "mixers": "1"})[1]
    expect(calculator).to_have_attribute("data-state", "live", timeout=60_000)
    expect(page.locator("[data-text='class']")).to_have_text("12 students in 3 groups of 4")
    sheets = wanted["worksheets"]
    expect(page.locator("[data-sections=worksheets] > article")).to_have_count(len(sheets))
    for number, sheet in enumerate(page.locator("[data-sections=worksheets] > article").all()):
        assert isinstance(sheets[number], dict)
        expect(sheet.locator("h2")).to_have_text(str(sheets[number]["title"]))
        expect(sheet.locator("tbody tr").first).to_contain_text(sheets[number]["questions"][0][1])
    expect(page.locator("[data-rows='plan.tools'] tr")).to_have_count(1)
    expect(page.locator("[data-rows='plan.head'] th[scope=col]")).to_have_count(1 + 3)
    expect(page.locator("[data-rows=plan] tr").first.locator("td")).to_have_count(3)
    expect(page.locator("[data-sections=group_sheets] > article")).to_have_count(3 * 3)
    expect(page.locator("[data-rows=shopping] tr").first).to_contain_text(wanted["shopping"][0][1])
    page.locator("[name=sheets]").select_option("same")
    expect(page.locator("[data-sections=worksheets] > article")).to_have_count(len(sheets) // 3)
    for part, section in (("tasting", "tastings"), ("test", "worksheets")):
        count = page.locator(f"[data-sections={section}] > article").count()
        page.get_by_text("Teaching: age and what is printed").click()
        page.locator(f"[name={part}]").select_option("leave out")
        expect(page.locator(f"[data-sections={section}] > article")).to_have_count(count - 1)
        page.get_by_text("Teaching: age and what is printed").click()


def test_an_unusable_value_shows_its_error_beside_the_field_and_stays(site: tuple[Path, str], page: Page) -> None:
    page.goto(site[1] + SILK)
    page.locator("[name=start]").fill("noon")
    expect(page.locator("[data-problem=start]")).to_contain_text("write it like", timeout=60_000)
    expect(page.locator("[name=start]")).to_have_value("noon")


def test_another_recipe_can_be_added(site: tuple[Path, str], page: Page) -> None:
    page.goto(site[1] + "calculators/class-handout/")
    sheets = page.locator("[data-sections=group_sheets] > article")
    expect(sheets).to_have_count(4 * 3)
    page.locator("[data-context-from=third]").select_option(label="Dark coating ganache")
    expect(sheets.locator("h2").filter(has_text="C Dark coating ganache")).not_to_have_count(0, timeout=60_000)
    expect(sheets.filter(has_text="sheet 1 of")).to_have_count(4)
    expect(page.locator("[data-rows=shopping]")).to_contain_text("honey")


def test_label_cost_and_cautions_follow_the_batch(site: tuple[Path, str], page: Page) -> None:
    page.goto(site[1] + "creams-and-ganache/coating-ganache/")
    context = context_on(page)
    before = json.dumps(run("label", context, {}, {})[1]["label.words"])
    page.locator("tbody:has([name='without.honey']) .cc-about > summary").click()
    page.locator("input[name='without.honey']").check()
    wanted = run("label", context, {"without.honey": "yes"}, {})[1]
    assert json.dumps(wanted["label.words"]) != before
    expect(page.locator("[data-rows='label.words'] td").first).to_have_text(wanted["label.words"][0][1], timeout=60_000)
    expect(page.locator("[data-text='cautions.count']").first).to_have_text(str(wanted["cautions.count"]))
    expect(page.locator("[data-rows='cost.sums'] td").first).to_have_text(wanted["cost.sums"][0][1])
    page.locator(".cc-part:has([name='cost.cake']) > summary").click()
    page.locator("input[name='cost.cake']").fill("350")
    expect(page.locator("[data-rows='cost.sums'] tr")).to_have_count(4)


@pytest.mark.parametrize(
    ("paper", "large"), [("A4", False), pytest.param("Letter", False, marks=pytest.mark.full), ("A4", True)]
)
def test_every_handout_prints(site: tuple[Path, str], printed: Printed, paper: str, large: bool) -> None:
    files = printed(paper, large)
    assert len(files) >= len(FEW)
    for address, file in files.items():
        pages = PdfReader(file).pages
        assert len(pages) <= (48 if large else 24), file.name
        check_sizes(file, paper)
        assert all(text.strip() for text in texts_of(file)), f"{file.name} has an empty page"
        shown = words("".join(texts_of(file)))
        recipe = json.loads((site[0] / address).parent.joinpath("card.json").read_text(encoding="utf-8"))["recipe"]
        texts = run("handout", context_from({"recipe": recipe}))[1]
        printed_rows = [row[1] for row in texts["cautions"]] + [row[0] for row in texts["shopping"]]
        printed_rows += [row[1] for sheet in texts["worksheets"] for row in sheet["questions"]]
        printed_rows += [row[1] for key in texts["answer_keys"] for row in key["workings"]]
        printed_rows += [row[1] for sheet in texts["tastings"] for row in sheet["attributes"]]
        printed_rows += [row[3] for guide in texts["guides"] for row in (*guide["goals"], *guide["rubric"])]
        printed_rows += [row[2].strip("*") for row in texts["group_sheets"][0]["steps"]]
        printed_rows += [row[2] for row in texts["group_sheets"][1]["rescues"]]
        for sentence in printed_rows:
            assert words(sentence) in shown, (file.name, sentence)
        for tool in ("packs in your shop", "Seed of the worksheet", "Print this page"):
            assert words(tool) not in shown


def test_the_handout_of_a_class_prints_from_its_page(site: tuple[Path, str], page: Page, tmp_path: Path) -> None:
    """From the browser, with the theme around it: from the first sheet of paper on."""
    page.goto(site[1] + "calculators/class-handout/")
    for paper in PAPERS:
        page.locator("[name=paper]").evaluate("(field, paper) => field.value = paper", paper)
        file = tmp_path / f"{paper}.pdf"
        page.pdf(path=file, prefer_css_page_size=True)
        texts = texts_of(file)
        assert all(text.strip() for text in texts), f"an empty page on {paper}"
        assert words("Plain icing-sugar buttercream and Everyday milk frosting") in words(texts[0])
        check_sizes(file, paper)


def test_large_print_is_large(printed: Printed) -> None:
    """Print is called large from 14 pt on: common practice among those who print for low sight, from memory."""
    normal, large = printed("A4", False), printed("A4", True)
    for address, file in large.items():
        assert type_size_pt(normal[address]) < 12 < 14 <= type_size_pt(file), address


def test_answers_start_on_a_new_page(site: tuple[Path, str], printed: Printed, full: bool) -> None:
    files = printed("A4", False)
    assert len(files) == (len(handouts_in(site[0])) if full else len(FEW))
    for file in files.values():
        pages = texts_of(file)
        first = next(number for number, text in enumerate(pages) if "Answers" in text.split("\n")[:4])
        assert not any("halves up" in text for text in pages[:first])
        assert any("Worksheet".upper() in text.upper() for text in pages[:first])


def test_nothing_runs_off_the_paper(site: tuple[Path, str], page: Page) -> None:
    """Between margins of 14 mm, in CSS pixels of 1/96 inch, nothing is wider than its sheet."""
    page.emulate_media(media="print")
    for address in handouts_in(site[0]):
        page.goto(site[1] + address)
        for paper, size in (("A4", "normal"), ("Letter", "large")):
            wide = PAPERS[paper][0] / 72 * 96 - 2 * 14 / 25.4 * 96
            page.set_viewport_size({"width": int(wide), "height": 900})
            page.evaluate(
                "([a, b]) => { for (const [n, v] of [['paper', a], ['print', b]])"
                " document.querySelector(`[name=${n}]`).value = v; }",
                [paper, size],
            )
            over = page.evaluate(
                "() => [...document.querySelectorAll('.cc-sheet *')].filter((one) => one.getClientRects().length &&"
                " one.getBoundingClientRect().right > innerWidth + 1).map((one) => one.textContent.slice(0, 60))"
            )
            assert over == [], (address, paper, size)


def test_without_a_site_the_command_says_what_to_do(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "crumbcoat_site.recipe_cards.handout.pdf", "--site", str(tmp_path)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 1
    assert done.stderr.endswith("there are no handouts.\n    Fix: build the site first, with `make build`.\n")
