"""Stories: Markdown beside a recipe file, such as `veil.story.md`, that its page shows before or after the card."""

import difflib
from collections.abc import Collection, Iterable, Mapping
from pathlib import Path, PurePosixPath

from crumbcoat_site.recipe_cards.source.source_errors import SourceError

ENDING = ".story"
"""What comes between the name of the recipe and the ending of Markdown; a folder of that name has its pictures."""

_MARKDOWN = frozenset((".md", ".markdown", ".mdown", ".mkdn", ".mkd"))
"""The endings that MkDocs takes for pages."""


def recipe_of_story(path: str) -> str | None:
    """The recipe, by its path in docs_dir without the ending, whose story a file is; None if it is none.

    >>> recipe_of_story("low/veil.story.md"), recipe_of_story("low/veil.md"), recipe_of_story("veil.story/pan.jpg")
    ('low/veil', None, None)
    """
    name = PurePosixPath(path)
    stem = path.removesuffix(name.suffix)
    is_story = name.suffix.lower() in _MARKDOWN and name.stem.endswith(ENDING) and name.stem != ENDING
    return stem.removesuffix(ENDING) if is_story else None


def is_beside_story_of(path: str, recipes: Collection[str]) -> bool:
    """Whether a file is in the folder of pictures for the story of one of the recipes.

    >>> [is_beside_story_of(path, {"low/veil"}) for path in ("low/veil.story/pan.jpg", "low/veil.jpg")]
    [True, False]
    """
    folders = [str(folder) for folder in PurePosixPath(path).parents]
    return any(folder.endswith(ENDING) and folder.removesuffix(ENDING) in recipes for folder in folders)


def with_others(stories: Mapping[str, Path]) -> dict[str, Path]:
    """The files of stories by their paths in docs_dir, and others of the same recipes: MkDocs takes one of several."""
    return {
        f"{path.rpartition('.')[0]}{other.suffix}": other
        for path, file in stories.items()
        for other in file.parent.glob(f"{file.stem}.*")
        if other.suffix.lower() in _MARKDOWN
    }


def stories_of(paths: Mapping[str, str], recipes: Collection[str]) -> tuple[dict[str, str], list[SourceError]]:
    """The story of each recipe by its name, and what is wrong: a second story, or one without a recipe.

    Args:
        paths: the files of stories in docs_dir, each with its path as errors show it.
        recipes: the names of all recipe files of the site, drafts among them.

    >>> stories_of({"low/veil.story.md": "docs/low/veil.story.md"}, ["low/veil"])
    ({'low/veil': 'low/veil.story.md'}, [])
    """
    found: dict[str, str] = {}
    problems = []
    for path in sorted(paths):
        name = recipe_of_story(path) or ""
        if name in found:
            problem = f"{name!r} has two stories: {PurePosixPath(found[name]).name!r} is another"
            problems.append(SourceError(paths[path], 1, problem, "put them into one file, and delete the other"))
        elif name not in recipes:
            problem = f"there is no recipe {name!r} for this story"
            problems.append(SourceError(paths[path], 1, problem, _near(name, recipes)))
        else:
            found[name] = path
    return found, problems


def _near(name: str, recipes: Iterable[str]) -> str:
    near = difflib.get_close_matches(name, sorted(recipes), n=1)
    if near:
        return f"name it `{near[0].rpartition('/')[2]}{ENDING}.md`, beside the recipe {near[0]!r}"
    return f"put it beside its recipe file, under the same name with `{ENDING}.md` after it"
