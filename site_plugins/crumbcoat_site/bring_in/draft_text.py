"""The data of a draft, with its comments -> the text of a recipe file."""

import re
import textwrap
from collections.abc import Mapping

from crumbcoat_calc.errors import Path
from crumbcoat_calc.recipe.writing import recipe_text

from crumbcoat_site.bring_in.findings import CHECK, Findings
from crumbcoat_site.bring_in.plain_texts import one_line
from crumbcoat_site.recipe_cards.source.yaml_text import read_document

_WIDTH = 110
_BEFORE = re.compile(r"(?P<indent> *)(?P<item>- )?(?P<name>[a-z][a-z0-9_-]*: )?")
_LONGEST_COMMENT = 300


def draft_text(data: Mapping[str, object], findings: Findings, head: str, last: list[str]) -> str:
    """The text of a recipe file. All that pages wrote is one line each, in quotes or in a comment.

    Args:
        head: a first line, such as that for an editor; empty for none.
        last: comments for the end of the file.
    """
    lines = recipe_text(data).splitlines()
    document = read_document("\n".join(lines))
    assert document.data == data  # What is written is what will be read.
    for path, number in sorted(document.lines.items(), key=lambda pair: (pair[1], len(pair[0])), reverse=True):
        at = number - 1
        indent = " " * (len(lines[at]) - len(lines[at].lstrip()))
        beside = "; ".join(dict.fromkeys(findings.beside.get(path, [])))
        above = [line for text in findings.above.get(path, []) if path for line in _comments(text, indent)]
        value = _value(data, path)
        if isinstance(value, str) and len(lines[at]) > _WIDTH:
            above += [f"{indent}{_comment(f'{CHECK}: {beside}')}"] if beside else []
            lines[at : at + 1] = [*above, *_folded(lines[at], value)]
        else:
            lines[at] += f" {_comment(f'{CHECK}: {beside}')}" if beside else ""
            lines[at:at] = above
    whole = [
        *([head] if head else []),
        *lines,
        *([""] if last else []),
        *[line for text in last for line in _comments(text, "")],
    ]
    return "".join([f"{line}\n" for line in whole])


def _comments(text: str, indent: str) -> list[str]:
    """All of a text, in comments of a line each."""
    return [f"{indent}# {part}" for part in textwrap.wrap(one_line(text), _WIDTH - len(indent), break_on_hyphens=False)]


def _comment(text: str) -> str:
    shown = one_line(text)
    return f"# {shown if len(shown) <= _LONGEST_COMMENT else f'{shown[:_LONGEST_COMMENT]}…'}"


def _value(data: object, path: Path) -> object:
    for step in path:
        if isinstance(data, Mapping):
            data = data[str(step)]
        elif isinstance(data, list):
            data = data[int(step)]
    return data


def _folded(line: str, value: str) -> list[str]:
    """A long text over several lines, where its words allow that."""
    found = _BEFORE.match(line)
    assert found is not None
    inner = " " * (len(found["indent"]) + (4 if found["item"] and found["name"] else 2))
    parts = textwrap.wrap(value, _WIDTH - len(inner), break_long_words=False, break_on_hyphens=False)
    if len(parts) < 2 or " ".join(parts) != value:
        return [line]
    return [f"{found[0]}>-", *[f"{inner}{part}" for part in parts]]
