"""The state of a mixture of which not everything is known, as bands between the ends of what is open."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields
from functools import cached_property
from math import fsum
from typing import TypeVar

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.emulsifier import Emulsifiers
from crumbcoat_calc.science.emulsion import InnerPhase, Packing
from crumbcoat_calc.science.ends import ends_of, is_open
from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.science.lactose import Lactose
from crumbcoat_calc.science.more_sugar import SugarEffect
from crumbcoat_calc.science.state import MixtureState, mixture_state
from crumbcoat_calc.science.volumes import Volumes

T = TypeVar("T")


@dataclass(frozen=True, kw_only=True)
class StateBetween(MixtureState):
    """A mixture at the ends of what is not known of the ingredients `unknown`: every estimate covers all of them.

    What is not an estimate, such as the inner phase, is None if the ends do not agree.
    """

    ends: tuple[MixtureState, ...]
    unknown: str

    def _across(self, figure: Callable[[MixtureState], Estimated]) -> Estimated:
        return covering([figure(end) for end in self.ends], self.unknown)

    @cached_property
    def headroom_g(self) -> Estimated:
        return self._across(lambda end: end.headroom_g)

    @cached_property
    def lactose(self) -> Lactose:
        columns = zip(*[end.lactose for end in self.ends], strict=True)
        return Lactose(*[covering(figures, self.unknown) for figures in columns])

    @cached_property
    def syrup_density_g_per_ml(self) -> Estimated:
        return self._across(lambda end: end.syrup_density_g_per_ml)

    @cached_property
    def syrup_viscosity_mpa_s(self) -> Estimated:
        return self._across(lambda end: end.syrup_viscosity_mpa_s)

    @cached_property
    def density_g_per_ml(self) -> Estimated:
        return self._across(lambda end: end.density_g_per_ml)

    @cached_property
    def packing(self) -> Packing | None:
        return _agreed([end.packing for end in self.ends])

    @cached_property
    def inner_phase(self) -> InnerPhase | None:
        return _agreed([end.inner_phase for end in self.ends])

    @cached_property
    def solid_fat_percent(self) -> Estimated:
        return self._across(lambda end: end.solid_fat_percent)

    def emulsifiers(self, droplets: tuple[float, float], egg_protein_g: tuple[float, float]) -> Emulsifiers:
        found = [end.emulsifiers(droplets, egg_protein_g) for end in self.ends]
        return Emulsifiers(
            milk_protein_g=covering([one.milk_protein_g for one in found], self.unknown),
            egg_protein_g=egg_protein_g,
            phospholipid_g=covering([one.phospholipid_g for one in found], self.unknown),
            egg_yolk_phospholipid_g=found[0].egg_yolk_phospholipid_g,
            fat_surface_m2=covering([one.fat_surface_m2 for one in found], self.unknown),
            milk_protein_mg_per_m2=covering([one.milk_protein_mg_per_m2 for one in found], self.unknown),
            phospholipid_mg_per_m2=covering([one.phospholipid_mg_per_m2 for one in found], self.unknown),
            finest_droplet_um=covering([one.finest_droplet_um for one in found], self.unknown),
        )

    def sugar_effect(self, emulsified: bool | None = None) -> SugarEffect:
        return _agreed([end.sugar_effect(emulsified) for end in self.ends]) or SugarEffect.UNKNOWN


def state_at_ends(parts: Sequence[tuple[Food, float]], t_c: float, *, boiled_off_g: float = 0.0) -> MixtureState:
    """The state of a mixture at rest, see `mixture_state`; where something is not known, a band between its ends.

    An end with less water than boiled off is not possible and does not count.

    >>> from crumbcoat_calc.foods.table import food, food_with
    >>> gum = food_with(None, name="gum", stated={"fibre_g": 80.0})
    >>> state = state_at_ends([(food("butter_salted"), 227), (food("sugar_powdered"), 340), (gum, 1)], 20)
    >>> [round(end, 1) for end in state.water_g[:3]], state.unknown
    ([36.9, 36.8, 37.0], 'gum')
    """
    weighed = [(food, mass_g) for food, mass_g in parts if mass_g > 0]
    ends = ends_of([food for food, _ in weighed])
    masses = [mass_g for _, mass_g in weighed]
    if len(ends) == 1:
        return mixture_state(list(zip(ends[0], masses, strict=True)), t_c, boiled_off_g=boiled_off_g)
    filled = [list(zip(end, masses, strict=True)) for end in ends]
    possible = [end for end in filled if _water_g(end) >= boiled_off_g] or filled
    states = [mixture_state(end, t_c, boiled_off_g=boiled_off_g) for end in possible]
    unknown = ", ".join(dict.fromkeys([food.name for food, _ in weighed if is_open(food)]))
    return _between(states, unknown)


def covering(ends: Sequence[Estimated], unknown: str) -> Estimated:
    """An estimate that covers those of all ends; withheld if they are not all of one kind.

    >>> from crumbcoat_calc.science.estimate import Model
    >>> model = Model("a rule", "everywhere", "definition")
    >>> covering([Estimate(2, 1, 3, model), Estimate(6, 5, 7, model)], "gum")[:3]
    (4.0, 1, 7)
    >>> covering([Estimate(2, 1, 3, model), Withheld("there is no fat")], "gum").reason
    'what is not known of gum leaves it open'
    """
    estimates = [end for end in ends if isinstance(end, Estimate)]
    if len(estimates) == len(ends):
        values = [end.value for end in estimates]
        low, high = min(end.low for end in estimates), max(end.high for end in estimates)
        return Estimate((min(values) + max(values)) / 2, low, high, estimates[0].model)
    reasons = {end.reason for end in ends if isinstance(end, Withheld)}
    if not estimates and len(reasons) == 1:
        return Withheld(reasons.pop())
    return Withheld(f"what is not known of {unknown} leaves it open")


def _between(states: Sequence[MixtureState], unknown: str) -> StateBetween:
    plain = {field.name: getattr(states[0], field.name) for field in fields(MixtureState)}
    estimated = {
        name: covering([getattr(state, name) for state in states], unknown)
        for name, value in plain.items()
        if isinstance(value, Estimate | Withheld) and name != "syrup"
    }
    volumes = Volumes(*[covering(ends, unknown) for ends in zip(*[state.volumes for state in states], strict=True)])
    saturated = _agreed([state.saturated for state in states])
    ethanol_g = max(state.ethanol_g for state in states)
    found = plain | estimated | {"volumes": volumes, "saturated": saturated, "ethanol_g": ethanol_g}
    return StateBetween(**found, ends=tuple(states), unknown=unknown)


def _agreed(ends: Sequence[T | None]) -> T | None:
    return ends[0] if all(end is ends[0] for end in ends) else None


def _water_g(parts: Sequence[tuple[Food, float]]) -> float:
    return fsum([mass_g * (food.content("water_g") or 0.0) / 100 for food, mass_g in parts])
