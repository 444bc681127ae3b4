"""Outside data -> Recipe. Every value is text, whether it comes from a form or from a file."""

from fractions import Fraction
from functools import partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.allergens import allergen_word
from crumbcoat_calc.recipe.asked import Asked
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.check_uses import check_uses
from crumbcoat_calc.recipe.claims import CLAIMS, Claim
from crumbcoat_calc.recipe.credits import author_from, video_from
from crumbcoat_calc.recipe.families import family_from
from crumbcoat_calc.recipe.ingredients import ingredient_from
from crumbcoat_calc.recipe.model import (
    PLACES,
    Decoration,
    Measured,
    OwnNotebook,
    Recipe,
    Storage,
    Yield,
)
from crumbcoat_calc.recipe.moved_from import earlier_path
from crumbcoat_calc.recipe.other_words import ALSO_PLACES
from crumbcoat_calc.recipe.own_food import density_from
from crumbcoat_calc.recipe.photo import photo_from
from crumbcoat_calc.recipe.stages import stage_from
from crumbcoat_calc.values.dates import date
from crumbcoat_calc.values.fields import (
    did_you_mean,
    each,
    each_named,
    line,
    mapping,
    one_of,
    only,
    slug,
    take,
    take_or,
    yes_no,
)  # fmt: skip
from crumbcoat_calc.values.marks import prose, prose_line
from crumbcoat_calc.values.units import between, whole_number
from crumbcoat_calc.values.written_times import seconds

RECIPE_FIELDS = (
    "title", "summary", "author", "published", "draft", "family", "keywords", "yield", "ingredients", "stages",
    "storage", "made", "measured", "tried", "notes", "asked", "may_contain", "decorations", "claims", "notebook",
    "updated", "cuisine", "video", "moved_from", "cover", "tips", "equipment",
)  # fmt: skip
STORAGE_FIELDS = ("where", "up_to", "note")
YIELD_FIELDS = ("portions", "of", "people")
MEASURED_FIELDS = ("density", "ph", "water_activity")
TRIED_FIELDS = ("from", "to")
DECORATION_FIELDS = ("what", "eaten")
CLAIM_FIELDS = ("claim", "ground")
ASKED_FIELDS = ("question", "answer")
NOTEBOOK_FIELDS = ("show", "note", "map", "beside")
SHOWN_TO = ("private", "public")

SMALLEST_BATCH = 0.001
LARGEST_BATCH = 1000


def recipe_from(data: object) -> Recipe:
    """Read the fields of a recipe.

    Raises:
        InputError: at the first field that is missing, unknown or wrong, where portions and steps contradict each
            other, or where the batch as published cannot be made.
    """
    recipe = recipe_of_fields(data)
    check_uses(recipe)
    check_axes(recipe)
    batch_of(recipe)
    return recipe


def recipe_of_fields(data: object) -> Recipe:
    """Read the fields of a recipe, each by itself; what steps use and whether it can be made is not checked.

    Raises:
        InputError: at the first field that is missing, unknown or wrong.
    """
    fields = mapping(data)
    only(fields, RECIPE_FIELDS)
    made = take_or(fields, "made", whole_number(0, 100000), None)
    return Recipe(
        title=take(fields, "title", line),
        summary=take(fields, "summary", prose),
        author=take(fields, "author", author_from),
        published=take_or(fields, "published", date, None),
        updated=take_or(fields, "updated", partial(_updated, published=fields.get("published")), None),
        draft=take_or(fields, "draft", yes_no, False),
        family=take(fields, "family", family_from),
        keywords=take_or(fields, "keywords", each(line), ()),
        cuisine=take_or(fields, "cuisine", line, None),
        video=take_or(fields, "video", video_from, None),
        yields=take(fields, "yield", _yield),
        ingredients=take(fields, "ingredients", each_named(ingredient_from, at_least=1)),
        stages=take(fields, "stages", each(stage_from, at_least=1)),
        storage=take_or(fields, "storage", each(_storage), ()),
        notes=take_or(fields, "notes", each(prose), ()),
        tips=take_or(fields, "tips", each(prose), ()),
        equipment=take_or(fields, "equipment", each(line), ()),
        asked=take_or(fields, "asked", each(_asked), ()),
        made=made,
        measured=take_or(fields, "measured", partial(_measured, made=made), Measured()),
        tried=take_or(fields, "tried", _tried, None),
        may_contain=take_or(fields, "may_contain", each(allergen_word), ()),
        decorations=take_or(fields, "decorations", each(_decoration), ()),
        claims=take_or(fields, "claims", each(_claim), ()),
        notebook=take_or(fields, "notebook", _notebook, OwnNotebook()),
        moved_from=take_or(fields, "moved_from", each(earlier_path), ()),
        cover=take_or(fields, "cover", photo_from, None),
    )


