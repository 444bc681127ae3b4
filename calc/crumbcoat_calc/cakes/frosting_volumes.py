"""Volumes of frosting by use."""

from dataclasses import dataclass, fields
from math import fsum

from crumbcoat_calc.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class FrostingVolumes:
    """Volumes by use, in mL. `loss_ml` is what stays in bowl and bag; it must be made too."""

    filling_ml: float = 0.0
    dam_ml: float = 0.0
    crumb_coat_ml: float = 0.0
    final_coat_ml: float = 0.0
    piping_ml: float = 0.0
    loss_ml: float = 0.0

    def by_use(self) -> dict[str, float]:
        """The volumes in mL, in the order in which a cake is assembled."""
        return {field.name.removesuffix("_ml"): getattr(self, field.name) for field in fields(self)}

    @property
    def total_ml(self) -> float:
        """The total that must be made, in mL."""
        return fsum(self.by_use().values())

    def __add__(self, other: "FrostingVolumes") -> "FrostingVolumes":
        return FrostingVolumes(**{f"{use}_ml": volume + other.by_use()[use] for use, volume in self.by_use().items()})

    def without_filling(self) -> "FrostingVolumes":
        """The volumes for a cake that is filled with something else: no filling, and proportionally less loss."""
        used = self.total_ml - self.loss_ml
        kept = (used - self.filling_ml) / used if used else 1.0
        volumes = {f"{use}_ml": volume for use, volume in self.by_use().items()}
        return FrostingVolumes(**{**volumes, "filling_ml": 0.0, "loss_ml": self.loss_ml * kept})


def with_loss(used: FrostingVolumes, loss_share: float) -> FrostingVolumes:
    """The volumes including the loss in bowl and bag, where `loss_share` is its share of the total.

        loss = used * share / (1 - share)

    Args:
        loss_share: 0 to less than 0.5.

    Source:
        definition.

    >>> with_loss(FrostingVolumes(final_coat_ml=900), 0.1).total_ml
    1000.0
    """
    if not 0 <= loss_share < 0.5:
        raise InputError(f"a loss of {100 * loss_share:g} % is too high", "use less than 50 %", ("loss_share",))
    volumes = {f"{use}_ml": volume for use, volume in used.by_use().items()}
    volumes["loss_ml"] = (used.total_ml - used.loss_ml) * loss_share / (1 - loss_share)
    return FrostingVolumes(**volumes)
