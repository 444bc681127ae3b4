"""The page, CPython and Pyodide say the same, character for character, for every recipe and every calculator."""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

import pytest

from calc import bridge
from site_plugins.calculators.artefacts import Artefacts

VOID = {"input", "img", "br", "hr", "meta", "link", "source", "wbr", "col", "area", "base", "embed", "track"}


@dataclass
class Printed(HTMLParser):
    """What a page prints: the calculators on it, the texts by name, and the values of the form's fields."""

    calculators: list[tuple[str, str]] = field(default_factory=list)
    texts: list[tuple[str, str]] = field(default_factory=list)
    fields: list[tuple[str, str]] = field(default_factory=list)
    open: list[tuple[str, str | None, list[str]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "recipe-calculator":
            self.calculators.append((given["name"] or "", given["given"] or ""))
        if tag == "input" and given.get("type", "text") in ("text", "number", "range") and given.get("name"):
            self.fields.append((given["name"] or "", given.get("value") or ""))
        if tag not in VOID:
            self.open.append((tag, given.get("data-text"), []))

    def handle_endtag(self, tag: str) -> None:
        while self.open:
            was, name, words = self.open.pop()
            if name is not None:
                self.texts.append((name, "".join(words)))
            if self.open:
                self.open[-1][2].extend(words)
            if was == tag:
                break

    def handle_data(self, data: str) -> None:
        if self.open:
            self.open[-1][2].append(data)


def pages(folder: Path) -> Iterator[Path]:
    for page in sorted(folder.rglob("index.html")):
        if "<recipe-calculator" in page.read_text(encoding="utf-8"):
            yield page


@pytest.fixture(scope="module")
def printed(site: tuple[Path, str]) -> dict[str, tuple[Printed, str]]:
    """Every page with a calculator, by its address: what it prints, and its source."""
    found = {}
    for page in pages(site[0]):
        content = page.read_text(encoding="utf-8")
        reader = Printed()
        reader.feed(content)
        found[page.parent.relative_to(site[0]).as_posix()] = (reader, content)
    return found


def request(name: str, given: str, **edit: str) -> str:
    named = {key.replace("__", "."): value for key, value in edit.items()}
    return json.dumps({"calculator": name, "given": given, "state": {}, "edit": named})


def test_every_recipe_has_a_page_with_a_calculator(printed: dict[str, tuple[Printed, str]]) -> None:
    recipes = Path(__file__).parents[2] / "recipes"
    expected = {path.relative_to(recipes).with_suffix("").as_posix() for path in recipes.rglob("*.yaml")}
    assert expected
    assert expected <= printed.keys()


def test_the_page_prints_what_cpython_answers(printed: dict[str, tuple[Printed, str]]) -> None:
    for address, (page, source) in printed.items():
        texts = {}
        for name, given in page.calculators:
            reply = json.loads(bridge.answer(request(name, given)))
            assert "error" not in reply, (address, name, reply)
            assert not texts.keys() & reply["texts"].keys(), (address, name)
            texts |= reply["texts"]
        assert page.texts
        for name, shown in page.texts:
            assert shown == texts.get(name), (address, name)
        for name, value in page.fields:
            if name in texts:
                assert value == texts[name], (address, name)
        for name, text in texts.items():
            if name.startswith("picture.") and f'data-picture="{name}"' in source:
                assert text in source, (address, name)


def test_pyodide_answers_what_cpython_answers(
    printed: dict[str, tuple[Printed, str]],
    runtime: Artefacts,
    pyodide_answers: Callable[[Path, str, list[str]], list[str]],
) -> None:
    asked = []
    for page, _ in printed.values():
        for name, given in page.calculators:
            asked.append(request(name, given))
            if name == "batch":
                asked += [request(name, given, factor="1.37"), request(name, given, finished_mass="3 lb")]
                keys = json.loads(given)["recipe"]["ingredients"]
                asked += [request(name, given, **{f"amount__{key}": "123.4 g"}) for key in list(keys)[:3]]
    replies = pyodide_answers(runtime.folder, "snapshot", asked)
    assert len(replies) == len(asked)
    for question, reply in zip(asked, replies, strict=True):
        assert json.loads(reply) == json.loads(bridge.answer(question)), question[:300]
