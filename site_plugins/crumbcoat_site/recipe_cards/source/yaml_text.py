"""YAML text -> mappings, lists and texts, with the line of each: nothing converted, doubled or shared."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml
from crumbcoat_calc.errors import Path
from crumbcoat_calc.values.fields import UNPRINTABLE

DEEPEST = 20
"""The recipe format needs 8 levels; more than this is a slip in the indentation or an attack."""

_LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_SYNTAX = (
    ("nesting", f"this is nested more than {DEEPEST} levels deep", "check the brackets and the indentation"),
    ("start any token", "a text begins with a sign that cannot begin one", "put quotes round the text"),
    (
        "mapping values are not allowed",
        "there is an unexpected colon",
        "put quotes round a text that has a colon, and begin the fields of one block in the same column",
    ),
    ("unknown escape", "the backslash means nothing here", "write two, or take single quotes round the text"),
    ("escape", "the backslash begins a character that there is not", "write two, or take single quotes round the text"),
    ("quoted scalar", "a quote opens here and never closes", "close it at the end of the text"),
    (
        "expected key",
        "the line does not fit the block above it",
        "begin the fields of one block in the same column, and let nothing follow a closing quote",
    ),
    (
        "block collection",
        "the line does not fit the list above it",
        "begin the entries of one list in the same column, each with `- `",
    ),
    ("block sequence entries", "a list starts in the wrong place", "start it on the next line, indented"),
    (
        "flow",
        "a bracket or brace does not close, or a comma is missing",
        "close it, or put the entries on lines of their own",
    ),
    ("expected ':'", "the line has no `name:`", "write `name: value`, with a colon and a space after the name"),
    ("block scalar", "there is unexpected text after the | or >", "start the text on the next line, indented"),
)
"""What the parser says, as part of its words, with a problem and a remedy for people."""


class YamlError(Exception):
    """A YAML text cannot be used: the line, counted from 1, the problem and the remedy."""

    def __init__(self, line: int, problem: str, remedy: str) -> None:
        super().__init__(line, problem, remedy)
        self.line = line
        self.problem = problem
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class Document:
    """What a YAML text holds: mappings, lists and texts, and the line of each path, from 1."""

    data: object
    lines: dict[Path, int]

    def line_of(self, path: Path) -> int:
        """The line of a path, or of the nearest thing around it that is there."""
        while path not in self.lines:
            path = path[:-1]
        return self.lines[path]


def read_document(text: str) -> Document:
    """The one document of a YAML text; every value is the text it is written as, so `no` and `010` stay.

    Raises:
        YamlError: if it is empty or not YAML, or has a doubled field, an anchor, an alias, a tag, a second document
            or more than DEEPEST levels.

    >>> read_document("milk: {amount: 010 g}").data
    {'milk': {'amount': '010 g'}}
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    stranger = UNPRINTABLE.search(text)
    if stranger:
        line = text.count("\n", 0, stranger.start()) + 1
        problem = f"the line holds a character that cannot be shown, U+{ord(stranger[0]):04X}"
        raise YamlError(line, problem, "type the line again, and save the file as UTF-8")
    lines = text.split("\n")
    try:
        reader = _read(yaml.parse(text, Loader=_LOADER), lines)
    except yaml.MarkedYAMLError as error:
        raise _syntax_error(lines, error) from None
    if not reader.lines or reader.root == "":
        raise YamlError(1, "the file is empty", "write a recipe, beginning with `title: …`")
    return Document(reader.root, reader.lines)


@dataclass(slots=True)
class _Open:
    """A mapping or list whose end is not reached yet; `name` is the field whose value comes next."""

    path: Path
    value: dict[str, object] | list[object]
    name: str | None = None


