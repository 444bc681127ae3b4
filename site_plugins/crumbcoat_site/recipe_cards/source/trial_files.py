"""Trial files beside a recipe -> its notebook; every problem of them, by file and line."""

import os
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.errors import Path as FieldPath
from crumbcoat_calc.trials.model import Trial
from crumbcoat_calc.trials.notebook import Notebook, notebook_of
from crumbcoat_calc.trials.reading import trial_from

from crumbcoat_site.recipe_cards.pictures.formats import BROWSER_ENDINGS, ending_of
from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds, with_kinds
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.short_forms import written_out
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.trial_folders import trial_folder
from crumbcoat_site.recipe_cards.source.yaml_errors import YamlError
from crumbcoat_site.recipe_cards.source.yaml_text import Document, read_document

_VERSION = re.compile("v[1-9][0-9]{0,3}")
_SMALLEST = {"number": "1", "date": "2000-01-01"}
_ONE_BY_ONE = ("ingredients", "steps")


@dataclass(frozen=True, slots=True)
class TrialFiles:
    """The trials of a recipe, the document of each by its file, earlier versions of it, and every problem."""

    notebook: Notebook
    documents: Mapping[str, Document]
    versions: Mapping[str, Mapping[str, object]]
    problems: tuple[SourceError, ...]


def read_trials(recipe: Path, fields: Mapping[str, object], own: OwnKinds, region: str | None) -> TrialFiles:
    """The notebook of a recipe; no problem of one trial hides another one.

    Args:
        recipe: its file.
        fields: what is in it, as plain data.
        own: the site's own ingredients.
        region: that of the site, if it has one.
    """
    problems: list[SourceError] = []
    documents: dict[str, Document] = {}
    versions: dict[str, Mapping[str, object]] = {}
    trials: list[tuple[str, Trial]] = []
    found = sorted(trial_folder(recipe).glob(f"*{recipe.suffix}"))
    paths = {os.path.relpath(path): path for path in found}
    for shown, path in paths.items():
        try:
            if _VERSION.fullmatch(path.stem):
                versions[path.stem] = load_recipe(path, shown, own, region)[1]
                continue
            documents[shown], errors = _document(text_of(path, shown), own, region)
        except SourceError as error:
            problems.append(error)
            continue
        except YamlError as error:
            problems.append(SourceError(shown, error.line, error.problem, error.remedy))
            continue
        errors = [*errors, *_problems(documents[shown].data)]
        problems += [_placed(shown, documents[shown], error) for error in errors]
        if not errors:
            trials.append((shown, trial_from(documents[shown].data)))
    notebook = notebook_of(fields, versions, trials)
    problems += [_placed(name, documents[name], error) for name, error in notebook.problems]
    problems += _lost_pictures(recipe, trials, documents)
    return TrialFiles(notebook, documents, versions, tuple(problems))


def _lost_pictures(
    recipe: Path, trials: Sequence[tuple[str, Trial]], documents: Mapping[str, Document]
) -> Iterator[SourceError]:
    """The pictures that a trial names and that are not beside it; the trial can be used without them."""
    for shown, trial in trials:
        for at, picture in enumerate(trial.pictures):
            path = ("pictures", at, "file")
            if ending_of(picture.file) not in BROWSER_ENDINGS:
                problem = f"{picture.file!r} is not a picture that a page can show"
                remedy = f"save it in another format ({', '.join(BROWSER_ENDINGS)}), or delete the entry"
                yield SourceError(shown, documents[shown].line_of(path), problem, remedy)
            elif not (trial_folder(recipe) / picture.file).is_file():
                problem = f"there is no picture {picture.file!r} beside this file"
                yield SourceError(shown, documents[shown].line_of(path), problem, "save it there, or delete the entry")


def _placed(shown: str, document: Document, error: InputError) -> SourceError:
    return SourceError(shown, document.line_of(error.path), error.problem, error.remedy)


def _document(text: str, own: OwnKinds, region: str | None) -> tuple[Document, list[InputError]]:
    """The document of a trial, with the figures of kinds that are not in the ingredient table, and their problems."""
    document = written_out(read_document(text, "a trial, starting with `number: 1`"), region)
    changed = document.data.get("changed") if isinstance(document.data, dict) else None
    if not isinstance(changed, dict):
        return document, []
    with_figures, problems = with_kinds(changed, own)
    assert isinstance(document.data, dict)
    return Document({**document.data, "changed": with_figures}, document.lines), [
        problem.within("changed") for problem in problems
    ]


def _problems(data: object) -> list[InputError]:
    """Every problem of a trial's fields: where it has one, each field and each entry is read by itself."""
    first = _error_in(data, ())
    if first is None or not isinstance(data, dict):
        return [first] if first else []
    missing = {name: _SMALLEST[name] for name in _SMALLEST if name in data}
    errors = [_error_in(missing, ())] + [_error_in({**_SMALLEST, **part}, path) for part, path in _parts(data)]
    return [error for error in errors if error]


def _parts(data: Mapping[str, object]) -> Iterator[tuple[dict[str, object], FieldPath]]:
    """Each field alone, or each entry of it, with the path that takes the place of the entry's own."""
    for name, value in data.items():
        if isinstance(value, list) and value:
            for place, entry in enumerate(value):
                yield {name: [entry]}, (name, place)
        elif name == "changed" and isinstance(value, dict) and set(value) <= set(_ONE_BY_ONE):
            for inner, entries in value.items():
                if not isinstance(entries, dict):
                    yield {name: {inner: entries}}, ()
                    continue
                for key, entry in entries.items():
                    yield {name: {inner: {key: entry}}}, ()
        else:
            yield {name: value}, ()


def _error_in(data: object, place: FieldPath) -> InputError | None:
    """The problem of a part of a trial; `place` is where its only entry really is."""
    try:
        trial_from(data)
    except InputError as error:
        return error.at((*place, *error.path[len(place) :])) if place and len(error.path) >= len(place) else error
    return None
