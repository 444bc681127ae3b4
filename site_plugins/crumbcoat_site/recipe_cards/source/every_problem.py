"""Every problem of a recipe file at once: what is wrong is put aside, and the rest is read again."""

import copy
import difflib
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path as FilePath

from crumbcoat_calc.errors import InputError, MissingFieldError, Path
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.check_uses import use_problems
from crumbcoat_calc.recipe.ingredients import INGREDIENT_FIELDS
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import RECIPE_FIELDS, check_axes, recipe_of_fields
from crumbcoat_calc.recipe.stages import STAGE_FIELDS, STEP_FIELDS

from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds, with_kinds
from crumbcoat_site.recipe_cards.source.read_recipe import document_in, put_keys
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.yaml_text import Document

MOST = 40
"""Of a file with more problems, these are enough for one go."""

_KIND = "water_tap"
_INGREDIENT = {"kind": _KIND, "amount": "100 g"}
_STEP = {"do": "…"}
_STAGE = {"title": "…", "steps": [_STEP]}
_TROUBLE = {"sign": "…", "remedy": "…"}
_STORAGE = {"where": "in the refrigerator", "up_to": "1 day"}

_FIELDS: dict[str, object] = {
    "title": "…", "summary": "…", "author": "…", "family": "other", "yield": {"portions": "1", "of": "…"},
    "ingredients": {"x": _INGREDIENT}, "stages": [_STAGE], "steps": [_STEP], "do": "…", "kind": _KIND,
    "amount": "100 g", "where": "in the refrigerator", "up_to": "1 day", "sign": "…", "remedy": "…",
    "passes": ["…"], "troubles": [_TROUBLE], "from": "1", "to": "1", "what": "…", "of": "…",
}  # fmt: skip
"""What is put in the place of a field that must be there."""

_ENTRIES: dict[str, object] = {
    "ingredients": _INGREDIENT, "replacements": {"kind": _KIND}, "stages": _STAGE, "steps": _STEP,
    "troubles": _TROUBLE, "storage": _STORAGE, "decorations": {"what": "…"},
}  # fmt: skip
"""What is put in the place of an entry of a list or mapping with this name; for any other entry, a text."""

_FOR_USES = ("portions", "kept_back", "add", "makes", "shares")
"""If one of these is put aside, nothing can be said about which step uses what."""


@dataclass(slots=True)
class _Reading:
    """The fields with what was put aside, the problems found, and how often each place was put right."""

    data: object
    problems: list[InputError] = field(default_factory=list)
    times: Counter[Path] = field(default_factory=Counter)
    aside: set[Path] = field(default_factory=set)

    def note(self, error: InputError, place: Path) -> None:
        """Keep a problem, unless it is only a consequence of one before it."""
        if self.times[place] == 0 and not self._follows(place):
            self.problems.append(error)

    def _follows(self, path: Path) -> bool:
        """Whether it is about an amount of an ingredient whose kind or amount is not known, or of too few entries."""
        if len(path) > 1 and any(len(aside) == len(path) + 1 and aside[:-1] == path for aside in self.aside):
            return True
        ingredient = path[:2]
        amounts = {"amount", "portions", "kept_back"}
        causes = {(*ingredient, "kind"), (*ingredient, "amount"), (*ingredient, "composition"), ingredient}
        return path[:1] == ("ingredients",) and bool(amounts & set(path[2:3])) and bool(causes & self.aside)

    def put_right(self, path: Path) -> bool:
        """Put the value at a place aside, so that the rest can be read; False if that is not possible."""
        while path:
            self.times[path] += 1
            self.aside.add(path)
            holder = self.at(path[:-1])
            if self.times[path] <= 2 and isinstance(holder, dict | list) and _replace(holder, path, self.times[path]):
                return True
            path = path[:-1]
        return False

    def at(self, path: Path) -> object:
        """The value at a place; None if there is none."""
        value = self.data
        for step in path:
            if isinstance(value, dict) or (isinstance(value, list) and isinstance(step, int) and step < len(value)):
                value = value.get(step) if isinstance(value, dict) else value[int(step)]
            else:
                return None
        return value


@dataclass(frozen=True, slots=True)
class ReadFile:
    """What is in a file: the recipe, its fields as plain data and where they are, or else every problem, by line."""

    recipe: Recipe | None
    fields: dict[str, object] | None
    document: Document | None
    problems: tuple[SourceError, ...]


