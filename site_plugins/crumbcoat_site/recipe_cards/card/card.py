"""Card: everything that the template of a recipe shows."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from crumbcoat_calc.calculators import run, solve
from crumbcoat_calc.calculators.label import Answer
from crumbcoat_calc.foods.figures import FIGURES
from crumbcoat_calc.forms.changes import skippable
from crumbcoat_calc.forms.context import Context, PublishedRecipe
from crumbcoat_calc.forms.trial_notes import TEST_FIELDS
from crumbcoat_calc.forms.trial_start import NO_START, TrialStart, trial_start_fields
from crumbcoat_calc.label.caution_table import VOICES
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Ingredient, Portion, Recipe, Step, Use
from crumbcoat_calc.recipe.rescues import rescue_places
from crumbcoat_calc.recipe.times import Times, times_of
from crumbcoat_calc.recipe.trial_words import OUTCOMES, VERDICTS
from crumbcoat_calc.texts.explained import EXPLAINED, GROUPS, Explained
from crumbcoat_calc.trials.record import NOTHING_SEEN, Record
from crumbcoat_calc.values.display import date_text, duration_text, list_text
from markupsafe import Markup

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.page_context import PageContext, prices_field, region_field
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.card.equipment import Equipment, equipment_of
from crumbcoat_site.recipe_cards.card.plate_drawing import made_for
from crumbcoat_site.recipe_cards.card.reader_choices import (
    Choice,
    Preset,
    bowl_choices,
    egg_choices,
    kind_choices,
    preset_sizes,
    scale_choices,
    tool_choices,
    unit_choices,
)  # fmt: skip
from crumbcoat_site.recipe_cards.card.search_words import SearchWords, search_words
from crumbcoat_site.recipe_cards.card.shown_pictures import PlacedPicture, placed_pictures
from crumbcoat_site.recipe_cards.card.step_drawings import drawing_of
from crumbcoat_site.recipe_cards.pictures.ready import Shown
from crumbcoat_site.recipe_cards.source.photo_names import COVER
from crumbcoat_site.recipe_cards.source.photos import photos_of
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.trial_folders import FOLDER_ENDING


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """Everything that the template shows; the texts are those of the calculators for the recipe as published.

    `record` is what its trials say of its own batches; `trials` are the numbers of those that have a card. `embedded`:
    whether it is to be shown in a page of another site; `lines_to_copy` put it there.
    """

    recipe: Recipe
    data: Mapping[str, object]
    context: PageContext
    batch: Batch
    texts: Mapping[str, object]
    label: Answer
    label_texts: Mapping[str, object]
    trial_texts: Mapping[str, object] | None
    trial_start: TrialStart
    us_label_first: bool
    handout: bool
    notebook: bool
    models_page: str | None
    cake_texts: Mapping[str, object]
    presets: Sequence[Preset]
    name: str
    pictures: Sequence[PlacedPicture]
    times: Times
    record: Record = NOTHING_SEEN
    trials: Sequence[int] = ()
    embedded: bool = False
    lines_to_copy: Sequence[tuple[str, str]] = ()

    @property
    def cake_tiers(self) -> Markup:
        """The fields of the cake's tiers."""
        fields = [(name, text) for name, text in self.cake_texts.items() if name.startswith(("tier.", "follows."))]
        return _cake_tiers(tuple(fields))

    @property
    def figures(self) -> tuple[tuple[str, str], ...]:
        """Key and label of each figure."""
        return tuple((figure.key, figure.label) for figure in FIGURES)

    @property
    def science_groups(self) -> tuple[str, ...]:
        """The groups of the science's figures; the first has the few that matter most."""
        return GROUPS

    def explained(self, group: str) -> tuple[Explained, ...]:
        """The figures of a group, each with its model."""
        return tuple(figure for figure in EXPLAINED if figure.group == group)

    @property
    def outcomes(self) -> tuple[str, ...]:
        """What a batch, or a test of it, can have done."""
        return OUTCOMES

    @property
    def verdicts(self) -> tuple[str, ...]:
        """What can follow from a trial."""
        return VERDICTS

    @property
    def test_fields(self) -> Mapping[str, tuple[str, ...]]:
        """The fields of each test of a finished batch."""
        return TEST_FIELDS

    @property
    def show_cost(self) -> bool:
        """Whether there are prices, and readers are to see what they come to."""
        return bool(self.label_texts["cost.short"])

    def has_caution(self, stage: int, step: int) -> bool:
        """Whether a step, counted from 0, has a caution of its own as published."""
        return bool(self.label_texts[f"caution.{stage}.{step}"])

    @property
    def units(self) -> list[Choice]:
        """What amounts can be shown in."""
        return unit_choices()

    @property
    def scales(self) -> list[Choice]:
        """The kinds of scale."""
        return scale_choices()

    @property
    def egg_sizes(self) -> list[Choice]:
        """The sizes of eggs, if the recipe has eggs or can have them; otherwise none."""
        return egg_choices(self.recipe)

    @property
    def bowls(self) -> list[Choice]:
        """Common bowls."""
        return bowl_choices()

    @property
    def tools(self) -> list[Choice]:
        """The tools to mix with."""
        return tool_choices()

    def other_kinds(self, ingredient: Ingredient) -> list[Choice]:
        """The other kinds in an ingredient's group."""
        return kind_choices(ingredient)

    def skippable(self, stage: int, step: int) -> bool:
        """Whether a step, counted from 0, can be left out."""
        return skippable(self.recipe, stage, step)

    @property
    def signs(self) -> tuple[tuple[str, str], ...]:
        """Every sign of trouble at a checkpoint, and its place: stage, step and number, such as `2.1-1`."""
        return tuple(
            (trouble.sign, f"{stage_number}.{step_number}-{number}")
            for stage_number, stage in enumerate(self.recipe.stages, 1)
            for step_number, step in enumerate(stage.steps, 1)
            for number, trouble in enumerate(step.checkpoint.troubles if step.checkpoint else (), 1)
        )

    def kept_for(self, ingredient: Ingredient, part: Portion) -> str:
        """The step whose checkpoint a part is kept back for, such as `2.1`."""
        return rescue_places(self.recipe)[ingredient.key, part.key]

    @property
    def trials_folder(self) -> str:
        """Where a trial that is kept on the card belongs, beside the recipe file."""
        recipe = self.name.removesuffix(f"/trials/{self.trial_start.came_from}")
        return recipe.rpartition("/")[2] + FOLDER_ENDING

    @property
    def slug(self) -> str:
        return self.name.rpartition("/")[2]

    def ingredient(self, use: Use) -> Ingredient | None:
        """The ingredient that goes in; None for the mixture of an earlier stage."""
        return next((ingredient for ingredient in self.recipe.ingredients if ingredient.key == use.what), None)

    def use_name(self, use: Use) -> str:
        """What goes in, in words."""
        ingredient = self.ingredient(use)
        if ingredient is not None:
            return ingredient.name
        number = next(number for number, stage in enumerate(self.recipe.stages, start=1) if stage.makes == use.what)
        return f"{use.what.replace('_', ' ').replace('-', ' ')} (from stage {number})"

    def names_in(self, step: Step) -> str:
        """Everything that goes in at a step, in words."""
        return list_text([self.use_name(use) for use in step.uses])

    @property
    def made_for(self) -> str:
        """The name of the drawing that shows what a batch is for."""
        return made_for(self.recipe.yields.of)

    @property
    def cover(self) -> Shown | None:
        """The recipe's own picture; None if there is none."""
        return next((picture.shown for picture in self.pictures if picture.slot == COVER), None)

    def photos(self, step: str) -> list[PlacedPicture]:
        """The pictures of a step, such as `2-1`, and those that are still to be taken."""
        return [picture for picture in self.pictures if picture.slot == step]

    def drawing(self, step: Step) -> str:
        """The name of the drawing that takes the place of the step's picture."""
        return drawing_of(step)

    @property
    def equipment(self) -> Equipment:
        """The tools of the steps, and what is needed besides."""
        return equipment_of(self.recipe)

    @property
    def search_words(self) -> SearchWords:
        """What the search knows of the card."""
        return search_words(self.recipe)

    @property
    def published_text(self) -> str:
        """The date of publication in words."""
        return date_text(self.recipe.published) if self.recipe.published else ""

    def time_text(self, step: Step) -> str:
        return duration_text(step.time.shortest_s, step.time.longest_s) if step.time else ""


