"""Calculator: the label of a batch, what it costs, and the cautions that it calls for."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.changes import Changes, changes_from, state_from_changes
from crumbcoat_calc.forms.conditions import is_condition
from crumbcoat_calc.forms.context import Context, PublishedRecipe
from crumbcoat_calc.forms.written_amounts import in_grams
from crumbcoat_calc.label.batch_label import BatchLabel, label_of
from crumbcoat_calc.label.caution_table import Readers
from crumbcoat_calc.label.table_energy import energy_by_table
from crumbcoat_calc.purchasing.cost import Cost, cost_of
from crumbcoat_calc.purchasing.prices import Prices
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.cautions import caution_texts
from crumbcoat_calc.texts.cost import cost_texts
from crumbcoat_calc.texts.label import by_table_text, label_texts
from crumbcoat_calc.values.form_fields import choice_from, read_field, state_number

CAKE = "cost.cake"
"""The field for the mass of frosting on one cake."""

ENERGY = "label.energy"
"""The field for the energy that is shown beside the label's."""

ENERGIES = ("label", "table")
"""Its choices: none, or that by the factors of each food, to compare with tables; the first is the default."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    published: PublishedRecipe
    prices: Prices | None
    readers: Readers
    changes: Changes
    cake_g: float | None
    energy: str = ENERGIES[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    batch: Batch
    label: BatchLabel
    cost: Cost | None
    cake_g: float | None
    energy: str
    readers: Readers


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that recipe and prices in the context and the reader's changes in the form state ask.

    The form state is that of the batch calculator on the page, and `cost.cake`: the frosting on one cake, in g.

    Raises:
        InputError: at the field of the form state that cannot be used.
    """
    return _question(context.published, context.prices, context.readers, state)


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    """The question after the reader changed `cost.cake`, a number of g or a mass; empty asks for no cake.

    `label.energy`: one of ENERGIES.

    Raises:
        InputError: at the field that cannot be used.
    """
    return _question(question.published, question.prices, question.readers, {**form_state(question), **edit})


def form_state(question: Question) -> dict[str, str]:
    own = {} if question.cake_g is None else {CAKE: state_number(question.cake_g)}
    own |= {} if question.energy == ENERGIES[0] else {ENERGY: question.energy}
    published = question.published
    return state_from_changes(published.recipe, question.changes, published.units) | own


def calculate(question: Question) -> Answer:
    """The label of the batch, and what it costs.

    Raises:
        InputError: if nothing is left in it, or more water would boil off than there is.
    """
    published, changes, prices = question.published, question.changes, question.prices
    batch = published.batch_with(changes.options)
    return Answer(
        batch=batch,
        label=label_of(batch, changes.density_g_per_ml(published.recipe)),
        cost=None if prices is None else cost_of(batch, prices, question.cake_g),
        cake_g=question.cake_g,
        energy=question.energy,
        readers=question.readers,
    )


def texts(answer: Answer) -> Texts:
    return (
        label_texts(answer.batch, answer.label, answer.readers.region)
        | cost_texts(answer.batch, answer.cost, answer.cake_g)
        | {ENERGY: answer.energy, "label.by_table": _by_table_text(answer)}
        | caution_texts(answer.batch, answer.label.lists, answer.readers)
    )


def _question(
    published: PublishedRecipe, prices: Prices | None, readers: Readers, state: Mapping[str, str]
) -> Question:
    of_batch = {name: value for name, value in state.items() if name not in (CAKE, ENERGY) and not is_condition(name)}
    cake_g = read_field(CAKE, state[CAKE], _cake_g) if state.get(CAKE, "").strip() else None
    energy = read_field(ENERGY, state.get(ENERGY, ENERGIES[0]), partial(choice_from, known=ENERGIES, what="energy"))
    changes = changes_from(published.recipe, of_batch, published.units)
    return Question(published=published, prices=prices, readers=readers, changes=changes, cake_g=cake_g, energy=energy)


def _by_table_text(answer: Answer) -> str:
    if answer.energy == ENERGIES[0]:
        return ""
    return by_table_text(answer.batch, answer.label.us.serving, energy_by_table(answer.batch))


def _cake_g(written: str) -> float:
    mass_g = in_grams(written)
    if mass_g <= 0:
        raise InputError("no frosting on the cake means no cost", "give the mass on one cake, such as `350 g`")
    return mass_g
