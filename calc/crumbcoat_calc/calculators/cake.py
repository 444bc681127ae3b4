"""Calculator: how much frosting a cake takes, drawn in section."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

from crumbcoat_calc.cakes.cupcakes import cupcake_volumes
from crumbcoat_calc.cakes.frosting_volumes import FrostingVolumes
from crumbcoat_calc.cakes.plan import (
    CUPCAKE_LENGTHS,
    SHARES,
    THICKNESSES,
    TIER_SHAPES,
    TIER_THICKNESSES,
    CakePlan,
    starting_tiers,
)
from crumbcoat_calc.cakes.solids import Block, Disc
from crumbcoat_calc.cakes.tiers import Cake, cake_volumes
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.cake_plan import cake_plan_from, state_from_cake_plan
from crumbcoat_calc.forms.context import Context
from crumbcoat_calc.forms.written_amounts import in_grams
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.cake import amount_texts, batch_texts, field_texts, picture_texts
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.region import lengths_in
from crumbcoat_calc.values.units import millimetres, number_and_words, share

_STEP_IN_MM = 50.0
"""How much smaller a new tier is than the one below, at most a quarter (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    plan: CakePlan
    batch_g: float
    stated_density_g_per_ml: float | None
    lengths: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    plan: CakePlan
    cake: Cake | None
    tiers: tuple[FrostingVolumes, ...]
    cupcakes: FrostingVolumes | None
    batch_g: float

    @property
    def total(self) -> FrostingVolumes:
        """All that is needed, by use."""
        total = self.cupcakes or FrostingVolumes()
        for tier in self.tiers:
            total = total + tier
        return total


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipe and the reader's plan in the form state ask.

    From the recipe come the mass of one batch as published and the density, if it was measured. The form state may
    hold `lengths`, `style`, `filled_with`, `under`, `filling`, `dam`, `crumb`, `final`, `top_border`,
    `bottom_border` (mm), `piping`, `loss` (shares), `tier.<n>.` and `shape`, `layers` or a length (mm), `cupcakes`,
    `topping`, `cupcake_top`, `topping_height`, `core`, `core_depth` (mm), `density` (g/mL), `cup`, `cup_weighs` (g).
    A tier may have a `filling`, `dam`, `crumb` or `final` of its own, as `tier.<n>.filling`.

    Raises:
        InputError: at the field of the form state that cannot be used.
    """
    published = context.published
    density, lengths = published.recipe.measured.density_g_per_ml, lengths_in(context.region)
    return _question(state, published.batch.total.mass_g, density, lengths)


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    """The question after the reader changed some fields of the form.

    A length may have any unit of length; a bare number is in cm, or mm for a thickness, or inches if they are chosen.
    A tier that is added starts so that it fits on the one below; a thickness of its own that is emptied follows the
    cake's again.

    Raises:
        InputError: at the field that cannot be used.
    """
    for name, value in edit.items():
        if value.strip().endswith(" in") and value.strip() == field_texts(question.plan).get(name):
            continue  # What is shown to a sixteenth is kept as closely as it was.
        changed = _changed(form_state(question), question, name, value)
        question = _question(changed, question.batch_g, question.stated_density_g_per_ml, question.lengths)
    return question


def form_state(question: Question) -> dict[str, str]:
    """What differs from one round tier of two layers with the usual coats, of the density that the recipe states."""
    state, stated = state_from_cake_plan(question.plan, question.lengths), question.stated_density_g_per_ml
    if stated is not None and state.get("density") == state_number(stated):
        del state["density"]
    return state


def calculate(question: Question) -> Answer:
    """The frosting that tiers and cupcakes take, by use, in mL (see `cake_volumes` and `cupcake_volumes`).

    Raises:
        InputError: at the field whose length is impossible, or whose tier is too small for the one above.
    """
    plan = question.plan
    cake, cupcakes = plan.cake(), plan.cupcakes_asked()
    try:
        tiers = cake_volumes(cake).tiers if cake else ()
        each = cupcake_volumes(cupcakes) if cupcakes else None
    except InputError as error:
        raise error.at(_field(error.path, plan)) from None
    if plan.choice("filled_with") == "other":
        tiers = tuple([tier.without_filling() for tier in tiers])
        each = each.without_filling() if each else None
    return Answer(plan=plan, cake=cake, tiers=tiers, cupcakes=each, batch_g=question.batch_g)


def texts(answer: Answer) -> Texts:
    plan, total = answer.plan, answer.total
    found = field_texts(plan)
    found |= amount_texts(plan, total, answer.tiers, answer.cupcakes)
    found |= batch_texts(plan, total.total_ml, answer.batch_g)
    return found | picture_texts(plan, answer.cake)


def _question(
    state: Mapping[str, str], batch_g: float, stated_density_g_per_ml: float | None, lengths: str
) -> Question:
    plan = cake_plan_from(state, lengths)
    if plan.density_g_per_ml is None:
        plan = replace(plan, density_g_per_ml=stated_density_g_per_ml)
    return Question(plan=plan, batch_g=batch_g, stated_density_g_per_ml=stated_density_g_per_ml, lengths=lengths)


def _changed(state: Mapping[str, str], question: Question, name: str, value: str) -> dict[str, str]:
    """The form state with what a field that the reader changed puts into it."""
    plan = question.plan
    part = name.rpartition(".")[2]
    kept = dict(state)
    if name.startswith("tier.") and part == "shape":
        return _with_shape(kept, question, name, value)
    if name.startswith("tier.") and part in TIER_THICKNESSES and not value.strip():
        kept.pop(name, None)
    elif name.startswith("tier.") and part in TIER_THICKNESSES:
        kept[name] = state_number(read_field(name, value, partial(_length, bare=_bare(plan, thin=True))))
    elif name.startswith("tier.") and part != "layers":
        kept[name] = state_number(read_field(name, value, partial(_length, bare=_bare(plan, thin=False))))
    elif name in THICKNESSES or name in CUPCAKE_LENGTHS:
        kept[name] = state_number(read_field(name, value, partial(_length, bare=_bare(plan, thin=name in THICKNESSES))))
    elif name in SHARES:
        kept[name] = state_number(read_field(name, value, _percent))
    elif name in ("density", "cup_weighs"):
        kept.pop(name, None)
        if value.strip():
            kept[name] = state_number(read_field(name, value, _density if name == "density" else in_grams))
    elif name == "under":
        kept[name] = "yes" if value == "yes" else "no"
    else:
        kept[name] = value.strip()
    return kept


_FIELDS = {
    "crumb_wall": "crumb", "final_wall": "final", "piping_share": "piping", "loss_share": "loss",
    "top": "cupcake_top", "height": "topping_height", "count": "cupcakes",
}  # fmt: skip


def _field(path: tuple[str | int, ...], plan: CakePlan) -> tuple[str | int, ...]:
    """The field of the form that an error of a cake or of cupcakes is about."""
    last = str(path[-1]) if path else ""
    if path[:1] == ("tiers",):
        place = int(path[1]) + 1 if len(path) > 1 else 1
        if last in ("solid", "layers") or len(path) < 3:
            return "tier", str(place), "layers" if last == "layers" else "shape"
        if _FIELDS.get(last, last) in plan.tiers[place - 1].own_mm:
            return "tier", str(place), _FIELDS.get(last, last)
    return (_FIELDS.get(last, last),)


def _with_shape(state: dict[str, str], question: Question, name: str, shape: str) -> dict[str, str]:
    """The state with another shape of a tier, which then has the lengths of that shape to start from."""
    plan = question.plan
    head = name.removesuffix("shape")
    gone = {field for field in state if field.startswith(head)} - {f"{head}{own}" for own in TIER_THICKNESSES}
    kept = {field: value for field, value in state.items() if field not in gone} | {name: shape}
    place = int(head.split(".")[1]) if head.split(".")[1].isdecimal() else 0
    if shape not in TIER_SHAPES or not 2 <= place <= len(plan.tiers) + 1:
        return kept
    below, start = plan.tiers[place - 2].solid(), starting_tiers(question.lengths)[shape]
    sides = below.top_mm if isinstance(below, Block) else (below.top_mm,)
    narrowest, solid = min(sides), start.solid()
    reach = solid.widest_mm
    if isinstance(solid, Block) and isinstance(below, Disc):
        reach = math.hypot(*solid.bottom_mm)
    scale = (narrowest - min(_STEP_IN_MM, narrowest / 4)) / reach
    if scale >= 1:
        return kept
    step_mm = 25.4 if question.lengths == "in" else 10.0
    smaller = {
        part: step_mm * max(1, int(mm * scale / step_mm)) for part, mm in start.lengths_mm.items() if part != "height"
    }
    return kept | {f"{head}{part}": state_number(mm) for part, mm in smaller.items()}


def _bare(plan: CakePlan, *, thin: bool) -> str:
    return "in" if plan.choice("lengths") == "in" else "mm" if thin else "cm"


def _length(written: str, bare: str) -> float:
    return millimetres(written if number_and_words(written)[1] else f"{written} {bare}")


def _percent(written: str) -> float:
    """A share of 1; a bare number is a percentage, as the field shows it."""
    return share(written if number_and_words(written)[1] else f"{written} %")


def _density(written: str) -> float:
    count, words = number_and_words(written)
    if words.replace(" ", "").lower() not in ("", "g/ml", "kg/l"):
        raise InputError(f"{words[:40]!r} does not measure a density", "write it like `0.85 g/mL`")
    return float(count)
