"""What is wrong with a YAML text, in words for people."""

import re

import yaml

DEEPEST = 20
"""The recipe format needs 8 levels. More than this is a mistake in the indentation, or an attack."""

_SYNTAX = (
    ("nesting", f"this is nested more than {DEEPEST} levels deep", "check the brackets and the indentation"),
    ("start any token", "a text cannot start with this character", "put quotes around the text"),
    (
        "mapping values are not allowed",
        "there is an unexpected colon",
        "put quotes around a text that has a colon, and start the fields of one block in the same column",
    ),
    ("unknown escape", "the backslash has no meaning here", "write two, or put single quotes around the text"),
    (
        "escape",
        "the backslash sequence is not valid",
        "write two, or put single quotes around the text",
    ),
    ("quoted scalar", "this quote is never closed", "close it at the end of the text"),
    (
        "expected key",
        "the line does not fit the block above it",
        "start the fields of one block in the same column, and write nothing after a closing quote",
    ),
    (
        "block collection",
        "the line does not fit the list above it",
        "start the entries of one list in the same column, each with `- `",
    ),
    ("block sequence entries", "a list starts in the wrong place", "start it on the next line, indented"),
    (
        "flow",
        "a bracket or brace is not closed, or a comma is missing",
        "close it, or write each entry on a line of its own",
    ),
    ("expected ':'", "the line has no `name:`", "write `name: value`, with a colon and a space after the name"),
    ("block scalar", "there is unexpected text after the | or >", "start the text on the next line, indented"),
)
"""Words of the parser's message, with the problem and the remedy for people; the first that fits is used."""


class YamlError(Exception):
    """A YAML text cannot be used: the line, counted from 1, the problem and the remedy."""

    def __init__(self, line: int, problem: str, remedy: str) -> None:
        super().__init__(line, problem, remedy)
        self.line = line
        self.problem = problem
        self.remedy = remedy


def refuse_sharing(event: yaml.NodeEvent, line: int) -> None:
    """Refuse anchors, aliases and tags."""
    if event.anchor is not None:
        sign = ("*" if isinstance(event, yaml.AliasEvent) else "&") + event.anchor
        remedy = "repeat the value in each place, or put quotes around a text that starts with * or &"
        raise YamlError(line, f"{sign!r} repeats a value in several places, which recipe files do not support", remedy)
    tag = getattr(event, "tag", None)
    if tag is not None:
        shown = tag.replace("tag:yaml.org,2002:", "!!")
        remedy = "remove it, or put quotes around a text that starts with !"
        raise YamlError(line, f"{shown!r} sets the type of a value, which recipe files do not support", remedy)


def refuse_swallowed_entry(event: yaml.ScalarEvent, lines: list[str]) -> None:
    """Refuse an entry that is indented too far: YAML reads it as part of the text above it."""
    if event.style or event.start_mark is None or event.end_mark is None:
        return
    for number in range(event.start_mark.line + 1, min(event.end_mark.line + 1, len(lines))):
        if lines[number].lstrip().startswith("- ") and lines[number].split("- ", 1)[1].strip() in event.value:
            remedy = "start the entries of one list in the same column, or put quotes around the text"
            raise YamlError(number + 1, "the entry is read as part of the text above it", remedy)


def syntax_error(lines: list[str], error: yaml.MarkedYAMLError) -> YamlError:
    """The parser's error in words for people; `lines` are those of the text."""
    said = " ".join(part for part in (error.context, error.problem) if part)
    mark = error.problem_mark or error.context_mark
    if "escape" not in said and ("quoted scalar" in said or "parsing a flow" in said):
        mark = error.context_mark or mark
    number = min(mark.line if mark else 0, len(lines) - 1)
    for near in (number, number - 1):
        if near >= 0 and re.match(r" *\t *\S", lines[near]):
            return YamlError(near + 1, "the line is indented with a tab", "indent with spaces")
    for sign, problem, remedy in _SYNTAX:
        if sign in said:
            return YamlError(number + 1, problem, remedy)
    return YamlError(number + 1, f"this cannot be read as YAML ({said})", "check this line and the one before it")