@lru_cache(maxsize=16)
def _cake_tiers(texts: tuple[tuple[str, object], ...]) -> Markup:
    """A hundred fields, which are the same on every card as long as no recipe has its own cake."""
    return component("cake/tiers", texts=dict(texts))


def card_from(
    published: PublishedRecipe,
    file: RecipeFile,
    prices: str | None,
    options: CardOptions,
    handout: bool,
    readings: Mapping[str, object] | None = None,
    start: TrialStart = NO_START,
) -> Card:
    """The card of a recipe: what the calculators give for it as published, from the context that the page carries.

    Args:
        published: the recipe in the file.
        prices: the text of the file of prices.
        options: what the site decides about all of its cards.
        handout: whether there is a handout to link to; without one, the cautions are those for a home kitchen.
        readings: what the trials of the recipe say of mixer, air and bowl, if they say anything; as in `published`.
        start: what a trial that is kept on the card begins with, where the site offers that.
    """
    of_a_class, of_a_home = VOICES
    voice = of_a_class if handout else of_a_home
    prices = prices if options.show_cost else None
    fields: dict[str, object] = {"recipe": published.data} | prices_field(prices)
    fields |= region_field(published.region) | ({} if handout else {"voice": voice})
    fields |= {"readings": readings} if readings else {}
    fields |= {"trial": trial_start_fields(start)} if options.trials else {}
    recipes = {"recipe": published}
    context = Context(recipes=recipes, prices_text=prices, region=published.region, voice=voice, trial=start)
    _, texts = run("batch", context)
    _, cake_texts = run("cake", context)
    label = solve("label", context)
    return Card(
        recipe=published.recipe,
        data=published.data,
        context=PageContext(fields, context),
        batch=published.batch,
        texts=texts,
        label=label.answer,
        label_texts=label.texts,
        trial_texts=run("trial", context)[1] if options.trials else None,
        trial_start=start,
        us_label_first=options.region == "US",
        handout=handout,
        notebook=file.has_trials and (options.notebooks or published.recipe.notebook.is_public),
        cake_texts=cake_texts,
        presets=preset_sizes(context),
        models_page=None if options.models_url is None else relative_address(options.models_url, f"{file.name}/"),
        name=file.name,
        pictures=placed_pictures(
            published.recipe,
            file.name,
            photos_of(published.recipe, file.name, file.photos),
            file.photos,
            f"{file.name}/",
        ),
        times=times_of(published.recipe),
    )
