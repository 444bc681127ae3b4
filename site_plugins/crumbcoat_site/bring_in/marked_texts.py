"""Texts of others as prose of a recipe file: signs that would be marks there lose their meaning."""

import re

from crumbcoat_calc.values.marks import marks_in, plain_text

MOST_LETTERS = 1900
"""Of one text: with a backslash before every letter it is still shorter than a field may be."""

_SIGNS = re.compile(r"([\\*_`\[\]])")


def in_prose(text: str) -> str:
    """The text as prose that shows exactly these letters.

    >>> in_prose("2 * 3 = 6"), in_prose("*not* [so](javascript:x)")
    ('2 * 3 = 6', '\\\\*not\\\\* \\\\[so\\\\](javascript:x)')
    """
    if marks_in(text) == (text,) and "](" not in text:
        return text
    escaped = _SIGNS.sub(r"\\\1", text)
    assert plain_text(escaped) == text
    return escaped


def in_parts(text: str) -> list[str]:
    """A long text in parts that fields can hold, cut at spaces."""
    parts = []
    while len(text) > MOST_LETTERS:
        at = text.rfind(" ", 1, MOST_LETTERS)
        at = at if at > 0 else MOST_LETTERS
        parts.append(text[:at].strip())
        text = text[at:].strip()
    return [part for part in (*parts, text) if part]
