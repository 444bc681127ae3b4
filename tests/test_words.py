"""Plain English: no phrase that reads like a translation, in code comments, docstrings, messages, pages or guides."""

import ast
import io
import re
import subprocess
import tokenize
from collections.abc import Iterator
from pathlib import Path

import pytest

pytestmark = pytest.mark.no_cover  # Files are read here, and nothing of the project runs.

ROOT = Path(__file__).parents[1]

CLEAN = ("*.md", ".ci", "bench", "calc", "recipes", "site_plugins", "tests")
"""The folders and files that are checked."""

NOT_OURS = ("tests/reference/", "bench/results/", "tests/test_words.py")
"""Printed data of others, measured results, and the phrases themselves."""

SUFFIXES = (".py", ".md", ".csv", ".txt", ".jinja", ".js", ".mjs", ".css")

PHRASES = {
    r"to mend": "Fix:",
    r"mend(s|ed|ing)?": "fix, correct, put right",
    r"told|tells?|telling": "says, shows, reports, lists",
    r"anew": "again",
    r"so many": "a number of, how many",
    r"so much(?! (as|for|that|so)\b)": "this much, how much",
    r"stands?|stood|standing": "is, applies",
    r"that there (is|are)": "that exists, the … itself",
    r"(cannot|can not|could not|must not) be(?= (and|or|in)\b|\s*[.,;:)]|\s*$)": "is not possible",
    r"(is|are) no(?! (longer|more|less|better|worse|fewer|smaller|larger|greater)\b)": "is not a",
    r"behind (the|a|an|it|every|each) (number|name|point|mass|unit|word|text|amount|comma|measure)s?": "after",
    r"behind the other": "after another",
    r"sees? to it": "is responsible for",
    r"stays? of use": "still works",
    r"likewise": "also, the same way",
    r"but for(?! (the sake|now))": "except for",
    r"wholly": "entirely, completely",
    r"needless": "trailing, unneeded",
}
"""Phrases as patterns, each with what to write instead."""

ENGLISH = (
    r"there (is|are) no",
    r"stand mixers?",
    r"(lets?|leave|left) (it|them|the \w+) (to )?stand",
    r"(cakes?|tiers?|it|one|bowls?|frosting|glass|that|which) stands? (on|under|in|at|over|beside)",
    r"stands? (up|out|for itself)",
    r"tells? (the|them|it|one|two|both|\w+) apart",
    r"standing (on|in|over) ",
)
"""Uses of these words that are good English; they are left out of the search."""


def _python(source: str) -> Iterator[tuple[int, str]]:
    """Comments, texts with a space in them, and names of tests, each with its line."""
    for token in tokenize.generate_tokens(io.StringIO(source).readline):
        if token.type == tokenize.COMMENT:
            yield token.start[0], token.string
    tree = ast.parse(source)
    in_f_strings = {part for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in node.values}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            yield node.lineno, "".join([part.value if isinstance(part, ast.Constant) else "{}" for part in node.values])
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and " " in node.value:
            if node not in in_f_strings:
                yield node.lineno, node.value
        elif isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            yield node.lineno, node.name.replace("_", " ")


_COMMENTS_AND_TEXTS = re.compile(
    r"""/\*.*?\*/|(?<![:"'])//[^\n]*|"[^"\n]* [^"\n]*"|'[^'\n]* [^'\n]*'|`[^`]* [^`]*`""", re.DOTALL
)


def _prose(file: Path) -> Iterator[tuple[int, str]]:
    """The pieces of prose in a file, each with its first line."""
    content = file.read_text(encoding="utf-8", errors="replace")
    if file.suffix == ".py":
        yield from _python(content)
    elif file.suffix in (".js", ".mjs", ".css"):
        for found in _COMMENTS_AND_TEXTS.finditer(content):
            yield content.count("\n", 0, found.start()) + 1, found[0]
    else:
        yield 1, content


_ENGLISH = [re.compile(rf"\b{english}".replace(" ", r"\s+"), re.IGNORECASE) for english in ENGLISH]
_PATTERNS = [
    (re.compile(rf"(?<![\w.#/_-])(?:{phrase})(?![\w(=-])".replace(" ", r"\s+"), re.IGNORECASE), instead)
    for phrase, instead in PHRASES.items()
]


_ANY = re.compile("|".join(f"(?:{phrase})" for phrase in PHRASES).replace(" ", r"\s+"), re.IGNORECASE)
"""Finds most prose to be without any of them."""


def offenders_in(first_line: int, prose: str) -> Iterator[tuple[int, str]]:
    """Each offending phrase with its line."""
    if not _ANY.search(prose):
        return
    for pattern in _ENGLISH:
        prose = pattern.sub(lambda found: re.sub(r"\S", "_", found[0]), prose)
    for pattern, instead in _PATTERNS:
        for found in pattern.finditer(prose):
            yield first_line + prose.count("\n", 0, found.start()), f"{' '.join(found[0].split())!r}: write {instead}"


def _files() -> list[Path]:
    """The text files that git knows of or would take in."""
    git = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "--", *CLEAN]
    listed = subprocess.run(git, cwd=ROOT, capture_output=True, text=True, check=True).stdout.splitlines()
    files = [
        ROOT / name
        for name in sorted(set(listed))
        if name.endswith(SUFFIXES) and not name.startswith(NOT_OURS) and (ROOT / name).is_file()
    ]
    assert len(files) > 300, "git lists the files of this tree"
    return files


def test_the_prose_is_plain_english() -> None:
    found = [
        f"{file.relative_to(ROOT)}:{line}: {problem}"
        for file in _files()
        for first_line, prose in _prose(file)
        for line, problem in offenders_in(first_line, prose)
    ]
    assert not found, "\n" + "\n".join(found)


@pytest.mark.parametrize(
    ("prose", "lines"),
    [
        ("# The page tells the reader.", [1]),
        ("line 1\nthe caller sees\nto it", [2]),
        ("Fold it in and let it stand for an hour.", []),
        ("Use a stand mixer; a tier stands on another.", []),
        ("A mass that cannot be.", [1]),
        ("A mass that cannot be used.", []),
        ("There is no butter in it.", []),
        ("It is no butter.", [1]),
        ("call tell() or .told", []),
    ],
)
def test_offending_phrases_are_found_with_their_line(prose: str, lines: list[int]) -> None:
    assert [line for line, _ in offenders_in(1, prose)] == lines


def test_writers_are_sent_to_our_own_command() -> None:
    """`crumbcoat serve` is the command of the README; the guide for contributors may name that of MkDocs."""
    pages = [ROOT / "README.md", *sorted((ROOT / "recipes").rglob("*.md"))]
    found = [page.name for page in pages if re.search(r"mkdocs\s+(serve|build)", page.read_text(encoding="utf-8"))]
    assert found == []
