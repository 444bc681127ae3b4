"""A cake cut down the middle and drawn to scale: tiers, layers, fillings, coats, and their measures."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from crumbcoat_calc.cakes.solids import Disc, Solid
from crumbcoat_calc.cakes.tiers import Cake, Coat, Tier
from crumbcoat_calc.pictures.drawing import (
    SMALL,
    WIDTH,
    element,
    filled,
    hatchings,
    label,
    line,
    number,
    picture,
    polygon_path,
    sentence,
)
from crumbcoat_calc.pictures.key import KeyEntry, key_rows

Point = tuple[float, float]

_TALLEST, _LABELS, _THINNEST = 300.0, 96.0, 2.2


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Where a point of the cake stands on the picture: mm from the axis and above the board, to units."""

    axis: float
    board: float
    per_mm: float

    def at(self, x_mm: float, z_mm: float) -> Point:
        return self.axis + x_mm * self.per_mm, self.board - z_mm * self.per_mm


def cake_section(
    key: str, title: str, cake: Cake, *, length_text: Callable[[float], str], thickness_text: Callable[[float], str]
) -> str:
    """The section of a cake to scale; coats and fillings too thin to be seen are drawn a little thicker.

    A block is cut along its longer side; a ring shows on both sides of its hole.

    Args:
        key: a short name, unique on the page.
        cake: one that `cake_amounts` takes.
        length_text, thickness_text: a length in mm as text, for sizes (`20 cm`, `8 in`) and for coats (`5 mm`, `¼ in`).
    """
    bottoms, high = _bottoms(cake)
    per_mm = min((WIDTH - _LABELS) / max(_widest(tier) for tier in cake.tiers), _TALLEST / high)
    sheet = _Sheet(axis=(WIDTH - _LABELS) / 2, board=12 + high * per_mm, per_mm=per_mm)
    drawn = [line(0, sheet.board + 0.75, WIDTH - _LABELS, sheet.board + 0.75, "cc-board")]
    for tier, bottom in zip(cake.tiers, bottoms, strict=True):
        drawn.extend(_tier(key, _thick_enough(tier, per_mm), bottom, sheet))
    drawn.extend(_measures(cake, bottoms, sheet, length_text))
    entries = _entries(cake, thickness_text)
    below, end = key_rows(key, entries, sheet.board + 18)
    return picture(
        key, end, title, sentence(title, _facts(cake, length_text, thickness_text)),
        hatchings(key, [entry.mark for entry in entries]), *drawn, below,
    )  # fmt: skip


def _widest(tier: Tier) -> float:
    coated = tier.coated()
    return coated.widest_mm + 2 * tier.bottom_border_mm


def _bottoms(cake: Cake) -> tuple[list[float], float]:
    """The height of each tier's bottom above the board, and the height of the cake, in mm."""
    bottoms, reached = [], 0.0
    for tier in cake.tiers:
        bottoms.append(reached)
        reached += tier.solid.height_mm + (tier.crumb.top_mm + tier.final.top_mm if cake.coat_under else 0.0)
    last = cake.tiers[-1]
    return bottoms, bottoms[-1] + last.coated().height_mm + last.top_border_mm


def _thick_enough(tier: Tier, per_mm: float) -> Tier:
    least = _THINNEST / per_mm

    def coat(coat: Coat) -> Coat:
        return Coat(
            top_mm=max(coat.top_mm, least) if coat.top_mm else 0.0,
            wall_mm=max(coat.wall_mm, least) if coat.wall_mm else 0.0,
        )

    return replace(tier, crumb=coat(tier.crumb), final=coat(tier.final))


def _halves(solid: Solid, low_mm: float, high_mm: float) -> list[list[Point]]:
    """The cut faces between two heights of a solid, as points in mm from its axis and its bottom."""
    if isinstance(solid, Disc):
        top, bottom, hole = solid.top_mm / 2, solid.bottom_mm / 2, solid.hole_mm / 2
    else:
        along = 0 if solid.top_mm[0] >= solid.top_mm[1] else 1
        top, bottom, hole = solid.top_mm[along] / 2, solid.bottom_mm[along] / 2, 0.0
    low, high = (bottom + (top - bottom) * z / solid.height_mm for z in (low_mm, high_mm))
    if not hole:
        return [[(-low, low_mm), (-high, high_mm), (high, high_mm), (low, low_mm)]]
    right = [(hole, low_mm), (hole, high_mm), (high, high_mm), (low, low_mm)]
    return [[(-x, z) for x, z in right], right]


def _tier(key: str, tier: Tier, bottom_mm: float, sheet: _Sheet) -> list[str]:
    def face(material: str, solid: Solid, low_mm: float, high_mm: float) -> str:
        outlines = [
            polygon_path([sheet.at(x, bottom_mm + z) for x, z in half]) for half in _halves(solid, low_mm, high_mm)
        ]
        return filled(key, material, "".join(outlines))

    drawn = []
    under, outer = tier.crumb_coated(), tier.coated()
    if tier.final != Coat():
        drawn.append(face("final-coat", outer, 0, outer.height_mm))
    if tier.crumb != Coat():
        drawn.append(face("crumb-coat", under, 0, under.height_mm))
    drawn.append(face("cake", tier.solid, 0, tier.solid.height_mm))
    inside = tier.solid.grown(wall_mm=-tier.dam_mm, top_mm=0.0)
    for low, high in tier.fillings():
        more = max(0.0, _THINNEST / sheet.per_mm - (high - low)) / 2
        if high > low:
            if tier.dam_mm:
                drawn.append(face("dam", tier.solid, low - more, high + more))
            drawn.append(face("filling", inside, low - more, high + more))
    if isinstance(outer, Disc) and outer.hole_mm:
        (left, top), (right, _) = (sheet.at(side * outer.hole_mm / 2, bottom_mm + outer.height_mm) for side in (-1, 1))
        drawn.append(line(left, top, right, top, "cc-rule"))
    drawn.extend(_ropes(key, tier, outer, bottom_mm, sheet))
    return drawn


