"""YAML text -> mappings, lists and texts with the line of each. Nothing is converted, repeated or shared."""

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml
from crumbcoat_calc.errors import Path
from crumbcoat_calc.values.fields import UNPRINTABLE

from crumbcoat_site.recipe_cards.source.yaml_errors import (
    DEEPEST,
    YamlError,
    refuse_sharing,
    refuse_swallowed_entry,
    syntax_error,
)  # fmt: skip

_LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


@dataclass(frozen=True, slots=True)
class Document:
    """The content of a YAML text: mappings, lists and texts, and the line of each path, counted from 1."""

    data: object
    lines: dict[Path, int]

    def line_of(self, path: Path) -> int:
        """The line of a path, or of the nearest path around it that exists."""
        while path not in self.lines:
            path = path[:-1]
        return self.lines[path]


def read_document(text: str, wanted: str = "a recipe, starting with `title: …`") -> Document:
    """The document in a YAML text. Every value stays the text that was written, such as `no` or `010`.

    Args:
        wanted: what an empty file should hold.

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
        problem = f"the line has a character that cannot be shown, U+{ord(stranger[0]):04X}"
        raise YamlError(line, problem, "type the line again, and save the file as UTF-8")
    lines = text.split("\n")
    try:
        reader = _read(yaml.parse(text, Loader=_LOADER), lines)
    except yaml.MarkedYAMLError as error:
        raise syntax_error(lines, error) from None
    if not reader.lines or reader.root == "":
        raise YamlError(1, "the file is empty", f"write {wanted}")
    return Document(reader.root, reader.lines)


@dataclass(slots=True)
class _Open:
    """A mapping or list that is not complete; `name` is the field whose value comes next."""

    path: Path
    value: dict[str, object] | list[object]
    name: str | None = None


@dataclass(slots=True)
class _Reader:
    """Puts events together with its own stack, so that deep nesting cannot exhaust that of Python."""

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
        """Put a value in its place, and return its path."""
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
                raise YamlError(line, "a second document starts here", "give each recipe its own file")
        elif isinstance(event, yaml.NodeEvent):
            refuse_sharing(event, line)
            if isinstance(event, yaml.MappingStartEvent):
                reader.begin({}, line)
            elif isinstance(event, yaml.SequenceStartEvent):
                reader.begin([], line)
            elif isinstance(event, yaml.ScalarEvent):
                refuse_swallowed_entry(event, lines)
                if reader.wants_name():
                    reader.take_name(event.value, line)
                else:
                    reader.add(event.value, line)
        elif isinstance(event, yaml.CollectionEndEvent):
            reader.stack.pop()
    return reader