@dataclass(slots=True)
class _Reader:
    """Puts events together with a stack of its own, so that no depth of nesting can exhaust Python's."""

    lines: dict[Path, int] = field(default_factory=dict)
    stack: list[_Open] = field(default_factory=list)
    root: object = ""

    def wants_name(self) -> bool:
        return bool(self.stack) and isinstance(self.stack[-1].value, dict) and self.stack[-1].name is None

    def take_name(self, name: str, line: int) -> None:
        top = self.stack[-1]
        path = (*top.path, name)
        if not name.strip():
            raise YamlError(line, "a field has no name", "write `name: value`")
        if name in top.value:
            problem = f"{name!r} appears twice in this block, first in line {self.lines[path]}"
            raise YamlError(line, problem, "keep one, or give one of them another name")
        self.lines[path] = line
        top.name = name

    def add(self, value: object, line: int) -> Path:
        """Put a value where it belongs; its path."""
        path: Path = ()
        if not self.stack:
            self.root = value
        else:
            top = self.stack[-1]
            if isinstance(top.value, list):
                path = (*top.path, len(top.value))
                top.value.append(value)
            else:
                assert top.name is not None
                path = (*top.path, top.name)
                top.value[top.name] = value
                top.name = None
        self.lines.setdefault(path, line)
        return path

    def begin(self, value: dict[str, object] | list[object], line: int) -> None:
        if self.wants_name():
            problem = "expected the name of a field, but found a list or block"
            raise YamlError(line, problem, "write `name: value` with a plain name")
        if len(self.stack) == DEEPEST:
            raise YamlError(line, f"this is nested more than {DEEPEST} levels deep", "check the indentation")
        self.stack.append(_Open(self.add(value, line), value))


def _read(events: Iterator[yaml.Event], lines: list[str]) -> _Reader:
    reader = _Reader()
    documents = 0
    for event in events:
        assert event.start_mark is not None
        line = event.start_mark.line + 1
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents == 2:
                raise YamlError(line, "a second document begins here", "give each recipe a file of its own")
        elif isinstance(event, yaml.NodeEvent):
            _refuse_sharing(event, line)
            if isinstance(event, yaml.MappingStartEvent):
                reader.begin({}, line)
            elif isinstance(event, yaml.SequenceStartEvent):
                reader.begin([], line)
            elif isinstance(event, yaml.ScalarEvent):
                _refuse_swallowed_entry(event, lines)
                if reader.wants_name():
                    reader.take_name(event.value, line)
                else:
                    reader.add(event.value, line)
        elif isinstance(event, yaml.CollectionEndEvent):
            reader.stack.pop()
    return reader


def _refuse_sharing(event: yaml.NodeEvent, line: int) -> None:
    if event.anchor is not None:
        sign = ("*" if isinstance(event, yaml.AliasEvent) else "&") + event.anchor
        remedy = "write the value out at each place, or put quotes round a text that begins with * or &"
        raise YamlError(line, f"{sign!r} repeats a value in several places, which recipe files do not support", remedy)
    tag = getattr(event, "tag", None)
    if tag is not None:
        shown = tag.replace("tag:yaml.org,2002:", "!!")
        remedy = "leave it out, or put quotes round a text that begins with !"
        raise YamlError(line, f"{shown!r} names a type, which a recipe file cannot", remedy)


def _refuse_swallowed_entry(event: yaml.ScalarEvent, lines: list[str]) -> None:
    """YAML reads an entry that is indented too far as a part of the text above it."""
    if event.style or event.start_mark is None or event.end_mark is None:
        return
    for number in range(event.start_mark.line + 1, min(event.end_mark.line + 1, len(lines))):
        if lines[number].lstrip().startswith("- ") and lines[number].split("- ", 1)[1].strip() in event.value:
            remedy = "begin the entries of one list in the same column, or put quotes round the text"
            raise YamlError(number + 1, "the entry is read as a part of the text above it", remedy)


def _syntax_error(lines: list[str], error: yaml.MarkedYAMLError) -> YamlError:
    told = " ".join(part for part in (error.context, error.problem) if part)
    mark = error.problem_mark or error.context_mark
    if "escape" not in told and ("quoted scalar" in told or "parsing a flow" in told):
        mark = error.context_mark or mark
    number = min(mark.line if mark else 0, len(lines) - 1)
    for near in (number, number - 1):
        if near >= 0 and re.match(r" *\t *\S", lines[near]):
            return YamlError(near + 1, "the line is indented with a tab", "indent with spaces")
    for sign, problem, remedy in _SYNTAX:
        if sign in told:
            return YamlError(number + 1, problem, remedy)
    return YamlError(number + 1, f"this cannot be read as YAML ({told})", "check this line and the one before it")