def _ropes(key: str, tier: Tier, outer: Solid, bottom_mm: float, sheet: _Sheet) -> list[str]:
    """Borders as round ropes: one stands on the edge of the top, one lies beside the bottom."""
    (_, _, top, foot) = _halves(outer, 0, outer.height_mm)[-1]
    drawn = []
    for width, x, z in (
        (tier.top_border_mm, top[0] - tier.top_border_mm / 2, top[1]),
        (tier.bottom_border_mm, foot[0] + tier.bottom_border_mm / 2, 0.0),
    ):
        for side in (-1, 1) if width else ():
            across, level = sheet.at(side * x, bottom_mm + z + width / 2)
            drawn.append(filled(key, "piping", _circle_path(across, level, width / 2 * sheet.per_mm)))
    return drawn


def _circle_path(x: float, y: float, radius: float) -> str:
    half = f"a{number(radius)} {number(radius)} 0 1 0"
    return f"M{number(x - radius)} {number(y)}{half} {number(2 * radius)} 0{half} {number(-2 * radius)} 0Z"


def _measures(cake: Cake, bottoms: Sequence[float], sheet: _Sheet, length_text: Callable[[float], str]) -> list[str]:
    """Beside each tier its height as a line with ticks, and how wide it is; labels keep clear of each other."""
    x = WIDTH - _LABELS + 10
    drawn: list[str] = []
    lowest_free = sheet.board + 4
    for tier, bottom in zip(cake.tiers, bottoms, strict=True):
        foot, head = sheet.at(0, bottom)[1], sheet.at(0, bottom + tier.solid.height_mm)[1]
        edge = sheet.at(_halves(tier.solid, 0, tier.solid.height_mm)[-1][2][0], 0)[0]
        drawn.append(line(edge + 4, head, x - 5, head, "cc-leader"))
        drawn.append(element("path", d=f"M{number(x - 3)} {number(head)}h6M{number(x - 3)} {number(foot)}h6"
                             f"M{number(x)} {number(head)}V{number(foot)}", class_="cc-measure"))  # fmt: skip
        base = min((foot + head) / 2 + SMALL + 3, lowest_free)
        drawn.append(label(x + 8, base - 15, f"{length_text(tier.solid.height_mm)} high", kind="cc-small"))
        drawn.append(label(x + 8, base, f"{_across_text(tier.solid, length_text)}", kind="cc-small"))
        lowest_free = base - 36
    return drawn


def _across_text(solid: Solid, length_text: Callable[[float], str]) -> str:
    if isinstance(solid, Disc):
        return f"⌀ {length_text(solid.widest_mm)}"
    first, second = (length_text(side) for side in solid.top_mm)
    unit = second[second.rfind(" ") :]
    return f"{first.removesuffix(unit)} × {second}"


def _entries(cake: Cake, thickness_text: Callable[[float], str]) -> list[KeyEntry]:
    """One line for each material in the cake, with its thicknesses."""
    found: dict[str, list[float]] = {
        "cake": [],
        "filling": [],
        "dam": [],
        "crumb-coat": [],
        "final-coat": [],
        "piping": [],
    }
    for tier in cake.tiers:
        found["cake"].append(tier.layer_mm)
        if tier.layers > 1 and tier.filling_mm:
            found["filling"].append(tier.filling_mm)
            found["dam"].append(tier.dam_mm)
        found["crumb-coat"].extend((tier.crumb.top_mm, tier.crumb.wall_mm))
        found["final-coat"].extend((tier.final.top_mm, tier.final.wall_mm))
        found["piping"].extend((tier.top_border_mm, tier.bottom_border_mm))
    names = {"cake": "cake, each layer", "filling": "filling", "dam": "dam around the filling",
             "crumb-coat": "crumb coat", "final-coat": "final coat", "piping": "piped border"}  # fmt: skip
    entries = []
    for material, lengths in found.items():
        texts = list(dict.fromkeys(thickness_text(length) for length in sorted(set(lengths)) if length > 0))
        if texts:
            name = "cake" if material == "cake" and all(tier.layers == 1 for tier in cake.tiers) else names[material]
            entries.append(KeyEntry(material, name, texts[0] if len(texts) == 1 else f"{texts[0]} – {texts[-1]}"))
    return entries


def _facts(cake: Cake, length_text: Callable[[float], str], thickness_text: Callable[[float], str]) -> list[str]:
    facts = []
    for place, tier in enumerate(cake.tiers, start=1):
        layers = f"{tier.layers} layer{'s' if tier.layers > 1 else ''}"
        across = _across_text(tier.solid, length_text).replace("⌀ ", "")
        facts.append(f"tier {place} from below, {across} across, {length_text(tier.solid.height_mm)} high, {layers}")
    return facts + [f"{entry.name} {entry.text}" for entry in _entries(cake, thickness_text)]
