"""What a batch is made of: amounts as the reader chose them, and the contents of the vessel after each stage."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.composition import NOTHING, Mixture, mixed, mixture_of
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.model import Ingredient, Recipe, Stage, Step
from crumbcoat_calc.recipe.replacing import replacement_of
from crumbcoat_calc.recipe.treatment import UNTREATED, Treatment, treated


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchOptions:
    """What a reader changes in a recipe. Keys are those of the recipe's ingredients.

    `amounts_g`: changed amounts in g, for one batch as published. `left_out`: optional ingredients left out.
    `replaced`: the replacement chosen for an ingredient, named as in `recipe.replacing`. `skipped`: optional steps left
    out together with what goes in there, as stage and step counted from 0. `used`: parts that were kept back and went
    in for a rescue, as ingredient and part. `temperatures_c`: temperatures at which ingredients go in, where they
    differ from the published ones.
    """

    factor: float = 1.0
    amounts_g: Mapping[str, float] = field(default_factory=dict)
    left_out: frozenset[str] = frozenset()
    replaced: Mapping[str, str] = field(default_factory=dict)
    skipped: frozenset[tuple[int, int]] = frozenset()
    used: frozenset[tuple[str, str]] = frozenset()
    temperatures_c: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedIngredient:
    """An ingredient weighed for this batch; `mass_g` is 0 if it is left out.

    `kept_back_g` are the parts kept back, extra to `mass_g`; `rescued` names those that went in.
    """

    key: str
    name: str
    food: Food
    mass_g: float
    temperature_c: float | None
    portions_g: Mapping[str, float]
    kept_back_g: Mapping[str, float] = field(default_factory=dict)
    rescued: frozenset[str] = frozenset()

    @property
    def inside_g(self) -> float:
        """What is in the batch, with what went in for a rescue."""
        return self.mass_g + fsum([self.kept_back_g[part] for part in self.rescued])

    @property
    def needed_g(self) -> float:
        """What has to be at hand, with what is kept back."""
        return self.mass_g + fsum(self.kept_back_g.values())


@dataclass(frozen=True, slots=True)
class VesselPart:
    """A part of the contents of a vessel: the mass of the ingredient `key` in g, and its temperature in °C.

    After a step that heats or cools the vessel, `temperature_c` is the temperature that it was `brought` to.
    `treatment` is what the steps have done to it.
    """

    food: Food
    mass_g: float
    temperature_c: float | None
    key: str = ""
    brought: bool = False
    treatment: Treatment = UNTREATED


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel:
    """A bowl or pan: the mixture in it, the parts of the mixture, and the water that has boiled off."""

    mixture: Mixture
    parts: tuple[VesselPart, ...]
    water_lost_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """A batch: the weighed ingredients, what goes in at each step, and the vessel after each stage.

    The last vessel is the finished batch. `uses_g[stage][step][use]` is the mass that goes in there, in g.
    """

    recipe: Recipe
    factor: float
    weighed: tuple[WeighedIngredient, ...]
    uses_g: tuple[tuple[tuple[float, ...], ...], ...]
    vessels: tuple[Vessel, ...]

    @property
    def total(self) -> Mixture:
        """The finished batch."""
        return self.vessels[-1].mixture

    @property
    def portions(self) -> float:
        """How many portions of the published mass it makes."""
        return self.total.mass_g / self.recipe.portion_g


EMPTY = Vessel(mixture=NOTHING, parts=(), water_lost_g=0.0)


def batch_of(recipe: Recipe, options: BatchOptions | None = None) -> Batch:
    """The batch of a recipe with these options.

    All amounts, and the water that boils off, are multiplied by the factor. Mass is conserved: the ingredients minus
    the water lost make the finished mass.

    Raises:
        InputError: if nothing is left in the batch, or more water would boil off than there is.
    """
    options = options or BatchOptions()
    options = replace(options, skipped=steps_left_out(recipe, options))
    weighed = _all_weighed(recipe, options)
    if fsum(ingredient.mass_g for ingredient in weighed) <= 0:
        raise InputError("nothing is left in the batch", "keep some of at least one ingredient", ("amount",))
    store: dict[tuple[str, str | None], Vessel] = {}
    for ingredient in weighed:
        store[ingredient.key, None] = _portion(ingredient, ingredient.mass_g)
        for key, mass_g in (*ingredient.portions_g.items(), *ingredient.kept_back_g.items()):
            store[ingredient.key, key] = _portion(ingredient, mass_g)
    bowl = EMPTY
    vessels, uses_g = [], []
    for number, stage in enumerate(recipe.stages):
        vessel, stage_uses = _after_stage(stage, EMPTY if stage.makes else bowl, store, options, number)
        vessels.append(vessel)
        uses_g.append(stage_uses)
        if stage.makes is None:
            bowl = vessel
        else:
            store[stage.makes, None] = vessel
            for key, share in stage.shares:
                store[stage.makes, key] = _share(vessel, share)
    if bowl.mixture.mass_g <= 0:
        raise InputError("nothing is left in the batch", "keep some of at least one ingredient", ("amount",))
    return Batch(recipe=recipe, factor=options.factor, weighed=weighed, uses_g=tuple(uses_g), vessels=tuple(vessels))


def weighed_of(recipe: Recipe, options: BatchOptions) -> tuple[WeighedIngredient, ...]:
    """The ingredients weighed with these options, before mixing, in the order of the recipe."""
    return _all_weighed(recipe, replace(options, skipped=steps_left_out(recipe, options)))


def steps_left_out(recipe: Recipe, options: BatchOptions) -> frozenset[tuple[int, int]]:
    """The steps left out, as stage and step counted from 0: skipped ones, and optional ones that would add nothing.

    An optional step adds nothing if everything that goes in there is left out. If it adds anything else, it stays.
    """
    return options.skipped | {
        (stage_number, step_number)
        for stage_number, stage in enumerate(recipe.stages)
        for step_number, step in enumerate(stage.steps)
        if step.optional and step.uses and all(use.what in options.left_out for use in step.uses)
    }


def _all_weighed(recipe: Recipe, options: BatchOptions) -> tuple[WeighedIngredient, ...]:
    skipped = _skipped_uses(recipe, options)
    used = _rescuing(recipe, options)
    return tuple([_weighed(ingredient, options, skipped, used) for ingredient in recipe.ingredients])


def _rescuing(recipe: Recipe, options: BatchOptions) -> frozenset[tuple[str, str]]:
    """The parts that went in for a rescue; a step that is left out has none."""
    if not options.used:
        return options.used
    skipped = [recipe.stages[stage].steps[step].checkpoint for stage, step in options.skipped]
    gone = [use for checkpoint in skipped if checkpoint for use in checkpoint.adds]
    return options.used - {(use.what, use.portion or "") for use in gone}


def _skipped_uses(recipe: Recipe, options: BatchOptions) -> frozenset[tuple[str, str | None]]:
    steps = [recipe.stages[stage].steps[step] for stage, step in options.skipped]
    return frozenset([(use.what, use.portion) for step in steps for use in step.uses])


def _weighed(
    ingredient: Ingredient,
    options: BatchOptions,
    skipped: frozenset[tuple[str, str | None]],
    used: frozenset[tuple[str, str]],
) -> WeighedIngredient:
    key = ingredient.key
    name, kind, ratio = replacement_of(ingredient, options.replaced.get(key, ""))
    mass_g = options.factor * options.amounts_g.get(key, ingredient.mass_g) * ratio
    kept_back_g = {part.key: options.factor * part.mass_g * ratio for part in ingredient.kept_back}
    if key in options.left_out or (key, None) in skipped:
        mass_g = 0.0
    if key in options.left_out:
        kept_back_g = dict.fromkeys(kept_back_g, 0.0)
    portions: dict[str, float] = {}
    if ingredient.portions:
        portions = {portion.key: mass_g * portion.mass_g / ingredient.mass_g for portion in ingredient.portions}
        if skipped:
            portions = {part: 0.0 if (key, part) in skipped else portion_g for part, portion_g in portions.items()}
            mass_g = fsum(portions.values())
    return WeighedIngredient(
        key=key,
        name=name,
        food=kind,
        mass_g=mass_g,
        temperature_c=options.temperatures_c.get(key, ingredient.temperature_c),
        portions_g=portions,
        kept_back_g=kept_back_g,
        rescued=frozenset([part for part in kept_back_g if (key, part) in used]),
    )


def _portion(ingredient: WeighedIngredient, mass_g: float) -> Vessel:
    if mass_g <= 0:
        return EMPTY
    part = VesselPart(ingredient.food, mass_g, ingredient.temperature_c, ingredient.key)
    return Vessel(mixture=mixture_of(ingredient.food, mass_g, ingredient.name), parts=(part,), water_lost_g=0.0)


def _share(vessel: Vessel, share: float) -> Vessel:
    return Vessel(
        mixture=vessel.mixture.times(share),
        parts=tuple([replace(part, mass_g=share * part.mass_g) for part in vessel.parts]),
        water_lost_g=share * vessel.water_lost_g,
    )


def _after_stage(
    stage: Stage, vessel: Vessel, store: Mapping[tuple[str, str | None], Vessel], options: BatchOptions, number: int
) -> tuple[Vessel, tuple[tuple[float, ...], ...]]:
    uses_g = []
    mixtures, parts, lost = [vessel.mixture], list(vessel.parts), vessel.water_lost_g
    for step_number, step in enumerate(stage.steps):
        added = [store[use.what, use.portion] for use in step.uses]
        uses_g.append(tuple([content.mixture.mass_g for content in added]))
        for content in added:
            mixtures.append(content.mixture)
            parts.extend(content.parts)
            lost += content.water_lost_g
        if step.water_lost_g and (number, step_number) not in options.skipped:
            mixtures = [_boiled(mixed(mixtures), step, options.factor, ("stages", number, "steps", step_number))]
            lost += options.factor * step.water_lost_g
        if (number, step_number) not in options.skipped:
            parts = _after_step(parts, step, lost)
        if step.checkpoint and (number, step_number) not in options.skipped:
            for use in step.checkpoint.adds:
                if (use.what, use.portion) in options.used:
                    mixtures.append(store[use.what, use.portion].mixture)
                    parts.extend(store[use.what, use.portion].parts)
    return Vessel(mixture=mixed(mixtures), parts=tuple(parts), water_lost_g=lost), tuple(uses_g)


def _after_step(parts: list[VesselPart], step: Step, lost_g: float) -> list[VesselPart]:
    treatments = treated(
        [(part.food, part.mass_g, part.temperature_c) for part in parts],
        [part.treatment for part in parts],
        step,
        lost_g,
    )
    brought_to_c = step.heat_to_c if step.cool_to_c is None else step.cool_to_c
    if brought_to_c is None:
        return [
            part
            if part.treatment is treatment
            else VesselPart(part.food, part.mass_g, part.temperature_c, part.key, part.brought, treatment)
            for part, treatment in zip(parts, treatments, strict=True)
        ]
    return [
        VesselPart(part.food, part.mass_g, brought_to_c, part.key, True, treatment)
        for part, treatment in zip(parts, treatments, strict=True)
    ]


def _boiled(mixture: Mixture, step: Step, factor: float, path: tuple[str | int, ...]) -> Mixture:
    try:
        return mixture.without_water(factor * step.water_lost_g)
    except InputError as error:
        raise error.within(*path, "water_lost") from None
