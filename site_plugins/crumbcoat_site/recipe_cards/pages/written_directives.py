"""Directives as pages have them: a line such as `<!-- crumbcoat: recipe list -->`, which is read and checked here.

A comment that begins with a word like `crumbcoat` without being a directive, or one inside a line of text, is an error,
except in code: a page must not come out without what its writer asked for.
"""

import difflib
import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import nearest_of

from crumbcoat_site.recipe_cards.source.source_errors import SourceError

CALCULATORS = ("formulate", "replace", "compare", "map", "handout")
"""The calculators that have a page of their own."""
LISTS = ("fat chart", "recipe list", "groups", "models", "kinds")
BY_HAND = "by hand"
CARD = "card"
"""Names one recipe, and nothing in its story: the place of its own card there."""
WHOLE = "whole card"
"""Names one recipe, whose card is whole and live there."""
OF_GROUP = "recipe list of "
"""Comes before the name of a group, such as `family ganache`."""
_DIRECTIVE = re.compile(r" {0,3}<!--\s*crumbcoat:(.*?)-->\s*")
_WITH_RECIPES = (BY_HAND, *CALCULATORS)
_OF_ONE = (CARD, WHOLE)
_KNOWN = (*LISTS, *(f"{name} …" for name in _OF_ONE), *(f"{name} from …" for name in _WITH_RECIPES))
_LIKE_OURS = 0.75
"""How much of a word must be as in `crumbcoat`, from 0 to 1, for it to be taken for a slip (by trying)."""
_COMMENT = re.compile(r"<!--\s*(\w+(?:[ _-]coat)?)\b(?:\s*:)?(.*?)(-->|$)")
_CODE = re.compile(r"(?<!`)(`+)(?!`).*?(?<!`)\1(?!`)")
_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})")


def directives_in(markdown: str) -> tuple[str, ...]:
    """The words of every directive in a Markdown text; a directive in a fenced block of code is only shown.

    >>> directives_in("# Home\\n<!-- crumbcoat: fat chart -->\\n```\\n<!-- crumbcoat: models -->\\n```\\n")
    ('fat chart',)
    """
    return tuple(words for _, words, _ in lines_of(markdown) if words is not None)


def page_with(directive: str, pages: Mapping[str, str]) -> str | None:
    """The address of the first page with a directive that begins in this way; None if there is none.

    Args:
        pages: the Markdown of each page by its address.
    """
    for url, markdown in pages.items():
        if "crumbcoat:" in markdown and any(words.startswith(directive) for words in directives_in(markdown)):
            return url
    return None


def whole_cards_in(texts: Iterable[str]) -> frozenset[str]:
    """The recipes whose cards are whole and live in pages with these Markdown texts.

    >>> whole_cards_in(["<!-- crumbcoat: whole card low/veil -->", "<!-- crumbcoat: card low/silk -->"])
    frozenset({'low/veil'})
    """
    with_some = [text for text in texts if WHOLE in text]
    found = [_split(words) for text in with_some for words in directives_in(text)]
    return frozenset(name for what, names in found if what == WHOLE for name in names)


def directive_problems(
    content: str, file: str, names: Sequence[str], drafts: Collection[str], own: str | None = None
) -> list[SourceError]:
    """Every directive in a page that cannot be used, without using them.

    Args:
        content: all of the page's file.
        file: its name, as errors show it.
        names: the recipes of the site.
        drafts: those that are not in the site yet.
        own: the recipe whose story it is, in which `card` alone is the place of its card; None for other pages.
    """
    problems = []
    for number, (line, words, is_code) in enumerate(lines_of(content), 1):
        try:
            if words is None and not is_code:
                refuse_what_was_meant_for_one(line)
            if words is not None and not (own and words == CARD) and not words.startswith(OF_GROUP):
                refuse_drafts(words, drafts)
                check_names(parsed(words)[1], names)
                refuse_whole_card(words, content, number, own)
        except InputError as error:
            problems.append(SourceError(file, number, error.problem, error.remedy))
    return problems


def lines_of(markdown: str) -> Iterator[tuple[str, str | None, bool]]:
    """Each line, with the words of the directive if it is one, and whether it is code."""
    fence = ""
    for line in markdown.split("\n"):
        mark = _FENCE.match(line)
        directive = None if fence else _DIRECTIVE.fullmatch(line)
        if mark and not fence:
            fence = mark[1]
        elif mark and mark[1].startswith(fence) and line.strip() == mark[1]:
            fence = ""
        is_code = bool(fence) or line.startswith(("    ", "\t"))
        yield line, " ".join(directive[1].split()) if directive else None, is_code