def _updated(value: object, published: object) -> str:
    updated = date(value)
    if isinstance(published, str) and updated < published.strip():
        raise InputError("`updated` is before `published`", "give the date of a later change, or leave it out")
    return updated


def _storage(value: object) -> Storage:
    fields = mapping(value)
    only(fields, STORAGE_FIELDS)
    return Storage(
        where=take(fields, "where", one_of(*PLACES, also=ALSO_PLACES)),
        up_to_s=take(fields, "up_to", partial(seconds, example="5 days")),
        note=take_or(fields, "note", prose, None),
    )


def _yield(value: object) -> Yield:
    fields = mapping(value)
    only(fields, YIELD_FIELDS)
    return Yield(
        portions=take(fields, "portions", whole_number(1, 100000)),
        of=take(fields, "of", line),
        people=take_or(fields, "people", whole_number(1, 1000), None),
    )


def _measured(value: object, made: int | None) -> Measured:
    fields = mapping(value)
    only(fields, MEASURED_FIELDS)
    for name in ("ph", "water_activity") if made == 0 else ():
        if name in fields:
            problem = f"a recipe that was not made has no measured `{name}`"
            raise InputError(problem, f"leave `{name}` out, or say in `made` how many batches were made", (name,))
    return Measured(
        density_g_per_ml=take_or(fields, "density", density_from, None),
        ph=take_or(fields, "ph", between(Fraction(0), Fraction(14)), None),
        water_activity=take_or(fields, "water_activity", between(Fraction(0), Fraction(1)), None),
    )


def _tried(value: object) -> tuple[float, float]:
    fields = mapping(value)
    only(fields, TRIED_FIELDS)
    reader = between(Fraction(str(SMALLEST_BATCH)), Fraction(LARGEST_BATCH))
    low, high = take(fields, "from", reader), take(fields, "to", reader)
    if low > high:
        raise InputError("`from` is larger than `to`", "put the smaller batch first", ("from",))
    return low, high


def _decoration(value: object) -> Decoration:
    fields = mapping(value)
    only(fields, DECORATION_FIELDS)
    return Decoration(what=take(fields, "what", line), eaten=take_or(fields, "eaten", yes_no, True))


def _asked(value: object) -> Asked:
    fields = mapping(value)
    only(fields, ASKED_FIELDS)
    return Asked(question=take(fields, "question", prose_line), answer=take(fields, "answer", prose))


def _claim(value: object) -> Claim:
    fields = mapping(value)
    only(fields, CLAIM_FIELDS)
    return Claim(claim=take(fields, "claim", one_of(*CLAIMS)), ground=take(fields, "ground", line))


def _notebook(value: object) -> OwnNotebook:
    """One word says who may read it; a block says more."""
    if isinstance(value, str):
        return OwnNotebook(is_public=one_of(*SHOWN_TO)(value) == SHOWN_TO[1])
    fields = mapping(value)
    only(fields, NOTEBOOK_FIELDS)
    return OwnNotebook(
        is_public=take_or(fields, "show", one_of(*SHOWN_TO), SHOWN_TO[0]) == SHOWN_TO[1],
        note=take_or(fields, "note", prose, None),
        axes=take_or(fields, "map", _axes, None),
        beside=take_or(fields, "beside", each(line), ()),
    )


def _axes(value: object) -> tuple[str, str]:
    keys = each(slug)(value)
    if len(keys) != 2 or keys[0] == keys[1]:
        raise InputError("a map has two ingredients", "name two of them, such as `[butter, sugar]`")
    return keys[0], keys[1]


def check_axes(recipe: Recipe) -> None:
    """Check that the axes of the notebook's map are ingredients.

    Raises:
        InputError: at the first that is not.
    """
    known = [ingredient.key for ingredient in recipe.ingredients]
    for place, key in enumerate(recipe.notebook.axes or ()):
        if key not in known:
            remedy = did_you_mean(key, known, "use the short name of one of its ingredients")
            raise InputError(f"the recipe has no ingredient {key!r}", remedy, ("notebook", "map", place))
