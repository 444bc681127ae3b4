"""The story of a recipe on its page: Markdown like any other, around the card, which comes first for the theme."""

import os
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from crumbcoat_calc.values.spacing import unbroken_html

from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.pages.written_directives import CALCULATORS, CARD, lines_of, parsed
from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.stories import stories_of

_BEFORE, _AFTER, _END = (f"<!-- crumbcoat: story {part} -->" for part in ("before", "after", "end"))
_PARTS = re.compile(f"{_BEFORE}(.*?){_AFTER}(.*?){_END}", re.DOTALL)
_HERE = "story-here"
_MAIN_HEADING = re.compile(r" {0,3}#(?!#)\s")

Heading = TypeVar("Heading")


@dataclass(frozen=True, slots=True)
class Story:
    """A story: its path as errors show it, all of its file, and what of it goes before the card and after it."""

    shown: str
    content: str
    before: str
    after: str


def read_stories(
    files: Mapping[str, Path], recipes: Collection[str], drafts: Collection[str]
) -> tuple[dict[str, Story], list[SourceError]]:
    """The stories of a site by the place of the page, and what is wrong with them; those of drafts are left out.

    Args:
        files: where each is, by its path in docs_dir.
        recipes: the names of all recipe files.
        drafts: the names of those that are not in the site.
    """
    shown = {path: os.path.relpath(file) for path, file in files.items()}
    found, problems = stories_of(shown, recipes)
    stories = {}
    for name, path in found.items():
        if name in drafts:
            continue
        try:
            content = text_of(files[path], shown[path])
            stories[f"{name}.md"] = Story(shown[path], content, *story_parts(content, shown[path]))
        except SourceError as error:
            problems.append(error)
    return stories, problems


def story_parts(content: str, shown: str) -> tuple[str, str]:
    """What a story says before the card and after it; without a line for the card, all of it comes after.

    Args:
        content: all of the story's file.
        shown: its path, as errors show it.

    Raises:
        SourceError: where it has something that a story cannot have.

    >>> story_parts("Cold milk.\\n\\n<!-- crumbcoat: card -->\\n\\nWarm milk.\\n", "veil.story.md")
    ('Cold milk.\\n', '\\nWarm milk.\\n')
    >>> story_parts("Warm milk.", "veil.story.md")
    ('', 'Warm milk.')
    """
    places = []
    if content.startswith("---\n"):
        problem = "a story has no front matter: title, summary and the rest are those of the recipe"
        raise SourceError(shown, 1, problem, "delete the lines from `---` to `---`")
    for number, (line, words, is_code) in enumerate(lines_of(content), 1):
        if words == CARD:
            places.append(number)
        if len(places) > 1:
            raise SourceError(shown, number, "the story has a second place for its card", "keep one `card` line")
        if words and words.split()[0] in CALCULATORS:
            problem = f"the calculator {parsed(words)[0]!r} cannot be on the page of a card"
            raise SourceError(shown, number, problem, "give it a page of its own, and a link here")
        if not is_code and _MAIN_HEADING.match(line):
            problem = "the title of the recipe is the one main heading of the page"
            raise SourceError(shown, number, problem, "begin the headings of a story with `##`")
    if not places:
        return "", content
    lines = content.split("\n")
    return "\n".join(lines[: places[0] - 1]), "\n".join(lines[places[0] :])


def with_story(markdown: str, before: str, after: str) -> str:
    """The Markdown of a card with its story at the end, so that the anchors of the card are the same without it."""
    return f"{markdown}\n\n{_BEFORE}\n\n{before}\n\n{_AFTER}\n\n{after}\n\n{_END}\n"


def story_around_card(html: str) -> tuple[str, int, int]:
    """The content of a page with the two parts of its story in their places, and how many headings are in each.

    The first part goes below the title, the summary and the key figures, above the ingredients.

    >>> found, before, after = story_around_card(
    ...     "<h1>Veil</h1><h2>Ingredients</h2><!-- crumbcoat: story before --><h2>Milk</h2>"
    ...     "<!-- crumbcoat: story after --> <!-- crumbcoat: story end -->")
    >>> before, after, found.index("Milk") < found.index("Ingredients"), found.count("<div")
    (1, 0, True, 1)
    """
    parts = _PARTS.search(html)
    if parts is None:
        return html, 0, 0
    before, after = parts.groups()
    head, heading, rest = html[: parts.start()].partition("<h2")
    story = [_shown(part, skip) if part.strip() else "" for part, skip in ((before, True), (after, False))]
    return f"{head}{story[0]}{heading}{rest}{story[1]}{html[parts.end() :]}", before.count("<h2"), after.count("<h2")


def in_order_of_page(headings: list[Heading], before: int, after: int) -> list[Heading]:
    """The headings of a card and then of its story, as the page has them.

    >>> in_order_of_page(["Ingredients", "Method", "Why milk", "Thanks"], 1, 1)
    ['Why milk', 'Ingredients', 'Method', 'Thanks']
    """
    end = len(headings) - before - after
    return [*headings[end : end + before], *headings[:end], *headings[end + before :]]


def _shown(part: str, with_way_to_card: bool) -> str:
    # The line breaks of Markdown count: a template would take them out.
    return str(component("story", html=_HERE, skip=with_way_to_card)).replace(_HERE, unbroken_html(part))
