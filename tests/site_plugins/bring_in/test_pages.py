"""Whole pages in the manner of many publishers, all invented: their drafts, letter for letter, and what holds for all.

A draft that has changed on purpose is written again by `crumbcoat bring-in PAGE` in a site whose author is AUTHOR.
"""

import re
import socket
from pathlib import Path

import pytest
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_site.bring_in.draft import Settings, draft_of
from crumbcoat_site.bring_in.findings import DOUBTFUL
from crumbcoat_site.bring_in.saved_pages import ReadPage, read_page
from crumbcoat_site.recipe_cards.pages.drafts import says_draft
from crumbcoat_site.recipe_cards.source.every_problem import read_file
from crumbcoat_site.recipe_cards.source.yaml_text import read_document

PAGES = Path(__file__).parent / "pages"
DRAFTS = Path(__file__).parent / "drafts"
NAMES = sorted(path.name for path in PAGES.iterdir() if path.is_file())
AUTHOR = "Lantern Street teaching kitchen"
SETTINGS = Settings(author=AUTHOR, own={})
FOR_THE_AUTHOR = re.compile(
    "has neither `kind` nor `composition` nor `pack`"
    "|has no weight: no source weighs a pinch|no weight is known for|has no unit|unknown unit|nothing is listed here"
)
"""The problems that a draft may have: what something is, and what it weighs, is for its author to say."""


@pytest.fixture(autouse=True)
def _no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise AssertionError("a network was asked")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)


def page_of(name: str) -> ReadPage:
    return read_page(PAGES / name, name)


def drafts_of(name: str) -> dict[str, str]:
    """The text of each draft of a page, by the name that it has in the folder of drafts."""
    stem = name.partition(".")[0]
    recipes = page_of(name).recipes
    names = [f"{stem}{f'.{number}' if len(recipes) > 1 else ''}.yaml" for number in range(1, len(recipes) + 1)]
    return {file: draft_of(found, SETTINGS).text for file, found in zip(names, recipes, strict=True)}


def test_there_are_fifteen_pages_and_every_draft_is_one_of_theirs() -> None:
    assert len(NAMES) >= 15
    assert {file for name in NAMES for file in drafts_of(name)} == {path.name for path in DRAFTS.iterdir()}


@pytest.mark.parametrize("name", NAMES)
def test_a_page_gives_its_drafts(name: str) -> None:
    for file, text in drafts_of(name).items():
        assert text == (DRAFTS / file).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_a_draft_has_only_problems_that_its_author_decides(name: str, tmp_path: Path) -> None:
    for file, text in drafts_of(name).items():
        path = tmp_path / file
        path.write_text(text, encoding="utf-8")
        problems = [problem.problem for problem in read_file(path, file).problems]
        assert [problem for problem in problems if not FOR_THE_AUTHOR.search(problem)] == []
        assert says_draft(text.encode())


def words_of(text: str) -> str:
    """A text as one line, without the signs of comments, of YAML and of long texts."""
    return " ".join(re.sub(r"(?m)^ *(?:# |- )?(?:[a-z_0-9]+: )?(?:>-)?", " ", text).replace('\\"', '"').split())


@pytest.mark.parametrize("name", [name for name in NAMES if name != "hostile.html"])
def test_nothing_is_dropped(name: str) -> None:
    page = page_of(name)
    for found, text in zip(page.recipes, drafts_of(name).values(), strict=True):
        shown = words_of(text)
        assert [line for line in found.lines if words_of(line) not in shown] == []
        data = read_document(text).data
        assert isinstance(data, dict)
        done = " ".join([plain_text(step["do"]) for stage in data["stages"] for step in stage["steps"]])
        for section in found.sections:
            assert [step.text for step in section.steps if step.text not in done] == []
            assert [tip for tip in section.tips if tip not in [plain_text(note) for note in data["notes"]]] == []
            assert section.title in ("", *[stage["title"] for stage in data["stages"]])
        assert [name for name, words in found.others if words_of(f"{name}: {words}") not in shown] == []
        assert [word for word in found.keywords if word not in data["keywords"]] == []


@pytest.mark.parametrize("name", NAMES)
def test_what_is_doubtful_is_marked(name: str) -> None:
    for found in page_of(name).recipes:
        draft = draft_of(found, SETTINGS)
        doubts = [finding for finding in draft.findings.listed if finding.state == DOUBTFUL]
        assert draft.text.count("# check: ") >= len({doubt.why for doubt in doubts if doubt.why}) - draft.text.count(
            "; "
        )
        for doubt in doubts:
            assert doubt.why[:100] in draft.text
            assert len(doubt.others) <= 3


def test_problems_of_pages_have_a_place_and_a_remedy() -> None:
    problems = [str(problem) for name in NAMES for problem in page_of(name).problems]
    assert problems == [
        "broken.html:3: this is not JSON: Expecting ',' delimiter.\n"
        "    Fix: correct it in the file; other recipes of the page are read all the same.",
        "several.html: this page has only the name of 'Nut paste', and the recipe is in https://attic.example/nut-paste/."
        "\n    Fix: open that page and save it.",
    ]
