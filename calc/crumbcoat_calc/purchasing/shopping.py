"""One shopping list for several recipes, in the packs and pieces that shops sell."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache, partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.shop_names import names_elsewhere
from crumbcoat_calc.foods.table import STATED, food
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.display import mass_text
from crumbcoat_calc.values.fields import mapping, only, take, text

FREE_FROM_THE_TAP = frozenset({"water_tap"})
_NOTHING_G = 1e-6


@dataclass(frozen=True, slots=True)
class Need:
    """A mass of an ingredient.

    `key` is its kind in the ingredient table, or None. `own`: the recipe states its composition, so that it is not the
    same product as others of its kind.
    """

    key: str | None
    name: str
    mass_g: float
    own: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """A pack in which a shop sells a food: its name, its contents as written, and its contents in g."""

    food: str
    pack: str
    amount: str
    mass_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A food that is bought by the piece: the whole piece, or a part that is only sold with the other parts."""

    food: str
    piece: str
    pieces: str
    part: bool
    grams_each: float
    pack: str
    pieces_in_pack: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoppingLine:
    """A line of the list. Amounts are in `unit`: g, or the name of the pieces.

    `packs` and `pack` are what to buy, such as 2 and `250 g block`. If no pack is known, `packs` is None and exactly
    the needed amount is bought. `parts_left` are the parts of pieces that are left over, in g.
    """

    name: str
    unit: str
    needed: float
    packs: int | None
    pack: str | None
    left: float
    parts_left: tuple[tuple[str, float], ...] = ()

    @property
    def buy_text(self) -> str:
        """What to buy."""
        if self.packs is None or self.pack is None:
            return mass_text(self.needed)
        return f"{self.packs} × {self.pack}"

    @property
    def left_text(self) -> str:
        """What is left over; empty if nothing is."""
        parts = []
        if self.left > 0:
            parts.append(mass_text(self.left) if self.unit == "g" else f"{self.left:g} {self.unit}")
        parts += [f"{mass_text(mass_g)} {name}" for name, mass_g in self.parts_left]
        return ", ".join(parts)


@cache
def packs() -> Mapping[str, Pack]:
    """The usual packs by food; `packs_from` overrides them with those of a shop."""
    return {pack.food: pack for pack in load_rows("packs", _pack_row, ("food",))}


@cache
def pieces() -> Mapping[str, Piece]:
    """The foods that are bought by the piece."""
    return {piece.food: piece for piece in load_rows("pieces", _piece_row, ("food",))}


def packs_from(data: object) -> Mapping[str, Pack]:
    """The usual packs, overridden by a reader's own: food -> `pack` (its name) and `amount` (`250 g`, `1 L`).

    Raises:
        InputError: at the first unknown food or wrong amount.

    >>> packs_from({"butter_unsalted": {"pack": "packet", "amount": "1 lb"}})["butter_unsalted"].mass_g
    453.59237
    """
    own = {}
    for key, value in mapping(data).items():
        try:
            kind = food(str(key)).key
            fields = mapping(value)
            only(fields, ("pack", "amount"))
            own[kind] = take(fields, "amount", partial(_pack, kind, take(fields, "pack", text)))
        except InputError as error:
            raise error.within(key) from None
    return {**packs(), **own}


def needs_of(batches: Iterable[Batch]) -> tuple[Need, ...]:
    """The ingredients that several batches need, in their order, with what is kept back, without those of 0 g."""
    return tuple(
        Need(weighed.food.key or None, weighed.name, weighed.needed_g, weighed.food.source == STATED)
        for batch in batches
        for weighed in batch.weighed
        if weighed.needed_g > 0
    )


def shopping_list(
    needs: Iterable[Need], sold: Mapping[str, Pack] | None = None, region: str = ""
) -> tuple[ShoppingLine, ...]:
    """The combined shopping list, in the order in which each ingredient is first needed.

        packs = ceil(needed / pack); left = packs * pack - needed, less than one pack

    Needs are added up by their kind in the ingredient table, or by name if the recipe states their composition.
    Whole eggs, whites and yolks become whole eggs; eggs used whole and eggs to separate are counted separately.

    Args:
        needs: masses of zero or more.
        sold: the packs on sale; the usual ones by default.
        region: where they are bought; what is called something else there has that name besides.

    Source:
        definition; packs are common-practice, masses of pieces usda-sr28.

    >>> needs = [Need("butter_unsalted", "butter", 600), Need("egg_white_raw", "whites", 120)]
    >>> [(line.buy_text, line.left_text) for line in shopping_list(needs)]
    [('3 × 250 g block', '150 g'), ('1 × box of 12', '8 large eggs, 12 g egg white, raw, 68 g egg yolk, raw')]
    """
    sold = packs() if sold is None else sold
    groups: dict[str, list[Need]] = {}
    for need in needs:
        if need.mass_g >= _NOTHING_G and need.key not in FREE_FROM_THE_TAP:
            groups.setdefault(_group(need), []).append(need)
    lines = []
    for group in groups.values():
        first = group[0]
        if first.key in pieces():
            lines.append(_of_pieces(group))
        else:
            names = ", ".join(dict.fromkeys(need.name for need in group))
            name = names if first.own or first.key is None else _shop_name(first.key, names, region)
            lines.append(_of_packs(name, _sum(group), sold.get(first.key or "")))
    shown = [line.name for line in lines]
    return tuple(
        replace(line, name=f"{line.name} ({food(group[0].key).name})")
        if shown.count(line.name) > 1 and group[0].key
        else line
        for line, group in zip(lines, groups.values(), strict=True)
    )