def refuse_what_was_meant_for_one(line: str) -> None:
    """Refuse a comment in a line that is not a directive, but begins with a word like `crumbcoat`."""
    for comment in _COMMENT.finditer(_CODE.sub("", line)) if "<!--" in line else ():
        word, words, end = comment[1], " ".join(comment[2].split()), comment[3]
        if difflib.SequenceMatcher(None, word.lower(), "crumbcoat").ratio() < _LIKE_OURS:
            continue
        written = " ".join(f"<!-- {comment[0].removeprefix('<!--').strip()}".split())[:80]
        if word == "crumbcoat" and re.match(r"<!--\s*crumbcoat:", comment[0]):
            if not end:
                raise InputError(f"{written!r} has no end in its line", "write all of it in one line, up to `-->`")
            raise InputError(f"{written!r} is in a line with other text", "give it a line of its own")
        known = _is_known(words.lower())
        example = f"<!-- crumbcoat: {words.lower() if known else LISTS[1]} -->"
        remedy = f"write it like `{example}`; the directives are: {', '.join(_KNOWN)}"
        raise InputError(f"{written!r} is not a directive", remedy)


def refuse_drafts(words: str, drafts: Collection[str]) -> None:
    """Refuse a directive that names a draft."""
    named = [name for name in _split(words)[1] if name in drafts]
    if named:
        raise InputError(
            f"the recipe {named[0]!r} is a draft, so it is not in this site", "publish it, or name another recipe"
        )


def refuse_whole_card(words: str, content: str, number: int, own: str | None) -> None:
    """Refuse a whole card that the page has already.

    Args:
        content: all of the page's file, and `number` the line in it.
        own: the recipe whose page it is, if it is that of one.
    """
    what, names = _split(words)
    if what != WHOLE:
        return
    if own in names:
        remedy = "delete this line; `<!-- crumbcoat: card -->` is the place of the card in its story"
        raise InputError(f"{own!r} is the recipe of this page, whose card is here already", remedy)
    if words in directives_in("\n".join(content.split("\n")[: number - 1])):
        remedy = f"delete this line, or write `{CARD} {names[0]}`, which shows it in short"
        raise InputError(f"the whole card {names[0]!r} is on this page already", remedy)


def _is_known(words: str) -> bool:
    starts = (OF_GROUP, *(f"{name} " for name in _OF_ONE), *(f"{name} from " for name in _WITH_RECIPES))
    return words in (*LISTS, *_WITH_RECIPES) or words.startswith(starts)


def parsed(words: str) -> tuple[str, list[str]]:
    """What a directive asks for, and the recipes that it names.

    Raises:
        InputError: if there is no such directive, or it should name recipes and does not.
    """
    what, names = _split(words)
    if what in _OF_ONE:
        if len(names) == 1:
            return what, names
        problem = "names several recipes" if names else "names no recipe"
        raise InputError(f"{words!r} {problem}", f"write `{what}` and the path of one recipe")
    if (what in LISTS and what == words) or words in _WITH_RECIPES or (what in _WITH_RECIPES and names):
        return what, names
    for known in _WITH_RECIPES:
        if words == f"{known} from" or words.startswith(f"{known} "):
            raise InputError(f"{words!r} names no recipe", f"write `{known} from` and the path of a recipe")
    raise InputError(f"there is no directive {words!r}", nearest_of(words, _KNOWN, "write"))


def _split(words: str) -> tuple[str, list[str]]:
    for what in _OF_ONE:
        if words == what or words.startswith(f"{what} "):
            return what, words.removeprefix(what).split()
    what, _, names = words.partition(" from ")
    return what, names.split()


def check_names(names: Sequence[str], known: Sequence[str]) -> None:
    """Check that the recipes that a directive names exist.

    Raises:
        InputError: at the first that does not.
    """
    for name in names:
        if name not in known:
            raise InputError(f"there is no recipe {name!r}", _near_names(name, known))


def _near_names(name: str, known: Sequence[str]) -> str:
    """The recipes whose path, or whose last part of it, is most like the name, as a remedy.

    >>> _near_names("viel", ["low/veil", "high/veils"])
    "did you mean 'low/veil' or 'high/veils'?"
    """
    bare = name.rpartition(".")[0] or name
    by_end = {path.rpartition("/")[2]: path for path in reversed(known)}
    ends = difflib.get_close_matches(bare.rpartition("/")[2], by_end, n=3)
    near = dict.fromkeys((*difflib.get_close_matches(bare, known, n=3), *(by_end[end] for end in ends)))
    if near:
        return f"did you mean {' or '.join([repr(path) for path in list(near)[:3]])}?"
    return f"name a recipe by its path without the ending{f', such as {known[0]!r}' if known else ''}"
