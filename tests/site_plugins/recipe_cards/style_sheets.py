"""Style sheets read into rules, for the tests of them: what is nested is written out (CSS Nesting Module Level 1)."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from crumbcoat_site.recipe_cards.build.assets import COMPONENTS

SKIN = COMPONENTS.parents[1] / "journal_skin" / "journal.css"
TOKENS = COMPONENTS / "tokens.css"


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule: the file it is in, the at-rules around it, its selector written out, and its declarations."""

    file: Path
    around: tuple[str, ...]
    selector: str
    declarations: tuple[tuple[str, str], ...]

    @property
    def component(self) -> str:
        return self.file.parent.name

    @property
    def classes(self) -> frozenset[str]:
        return frozenset(re.findall(r"\.(c[cj]-[\w-]+)", self.selector))

    @property
    def subject(self) -> str:
        """The last compound of the selector: what is styled."""
        return (_outside_brackets(self.selector) or [""])[-1]

    @property
    def weight(self) -> tuple[int, int, int]:
        """Ids, classes and types (Selectors Level 4, 17)."""
        return _weight(self.selector)


@cache
def sheets() -> tuple[Path, ...]:
    """The style sheets of all components."""
    return tuple(sorted(COMPONENTS.glob("*/*.css")))


@cache
def rules(file: Path) -> tuple[Rule, ...]:
    text = re.sub(r"/\*.*?\*/", "", file.read_text(encoding="utf-8"), flags=re.DOTALL)
    return tuple(_rules(file, text, (), ""))


def all_rules() -> list[Rule]:
    return [rule for file in sheets() for rule in rules(file)]


def declarations() -> Iterator[tuple[Rule, str, str]]:
    for rule in all_rules():
        for name, value in rule.declarations:
            yield rule, name, value


def _rules(file: Path, text: str, around: tuple[str, ...], parent: str) -> Iterator[Rule]:
    """The rules of a block; declarations right in it are those of `parent`."""
    own: list[tuple[str, str]] = []
    for head, body in _blocks(text):
        if body is None:
            name, _, value = head.partition(":")
            own.append((name.strip(), value.strip()))
        elif head.startswith("@"):
            yield from _rules(file, body, (*around, head), parent)
        else:
            for selector in _split(head, ","):
                yield from _rules(file, body, around, _nested(parent, selector))
    if own:
        yield Rule(file, around, parent, tuple(own))


def _blocks(text: str) -> Iterator[tuple[str, str | None]]:
    """The parts of a block: a head and its body, or a declaration and None."""
    begin = at = 0
    quote = ""
    while at < len(text):
        letter = text[at]
        if quote or letter in "\"'":
            quote = "" if letter == quote else quote or letter
        elif letter == ";":
            if text[begin:at].strip():
                yield text[begin:at].strip(), None
            begin = at + 1
        elif letter == "{":
            end, depth = at + 1, 1
            while depth:
                depth += (text[end] == "{") - (text[end] == "}")
                end += 1
            yield " ".join(text[begin:at].split()), text[at + 1 : end - 1]
            begin = at = end
            continue
        at += 1
    if text[begin:].strip():
        yield text[begin:].strip(), None


def _nested(parent: str, selector: str) -> str:
    if not parent:
        return selector
    return selector.replace("&", parent) if "&" in selector else f"{parent} {selector}"


def _split(text: str, separator: str) -> list[str]:
    parts, depth = [""], 0
    for letter in text:
        depth += (letter in "([") - (letter in ")]")
        if letter == separator and not depth:
            parts.append("")
        else:
            parts[-1] += letter
    return [part.strip() for part in parts]


def _outside_brackets(selector: str) -> list[str]:
    """The compounds of a selector."""
    return [part for part in _split(re.sub(r"\s*[>+~]\s*(?![^(]*\))", " ", selector), " ") if part]


def _weight(selector: str) -> tuple[int, int, int]:
    total = [0, 0, 0]
    while found := re.search(r":(is|not|has|where)\(", selector):
        end, depth = found.end(), 1
        while depth:
            depth += (selector[end] == "(") - (selector[end] == ")")
            end += 1
        if found[1] != "where":
            inner = max(_weight(part) for part in _split(selector[found.end() : end - 1], ","))
            total = [one + other for one, other in zip(total, inner, strict=True)]
        selector = f"{selector[: found.start()]}{selector[end:]}"
    selector = re.sub(r"\[[^\]]*\]", "[]", selector)
    total[0] += len(re.findall(r"#[\w-]+", selector))
    total[1] += len(re.findall(r"\.[\w-]+|\[\]|(?<!:):(?!:)(?!before|after)[\w-]+", selector))
    total[2] += len(re.findall(r"(?:^|[\s>+~])[a-z][\w-]*|::[\w-]+", selector))
    return total[0], total[1], total[2]