def read_file(source: FilePath, file: str, own: OwnKinds | None = None, region: str | None = None) -> ReadFile:
    """Read a recipe file for all of its problems.

    Args:
        file: the name that they show.
        own: the site's own ingredients.
        region: that of the site, if it has one.
    """
    try:
        document = document_in(text_of(source, file), file, region)
    except SourceError as error:
        return ReadFile(None, None, None, (error,))
    data, unknown = with_kinds(document.data, own or {})
    recipe, found = every_problem(data)
    found = [*unknown, *found]
    if recipe and not found:
        assert isinstance(data, dict)
        put_keys(data["ingredients"], recipe)
        return ReadFile(recipe, data, document, ())
    problems = [SourceError(file, document.line_of(error.path), error.problem, error.remedy) for error in found]
    return ReadFile(None, None, document, tuple(sorted(problems, key=lambda problem: problem.line)))


def every_problem(data: object) -> tuple[Recipe | None, list[InputError]]:
    """The recipe in plain data, if it has no problem, and all of its problems, in the order of reading."""
    reading = _Reading(data)
    recipe = None
    while recipe is None and len(reading.problems) < MOST:
        try:
            recipe = recipe_of_fields(reading.data)
        except InputError as error:
            reading.data = copy.deepcopy(data) if reading.data is data else reading.data
            place = (*error.path, error.field) if isinstance(error, MissingFieldError) else error.path
            reading.note(error, place)
            if not reading.put_right(place):
                break
    if recipe is None:
        return None, reading.problems
    reading.problems += [problem for problem in use_problems(recipe) if not _is_doubtful(problem.path, reading)]
    if reading.problems:
        return None, reading.problems
    try:
        check_axes(recipe)
        batch_of(recipe)
    except InputError as error:
        return None, [error]
    return recipe, []


def _is_doubtful(path: Path, reading: _Reading) -> bool:
    """Whether a problem with what steps use may only follow from what was put aside.

    What a step adds still has to be in the list, once; that nothing uses an ingredient is not certain any more.
    """
    if any(path[: len(aside)] == aside for aside in reading.aside if aside):
        return True
    if path[:2] in {aside[:2] for aside in reading.aside if aside[0] == "ingredients"}:
        return True
    lost = [aside for aside in reading.aside if _is_for_uses(aside, reading.times[aside])]
    if not lost:
        return False
    if "add" not in path or "checkpoint" in path:
        return True
    what = str(reading.at(path) if path[-2] == "add" else "").partition("/")[0]
    names = {str(aside[1]) for aside in lost if aside[0] == "ingredients" and len(aside) > 1}
    return what in names or any(aside[0] != "ingredients" or len(aside) == 1 for aside in lost if not _is_an_add(aside))


def _is_an_add(path: Path) -> bool:
    """Whether it is what one step adds."""
    return len(path) >= 5 and path[2] == "steps" and path[4] == "add"


def _is_for_uses(path: Path, time: int) -> bool:
    """Whether a step may have lost something that it uses, or an ingredient its portions."""
    names = [step for step in path if isinstance(step, str)]
    if path[0] == "ingredients" and (len(path) == 1 or (len(path) == 2 and time > 1)):
        return True
    if names[-1] in ("stages", "steps"):
        return True
    return any(difflib.get_close_matches(name, _FOR_USES, n=1) for name in names[1:])


def _fields_at(path: Path) -> tuple[str, ...]:
    """The fields that a misspelled one at this place can be meant for; none where there are few."""
    if len(path) == 1:
        return RECIPE_FIELDS
    if path[0] == "ingredients" and len(path) == 3:
        return INGREDIENT_FIELDS
    if path[0] == "stages" and len(path) == 3:
        return STAGE_FIELDS
    return STEP_FIELDS if len(path) == 5 and path[2] == "steps" else ()


def _replace(holder: dict[object, object] | list[object], path: Path, time: int) -> bool:
    """Put something valid in the place of a value, or, at the second time, take a field away."""
    name = path[-1]
    if isinstance(holder, list):
        if not isinstance(name, int) or name >= len(holder):
            return False
        holder[name] = copy.deepcopy(_ENTRIES.get(str(path[-2]), "x"))
        return time == 1
    value = holder.get(name)
    around = path[-2] if len(path) > 1 else ""
    if around in ("ingredients", "replacements"):
        holder[name] = {"kind": _KIND, **value} if isinstance(value, dict) and time == 1 else dict(_INGREDIENT)
        if around == "replacements" and time == 2:
            del holder[name]
        return True
    if name == "portions" and around == "yield":
        holder[name] = "1"
    elif name in _FIELDS and time == 1:
        holder[name] = copy.deepcopy(_FIELDS[str(name)])
    elif name in holder:
        value = holder.pop(name)
        fields = _fields_at(path)
        near = difflib.get_close_matches(str(name), [field for field in fields if field not in holder], n=1)
        if near and name not in fields:
            holder[near[0]] = value
    else:
        return False
    return True
