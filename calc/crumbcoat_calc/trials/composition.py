"""What each trial is made of: a bar of 100 g a trial, row by row beside the line through the trials."""

from collections.abc import Sequence
from math import fsum

from crumbcoat_calc.pictures.drawing import WIDTH, box_path, filled, hatchings, label, picture, sentence
from crumbcoat_calc.pictures.key import KeyEntry, key_rows
from crumbcoat_calc.texts.science import phase_shares
from crumbcoat_calc.trials.finished import finished_state
from crumbcoat_calc.trials.line import ROW, row_y
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import number_text, range_text

_KEY, _LEFT, _BAR = "composition", 24.0, 24.0
TITLE = "What 100 g are made of"


def composition_heads(trials: Sequence[MadeTrial]) -> list[str]:
    """The phases that any of the trials has."""
    return list(dict.fromkeys([name for made in trials for name, _, _ in _parts(made)]))


def composition_rows(trials: Sequence[MadeTrial]) -> list[list[str]]:
    """The same as a table: a row a trial, in g of 100 g."""
    heads = composition_heads(trials)
    rows = []
    for made in trials:
        texts = {name: f"{number_text(mass_g, 1)} g" for name, mass_g, _ in _parts(made)}
        rows.append(
            [f"Trial {made.trial.number}", *(texts.get(name, "not known" if not texts else "") for name in heads)]
        )
    return rows


def composition_picture(trials: Sequence[MadeTrial]) -> str:
    """The bars, each from 0 to 100 g, and a key with what each phase is in all of them."""
    boxes: dict[str, list[str]] = {}
    masses: dict[str, list[float]] = {}
    names: dict[str, str] = {}
    drawn = [label(_LEFT, 14, TITLE, kind="cc-small")]
    facts = []
    per_g = (WIDTH - _LEFT - 1) / 100
    for row, made in enumerate(trials):
        parts, y = _parts(made), row_y(row) - _BAR / 2
        drawn.append(label(0, y + 17, str(made.trial.number), kind="cc-text cc-marked"))
        if not parts:
            drawn.append(label(_LEFT, y + 17, "not known", kind="cc-small"))
        x = _LEFT
        for name, mass_g, material in parts:
            if mass_g * per_g > 0.05:
                path = box_path(x + 0.5, y, max(0.4, mass_g * per_g - 1.5), _BAR)
                boxes.setdefault(material, []).append(path)
            x += mass_g * per_g
            masses.setdefault(material, []).append(mass_g)
            names[material] = name
        shown = ", ".join([f"{name.lower()} {number_text(mass_g, 1)} g" for name, mass_g, _ in parts])
        facts.append(f"trial {made.trial.number}: {shown or 'not known'}")
    entries = [KeyEntry(material, name, _range(masses[material])) for material, name in names.items()]
    bars = [filled(_KEY, material, "".join(paths)) for material, paths in boxes.items()]
    below, end = key_rows(_KEY, entries, row_y(len(trials)) - ROW / 2)
    return picture(_KEY, end, TITLE, sentence(TITLE, facts), hatchings(_KEY, list(names)), *bars, *drawn, below)


def _parts(made: MadeTrial) -> list[tuple[str, float, str]]:
    """The name, the mass in 100 g and the material of each phase; none where they are not known."""
    shares = phase_shares(finished_state(made))
    whole = fsum(share.mass_g for share in shares)
    return [(share.name, 100 * share.mass_g / whole, share.material) for share in shares]


def _range(masses: Sequence[float]) -> str:
    return range_text(f"{number_text(min(masses), 1)} g", f"{number_text(max(masses), 1)} g")
