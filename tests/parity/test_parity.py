"""The page, CPython and Pyodide give the same texts, character for character, for all recipes and calculators."""

import hashlib
import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

import pytest
from crumbcoat_calc.bridge import Session
from crumbcoat_calc.values.spacing import unbroken, unbroken_html
from crumbcoat_site.calculators.artefacts import Artefacts

VOID = {"input", "img", "br", "hr", "meta", "link", "source", "wbr", "col", "area", "base", "embed", "track"}


@dataclass
class Printed(HTMLParser):
    """What a page prints: the calculators on it, the texts and the values of fields, each as calculator, name, text.

    A place inside a calculator's element belongs to it; a place outside belongs to any calculator with that text name.
    """

    calculators: list[tuple[str, str]] = field(default_factory=list)
    context: str = ""
    texts: list[tuple[str, str, str]] = field(default_factory=list)
    fields: list[tuple[str, str, str]] = field(default_factory=list)
    open: list[tuple[str, str | None, list[str]]] = field(default_factory=list)
    parts: list[tuple[int, str]] = field(default_factory=list)
    """Those open that belong to a calculator by `data-of`: how deep, and to which."""
    forms: dict[str, str] = field(default_factory=dict)
    inside: str = ""

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        if tag == "recipe-calculator":
            self.inside = found["name"] or ""
            self.context = self.context or found["context"] or ""
            self.calculators.append((self.inside, found.get("context") or self.context))
        if tag == "input" and found.get("type", "text") in ("text", "number", "range") and found.get("name"):
            form = found.get("form") or ""
            owner = self.inside or self.forms.get(form, form)
            self.fields.append((owner, found["name"] or "", found.get("value") or ""))
        if tag == "form" and self.inside:
            self.forms[found.get("id") or ""] = self.inside
        if tag not in VOID:
            if "data-of" in found:
                self.parts.append((len(self.open), found["data-of"] or ""))
            self.open.append((tag, found.get("data-text"), []))

    def handle_endtag(self, tag: str) -> None:
        while self.open:
            was, name, words = self.open.pop()
            if name is not None:
                part = self.parts[-1][1] if self.parts else ""
                self.texts.append((self.inside or part, name, "".join(words)))
            if self.parts and self.parts[-1][0] == len(self.open):
                self.parts.pop()
            if self.open:
                self.open[-1][2].extend(words)
            if was == tag:
                break
        if tag == "recipe-calculator":
            self.inside = ""

    def handle_data(self, data: str) -> None:
        if self.open:
            self.open[-1][2].append(data)


def pages(folder: Path) -> Iterator[Path]:
    for page in sorted(folder.rglob("index.html")):
        if "<recipe-calculator" in page.read_text(encoding="utf-8"):
            yield page


@pytest.fixture(scope="module")
def printed(site: tuple[Path, str]) -> dict[str, tuple[Printed, str]]:
    """What every page with a calculator prints, and its source, by address."""
    found = {}
    for page in pages(site[0]):
        content = page.read_text(encoding="utf-8")
        reader = Printed()
        reader.feed(content)
        found[page.parent.relative_to(site[0]).as_posix()] = (reader, content)
    return found


THOROUGHLY = ("milk-emulsions/silk-milk-frosting", "buttercreams/swiss-meringue-buttercream")
"""The cards that are tested with every kind of measure and size: one with several vessels, one with eggs."""


def request(name: str, context: str, **edit: str) -> str:
    """A request that includes its context, like the first request of a page."""
    named = {key.replace("__", "."): value for key, value in edit.items()}
    digest = hashlib.sha256(context.encode()).hexdigest()
    content = json.loads(context)
    return json.dumps({"calculator": name, "context": digest, "content": content, "state": {}, "edit": named})


def test_every_recipe_has_a_page_with_a_calculator(printed: dict[str, tuple[Printed, str]]) -> None:
    recipes = Path(__file__).parents[2] / "recipes"
    expected = {path.relative_to(recipes).with_suffix("").as_posix() for path in recipes.glob("*/*.yaml")}
    assert expected
    assert expected <= printed.keys()


def test_the_page_prints_what_cpython_answers(printed: dict[str, tuple[Printed, str]]) -> None:
    for address, (page, source) in printed.items():
        texts: dict[str, dict[str, str]] = {}
        for calculator, context in page.calculators:
            reply = json.loads(Session().answer(request(calculator, context)))
            assert "error" not in reply, (address, calculator, reply)
            assert calculator not in texts, (address, calculator)
            texts[calculator] = reply["texts"]
        assert page.texts
        for inside, name, shown in page.texts:
            owners = [inside] if inside else [owner for owner, known in texts.items() if name in known]
            answered = [unbroken(texts[owner].get(name, "")) for owner in owners]
            assert answered == [shown], (address, name)
        for owner, name, value in page.fields:
            if name in texts.get(owner, {}):
                assert value == texts[owner][name], (address, name)
        for known in texts.values():
            for name, text in known.items():
                if name.startswith("picture.") and f'data-picture="{name}"' in source:
                    assert unbroken_html(text) in source, (address, name)


def test_pyodide_answers_what_cpython_answers(
    printed: dict[str, tuple[Printed, str]],
    runtime: Artefacts,
    pyodide_answers: Callable[[Path, str, list[str]], list[str]],
) -> None:
    asked = []
    for address, (page, _) in printed.items():
        for name, context in page.calculators:
            asked.append(request(name, context))
            if name == "batch":
                asked += [request(name, context, factor="1.37"), request(name, context, finished_mass="3 lb")]
                keys = json.loads(context)["recipe"]["ingredients"]
                asked += [request(name, context, **{f"amount__{key}": "123.4 g"}) for key in list(keys)[:3]]
            if name == "batch" and address in THOROUGHLY:
                asked += [
                    request(name, context, units=units, factor="1.37") for units in ("us", "ounces", "australian")
                ]
                asked += [request(name, context, scale="coarse", bowl="4.8 L", cup_weighs="170 g", factor="5.3")]
                asked += [request(name, context, **{f"have__{key}": "123.4 g" for key in list(keys)[:2]})]
            if name == "cake" and address in THOROUGHLY:
                asked += [
                    request(
                        name,
                        context,
                        tier__2__shape="square",
                        tier__2__final="8 mm",
                        lengths="in",
                        cupcakes="12",
                        dam="10 mm",
                    )
                ]
    replies = pyodide_answers(runtime.folder, "snapshot", asked)
    assert len(replies) == len(asked)
    session = Session()
    for question, reply in zip(asked, replies, strict=True):
        assert json.loads(reply) == json.loads(session.answer(question)), question[:300]
