"""A YAML text with some of its values changed; comments, order, quotes and everything else stay as they are."""

import io
import re
from collections.abc import Callable, Mapping
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq

from crumbcoat_site.recipe_cards.source.short_forms import short_name

_NUMBER = re.compile(r"[0-9]{1,9}(\.[0-9]{1,9})?")
_INDENTS = ((4, 2), (2, 0))
"""How deep entries of a list are, and their dashes: the two ways that people write them."""


def edited(text: str, change: Callable[[CommentedMap], None]) -> str:
    """The text after a change of what is in it.

    Args:
        text: YAML that holds fields.
        change: changes the fields in place.
    """
    fitting = min(_INDENTS, key=lambda indent: _differing(text, _written(_editor(indent), _read(text, indent))))
    content = _read(text, fitting)
    change(content)
    return _written(_editor(fitting), content)


def put_differences(content: Any, before: Any, after: Any) -> None:
    """Change fields, in place, by what differs between two readings of them: each value only where it differs.

    Args:
        content: the fields of a YAML text.
        before: what was read from it, as plain data; a short form may be written out there.
        after: what should be read from it then.
    """
    for name in [name for name in before if name not in after]:
        del content[_written_name(content, name)]
    for name, value in after.items():
        if name not in before:
            content[name] = _plain(value)
        elif value != before[name]:
            _put(content, _written_name(content, name), before[name], value)


def _put(content: Any, name: Any, before: object, after: object) -> None:
    inner = content[name]
    if isinstance(before, Mapping) and isinstance(after, Mapping) and isinstance(inner, CommentedMap):
        put_differences(inner, before, after)
    elif isinstance(before, list) and isinstance(after, list) and isinstance(inner, CommentedSeq):
        _put_entries(inner, before, after)
    else:
        content[name] = _plain(after)


def _put_entries(content: CommentedSeq, before: list[object], after: list[object]) -> None:
    """Change the entries of a list; where some were added or taken away, those at both ends that are alike stay."""
    first = 0
    while first < min(len(before), len(after)) and before[first] == after[first]:
        first += 1
    last = 0
    while last < min(len(before), len(after)) - first and before[-1 - last] == after[-1 - last]:
        last += 1
    if len(before) == len(after):
        for place in range(first, len(before) - last):
            if before[place] != after[place]:
                _put(content, place, before[place], after[place])
        return
    for place in reversed(range(first, len(before) - last)):
        del content[place]
    for place, value in enumerate(after[first : len(after) - last], first):
        content.insert(place, _plain(value))


def _written_name(content: CommentedMap, name: str) -> str:
    """How the name of a field is written: a writer may give it spaces and capitals."""
    if name in content:
        return name
    return next(str(written) for written in content if short_name(str(written)) == name)


def _plain(value: object) -> object:
    """A value as it is written; a block in one line."""
    if isinstance(value, Mapping):
        if "written" in value:  # A kind whose figures a build filled in.
            return value["written"]
        block = CommentedMap({name: _plain(part) for name, part in value.items()})
        block.fa.set_flow_style()
        return block
    if isinstance(value, list):
        entries = CommentedSeq([_plain(part) for part in value])
        entries.fa.set_flow_style()
        return entries
    return _number(value) if isinstance(value, str) and _NUMBER.fullmatch(value) else value


def _number(text: str) -> int | float | str:
    """A number, so that it is written without quotes; one that would be written in another way stays a text."""
    number = float(text) if "." in text else int(text)
    return number if str(number) == text else text


def _editor(indent: tuple[int, int]) -> YAML:
    editor = YAML(typ="rt")
    editor.preserve_quotes = True
    editor.width = 1_000_000
    editor.indent(mapping=2, sequence=indent[0], offset=indent[1])
    return editor


def _read(text: str, indent: tuple[int, int]) -> CommentedMap:
    content: CommentedMap = _editor(indent).load(text)
    return content


def _written(editor: YAML, content: CommentedMap) -> str:
    out = io.StringIO()
    editor.dump(content, out)
    return out.getvalue()


def _differing(text: str, other: str) -> int:
    lines = set(text.splitlines())
    return len([line for line in other.splitlines() if line not in lines])
