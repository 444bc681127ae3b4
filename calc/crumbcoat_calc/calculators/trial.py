"""Calculator: the trial file of a batch, from what was changed on its card and noted at the bench."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from crumbcoat_calc.forms.changes import changes_from, state_from_changes
from crumbcoat_calc.forms.conditions import conditions_from, is_condition, state_from_conditions
from crumbcoat_calc.forms.context import Context
from crumbcoat_calc.forms.trial_notes import PREFIX, is_note, note_fields, notes_from
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.trial_file import BenchTrial


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    context: Context
    trial: BenchTrial


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    trial: BenchTrial


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipe in the context, the reader's changes and the notes in the form state ask.

    The form state is that of the batch calculator on the page, and the fields of `forms.trial_notes`.

    Raises:
        InputError: at the field that cannot be used.
    """
    published = context.published
    conditions = conditions_from(published.recipe, {name: state[name] for name in state if is_condition(name)})
    of_batch = {name: state[name] for name in state if not (is_condition(name) or is_note(name))}
    changes = changes_from(published.recipe, of_batch, published.units)
    options = replace(changes.options, temperatures_c=conditions.temperatures_c)
    return Question(
        context=context,
        trial=BenchTrial(
            published=published,
            changes=replace(changes, options=options),
            conditions=conditions,
            notes=notes_from(published.recipe, {name: state[name] for name in state if is_note(name)}),
            start=context.trial,
        ),
    )


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    """The question after something else is noted; an empty field takes a note back."""
    return read(question.context, {**form_state(question), **edit})


def form_state(question: Question) -> dict[str, str]:
    trial = question.trial
    recipe = trial.published.recipe
    of_batch = state_from_changes(recipe, trial.changes, trial.published.units)
    own = {f"{PREFIX}{name}": value for name, value in trial.notes.values.items()}
    return of_batch | state_from_conditions(trial.conditions, recipe) | own


def calculate(question: Question) -> Answer:
    """The trial; what it is of is worked out by the batch calculator."""
    return Answer(trial=question.trial)


def texts(answer: Answer) -> Texts:
    trial = answer.trial
    fields: Texts = {
        f"{PREFIX}{name}": trial.notes.values.get(name, "") for name in note_fields(trial.published.recipe)
    }
    return fields | trial.texts()
