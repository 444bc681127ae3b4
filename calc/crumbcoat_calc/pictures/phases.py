"""The phases of a batch, stage by stage: a bar for each stage, as long as what is in the bowl is heavy."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.pictures.drawing import (
    SMALL,
    WIDTH,
    box_path,
    filled,
    hatchings,
    label,
    lines_of,
    picture,
    sentence,
    width_of,
)
from crumbcoat_calc.pictures.key import KeyEntry, key_rows

_BAR, _LINE, _BELOW = 24.0, 16.0, 18.0


@dataclass(frozen=True, slots=True)
class PhaseShare:
    """A phase: its name, its mass in g, the mass as text, and one of MATERIALS."""

    name: str
    mass_g: float
    text: str
    material: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StagePhases:
    """A stage: its name, its mass as text, its phases; none where they are not known."""

    name: str
    text: str
    shares: tuple[PhaseShare, ...]


def phase_bars(key: str, title: str, stages: Sequence[StagePhases]) -> str:
    """Stacked bars on one scale, one a stage, with a key that gives the masses of the last.

    Each material is hatched in a way of its own; the description says every mass.

    Args:
        key: a short name, unique on the page.
        stages: one or more; masses zero or more.

    Raises:
        ValueError: if there is no stage (a bug of the caller).
    """
    if not stages:
        raise ValueError("a picture of stages needs one")
    heaviest = max([fsum([share.mass_g for share in stage.shares]) for stage in stages]) or 1.0
    per_g = (WIDTH - 1) / heaviest
    boxes: dict[str, list[str]] = {}
    names: dict[str, str] = {}
    drawn: list[str] = []
    y = 0.0
    for stage in stages:
        lines = lines_of(stage.name, WIDTH - width_of(stage.text) - 16)
        drawn.extend([label(0, y + 13 + _LINE * n, text) for n, text in enumerate(lines)])
        y += 13 + _LINE * (len(lines) - 1)
        drawn.append(label(WIDTH, y, stage.text, kind="cc-text cc-figure", anchor="end"))
        y += 6
        if not stage.shares:
            drawn.append(label(0, y + SMALL + 2, "what it is made of is not known", kind="cc-small"))
        x = 0.5
        for share in stage.shares:
            wide = share.mass_g * per_g
            if wide > 0.05:
                boxes.setdefault(share.material, []).append(box_path(x, y + 0.5, max(0.4, wide - 1.5), _BAR))
            x += wide
            names[share.material] = share.name
        y += _BAR + _BELOW
    last = {share.material: share.text for share in stages[-1].shares}
    entries = [KeyEntry(material, name, last.get(material, "")) for material, name in names.items()]
    bars = [filled(key, material, "".join(paths)) for material, paths in boxes.items()]
    below, end = key_rows(key, entries, y)
    facts = [
        f"{stage.name}, {stage.text}: "
        + (", ".join([f"{share.name.lower()} {share.text}" for share in stage.shares]) or "not known")
        for stage in stages
    ]
    return picture(key, end, title, sentence(title, facts), hatchings(key, list(names)), *bars, *drawn, below)