def _shop_name(key: str, name: str, region: str) -> str:
    """What recipes call a kind, and what shops call it in the region, or else elsewhere, where that differs.

    >>> _shop_name("cornstarch", "cornflour", "US"), _shop_name("salt_table", "fine salt", "US")
    ('cornflour (cornstarch)', 'fine salt')
    >>> _shop_name("milk_powder_skim", "skimmed milk powder", "EU")
    'skimmed milk powder (US: nonfat dry milk)'
    """
    elsewhere = names_elsewhere(key, name)
    here = dict(elsewhere).get(region)
    if here:
        return f"{name} ({here})"
    others = "; ".join([f"{region}: {shown}" for region, shown in elsewhere])
    return f"{name} ({others})" if others else name


def _group(need: Need) -> str:
    if need.key is not None and need.key in pieces():
        return f"piece {pieces()[need.key].piece}"
    return f"name {need.name.casefold()}" if need.own or need.key is None else f"kind {need.key}"


def _sum(needs: Iterable[Need]) -> float:
    return round(math.fsum(need.mass_g for need in needs), 6)


def _round_up(count: float) -> int:
    return math.ceil(round(count, 9))


def _of_packs(name: str, needed_g: float, pack: Pack | None) -> ShoppingLine:
    if pack is None:
        return ShoppingLine(name=name, unit="g", needed=needed_g, packs=None, pack=None, left=0.0)
    count = _round_up(needed_g / pack.mass_g)
    bought_g = count * pack.mass_g
    return ShoppingLine(
        name=name,
        unit="g",
        needed=needed_g,
        packs=count,
        pack=f"{pack.amount} {pack.pack}",
        left=max(0.0, round(bought_g - needed_g, 6)),
    )


def _of_pieces(needs: list[Need]) -> ShoppingLine:
    by_food: dict[str, list[Need]] = {}
    for need in needs:
        by_food.setdefault(need.key or "", []).append(need)
    wanted = {key: (pieces()[key], _sum(group)) for key, group in by_food.items()}
    used_whole = sum(_round_up(mass_g / piece.grams_each) for piece, mass_g in wanted.values() if not piece.part)
    separated = max(
        (_round_up(mass_g / piece.grams_each) for piece, mass_g in wanted.values() if piece.part), default=0
    )
    sold = next(iter(wanted.values()))[0]
    left = []
    for piece in pieces().values():
        if piece.piece == sold.piece:
            has_g = (separated if piece.part else used_whole) * piece.grams_each
            over_g = round(has_g - wanted.get(piece.food, (piece, 0.0))[1], 6)
            if over_g > 0:
                left.append((food(piece.food).name, over_g))
    needed = used_whole + separated
    count = _round_up(needed / sold.pieces_in_pack)
    return ShoppingLine(
        name=sold.pieces,
        unit=sold.pieces,
        needed=needed,
        packs=count,
        pack=f"{sold.pack} of {sold.pieces_in_pack}",
        left=count * sold.pieces_in_pack - needed,
        parts_left=tuple(left),
    )


def _pack_row(cells: dict[str, str]) -> Pack:
    return _pack(cells["food"], cells["pack"], cells["amount"])


def _pack(key: str, pack: str, written: object) -> Pack:
    amount = amount_of(food(key), written)
    return Pack(food=key, pack=pack, amount=amount.written, mass_g=amount.mass_g)


def _piece_row(cells: dict[str, str]) -> Piece:
    if cells["role"] not in ("whole", "part"):
        raise ValueError(f"role is {cells['role']!r}; write whole or part")
    return Piece(
        food=food(cells["food"]).key,
        piece=cells["piece"],
        pieces=cells["pieces"],
        part=cells["role"] == "part",
        grams_each=number_in(cells, "grams_each", 1, 5000),
        pack=cells["pack"],
        pieces_in_pack=int(number_in(cells, "pieces_in_pack", 1, 1000)),
    )
