"""Sites built by MkDocs without a runtime, and their pages read into a tree."""

from collections.abc import Callable, Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from tests.conftest import Once

ROOT = Path(__file__).parents[3]
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
"""Elements that have no end tag: HTML Living Standard, 13.1.2."""


class Element:
    """An element of a page: its name, attributes and children, elements or texts."""

    def __init__(self, name: str, attributes: dict[str, str]) -> None:
        self.name, self.attributes, self.children = name, attributes, list[Element | str]()

    def __getitem__(self, attribute: str) -> str:
        return self.attributes[attribute]

    def all(self, name: str = "", /, **wanted: str) -> "list[Element]":
        """Elements below this one by name, class (`class_`) and other attributes."""
        return [element for element in self.walk() if element is not self and element._fits(name, wanted)]

    def walk(self) -> "Iterator[Element]":
        yield self
        for child in self.children:
            if isinstance(child, Element):
                yield from child.walk()

    @property
    def text(self) -> str:
        """The text inside, with white space as a browser shows it."""
        return " ".join(self._text().split())

    def _text(self) -> str:
        return "".join(child if isinstance(child, str) else child._text() for child in self.children)

    def _fits(self, name: str, wanted: dict[str, str]) -> bool:
        classes = self.attributes.get("class", "").split()
        return name in ("", self.name) and all(
            value in classes if key == "class_" else self.attributes.get(key.replace("_", "-")) == value
            for key, value in wanted.items()
        )


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open = [Element("document", {})]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].children.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open[-1].name == tag, f"</{tag}> closes <{self.open[-1].name}>"
            self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)


def read_html(text: str) -> Element:
    """A page as a tree; fails where an end tag does not match."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    assert [element.name for element in reader.open] == ["document"]
    return reader.open[0]


def build_from(recipes: Path, folder: Path) -> Path:
    config = load_config(
        str(ROOT / "mkdocs.yml"),
        docs_dir=str(recipes),
        site_dir=str(folder / "site"),
        plugins=["search", "journal_skin", {"recipe_cards": {"cache": str(folder / "cache"), "show_cost": True}}],
    )
    build(config)
    return folder / "site"


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Path], Path]:
    """Build a folder of recipes as the demo site is built, but without the runtime; gives the site's folder."""
    return lambda recipes: build_from(recipes, tmp_path_factory.mktemp("site"))


@pytest.fixture(scope="session")
def demo(once: Once) -> Path:
    """The demo site, built as `built` does it."""
    return once("demo", lambda folder: build_from(ROOT / "recipes", folder)) / "site"
