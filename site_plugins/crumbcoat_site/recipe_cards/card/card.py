"""Card: all that the template shows."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from crumbcoat_calc.calculators import run, solve
from crumbcoat_calc.calculators.label import Answer
from crumbcoat_calc.foods.figures import FIGURES
from crumbcoat_calc.forms.changes import UNCHANGED, skippable
from crumbcoat_calc.forms.context import Context, PublishedRecipe
from crumbcoat_calc.kitchen.bowls import bowls, tools
from crumbcoat_calc.kitchen.eggs import EGG_GROUP, egg_sizes
from crumbcoat_calc.kitchen.rounding import scales
from crumbcoat_calc.purchasing.cost import prices_from
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Ingredient, Recipe, Step, Use
from crumbcoat_calc.recipe.replacing import KIND, other_kinds
from crumbcoat_calc.recipe.times import Times, times_of
from crumbcoat_calc.texts.explained import EXPLAINED, GROUPS, Explained
from crumbcoat_calc.values.display import duration_text, list_text
from markupsafe import Markup

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.page_context import PageContext
from crumbcoat_site.recipe_cards.source.photos import photo_name
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """All that the template shows; `texts` and `cake_texts` are what the calculators say of the recipe as published."""

    recipe: Recipe
    data: Mapping[str, object]
    context: PageContext
    batch: Batch
    texts: Mapping[str, object]
    label: Answer
    label_texts: Mapping[str, object]
    handout: bool
    models_page: str | None
    cake_texts: Mapping[str, object]
    name: str
    photos: Mapping[str, str]
    times: Times

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
        """The groups of the science's figures; the first holds the few that matter."""
        return GROUPS

    def explained(self, group: str) -> tuple[Explained, ...]:
        """The figures of a group, each with its model."""
        return tuple(one for one in EXPLAINED if one.group == group)

    @property
    def scales(self) -> list[tuple[str, str]]:
        """Key and name of each kind of scale, the finest first."""
        return [(scale.key, scale.name) for scale in sorted(scales().values(), key=lambda scale: scale.step_g)]

    @property
    def egg_sizes(self) -> list[tuple[str, str]]:
        """The key and name of each egg size, if the recipe uses eggs or may use them as a replacement."""
        foods = [ingredient.food for ingredient in self.recipe.ingredients]
        foods += [other.food for ingredient in self.recipe.ingredients for other in ingredient.replacements]
        if not any(food.group == EGG_GROUP for food in foods):
            return []
        return [(egg.size, f"{egg.name} ({egg.market}, {egg.in_shell})") for egg in egg_sizes().values()]

    @property
    def bowls(self) -> list[tuple[str, str]]:
        """Volume and name of common bowls, the smallest first."""
        found = sorted(bowls().values(), key=lambda bowl: bowl.volume_ml)
        return [(f"{bowl.volume_ml / 1000:g} L", bowl.name) for bowl in found]

    @property
    def tools(self) -> list[tuple[str, str]]:
        """Key and name of each tool that a bowl is mixed with."""
        return [(tool.key, tool.name) for tool in sorted(tools().values(), key=lambda tool: tool.key != UNCHANGED.tool)]

    def other_kinds(self, ingredient: Ingredient) -> list[tuple[str, str]]:
        """Choice and name of every other kind of an ingredient's group."""
        kinds = other_kinds(ingredient.food.group, ingredient.food.key)
        return [(KIND + kind.key, kind.name) for kind in kinds]

    def skippable(self, stage: int, step: int) -> bool:
        """Whether a step, counted from 0, can be left out."""
        return skippable(self.recipe, stage, step)

    @property
    def slug(self) -> str:
        return self.name.rpartition("/")[2]

    def ingredient(self, use: Use) -> Ingredient | None:
        """The ingredient that goes in; None for what an earlier stage made."""
        return next((one for one in self.recipe.ingredients if one.key == use.what), None)

    def use_name(self, use: Use) -> str:
        """What goes in, in words."""
        one = self.ingredient(use)
        if one is not None:
            return one.name
        stage = next(n for n, made in enumerate(self.recipe.stages, start=1) if made.makes == use.what)
        return f"{use.what.replace('_', ' ').replace('-', ' ')} (from stage {stage})"

    def names_in(self, step: Step) -> str:
        """All that goes in at a step, in words."""
        return list_text([self.use_name(use) for use in step.uses])

    @property
    def cover(self) -> str | None:
        """The recipe's own picture as a path from the page; None if none lies beside the recipe."""
        file = self.photos.get("cover")
        return f"../{file}" if file else None

    def photo(self, stage: int, step: int) -> str | None:
        """The picture of a step, counted from 1, as a path from the page; None if none lies beside the recipe."""
        file = self.photos.get(f"{stage}-{step}")
        return f"../{file}" if file else None

    def photo_file(self, stage: int, step: int) -> str:
        """The file name that a picture of the step must have."""
        return photo_name(self.slug, stage, step) + ".jpg"

    def drawing(self, step: Step) -> str:
        """The name of the drawing that holds the place of a step's picture: that of the tool in use."""
        words = f"{step.tool or ''} {step.photo or ''}".lower()
        return next((drawing for word, drawing in _DRAWING_OF if word in words), "bowl")

    @property
    def published_text(self) -> str:
        """The date of publication in words."""
        day = date.fromisoformat(self.recipe.published or "")
        return f"{day.day} {day:%B %Y}"

    def time_text(self, step: Step) -> str:
        return duration_text(step.time.shortest_s, step.time.longest_s) if step.time else ""


@lru_cache(maxsize=16)
def _cake_tiers(texts: tuple[tuple[str, object], ...]) -> Markup:
    """A hundred fields, which are the same on each card while no recipe names a cake of its own."""
    return component("cake/tiers", texts=dict(texts))


_DRAWING_OF = (
    ("blender", "blender"),
    ("saucepan", "pan"),
    ("refrigerator", "shelf"),
    ("tray", "shelf"),
    ("dish", "shelf"),
    ("spoon", "spoon"),
    ("spatula", "spoon"),
    ("ribbon", "spoon"),
    ("peak", "peaks"),
    ("butter", "block"),
    ("piping", "bag"),
    ("mixer", "mixer"),
)
"""Words of a step's tool and picture, the first that fits, and the drawing in components/drawing."""


def card_from(
    published: PublishedRecipe, file: RecipeFile, prices: str | None, models_url: str | None, handout: bool
) -> Card:
    """The card of a recipe: what the calculators give for it as published, from the context that the page carries.

    Args:
        published: the recipe in the file.
        prices: the text of the file of prices.
        models_url: the page that explains the models, from the root of the site.
        handout: whether there is a handout to link to.
    """
    fields = {"recipe": published.data} | ({} if prices is None else {"prices": prices})
    context = Context(recipes={"recipe": published}, prices=None if prices is None else prices_from(prices))
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
        handout=handout,
        cake_texts=cake_texts,
        models_page=None if models_url is None else relative_address(models_url, f"{file.name}/"),
        name=file.name,
        photos=file.photos,
        times=times_of(published.recipe),
    )
