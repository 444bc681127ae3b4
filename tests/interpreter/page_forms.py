"""The calculators on the pages of a built site: what each is about, and the fields that a reader can change."""

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from typing import Any


@dataclass(frozen=True)
class Form:
    """A calculator on a page: its context, and what can be chosen by name of a field; nothing where one can type."""

    calculator: str
    context: dict[str, Any]
    fields: dict[str, tuple[str, ...]]


@dataclass
class _Reader(HTMLParser):
    contexts: dict[str, str] = field(default_factory=dict)
    owners: dict[str, str] = field(default_factory=dict)
    """The calculator of each form."""
    fields: dict[str, dict[str, list[str]]] = field(default_factory=dict)
    inside: str = ""
    choices: list[str] | None = None

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = {name: value or "" for name, value in attrs}
        if tag == "recipe-calculator":
            self.inside = found["name"]
            self.contexts[self.inside] = found.get("context", "")
            self.fields[self.inside] = {}
        elif tag == "form" and self.inside:
            self.owners[found.get("id", "")] = self.inside
        elif tag in ("input", "select", "textarea") and found.get("name"):
            owner = self.owners.get(found["form"], "") if "form" in found else self.inside
            if owner:
                self.choices = self.fields[owner].setdefault(found["name"], [])
                if found.get("type") in ("radio", "checkbox"):
                    self.choices += [found.get("value", "on"), ""]
        elif tag == "option" and self.choices is not None:
            self.choices.append(found.get("value", ""))

    def handle_endtag(self, tag: str) -> None:
        if tag == "recipe-calculator":
            self.inside = ""


def forms_of(site: Path) -> Iterator[Form]:
    """Every calculator on every page of a built site, in the same order each time."""
    for page in sorted(site.rglob("*.html")):
        text = page.read_text(encoding="utf-8")
        if "<recipe-calculator" not in text:
            continue
        reader = _Reader()
        reader.feed(text)
        own = next(context for context in reader.contexts.values() if context)
        for calculator, context in reader.contexts.items():
            fields = {name: tuple(choices) for name, choices in reader.fields[calculator].items()}
            yield Form(calculator, json.loads(context or own), fields)
