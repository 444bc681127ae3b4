"""The amounts of a line of ingredients: at its beginning or its end, of packs, and the same in other measures."""

import re
from dataclasses import dataclass, field

from crumbcoat_site.bring_in.amounts import (
    MASSES,
    PACKS,
    TOTALS,
    VOLUMES,
    Amount,
    first_number_as_digits,
    read_amount,
    with_plain_signs,
)

BRACKETS = re.compile(r"\(([^()]*(?:\([^()]*\)[^()]*)*)\)|\[([^\[\]]*)\]")
_ALTERNATIVE = re.compile(
    r"\s?(?:/|\||;|,|=|or\b|that is\b|i\.e\.)\s?(?=(?:about|approx\.?|approximately|ca\.|~)?\s?[\d.])", re.IGNORECASE
)
_TRAILING = re.compile(
    r"^(?P<name>[^\d(]{2,}?)\s*[:–—-]?\s+(?P<amount>(?:about |approx\.? |~)?[\d.].*)$", re.IGNORECASE
)
_NOTHING = re.compile(r"^[\s,;:.*†‡–—-]+|[\s,;:*†‡–—-]+$")


@dataclass(slots=True)
class Reading:
    """What has been read of a line: amounts, a pack, words before and after the name, what else is needed, doubts."""

    amounts: list[Amount] = field(default_factory=list)
    pack: str = ""
    before: list[str] = field(default_factory=list)
    after: list[str] = field(default_factory=list)
    more: list[str] = field(default_factory=list)
    how: str = ""
    doubts: list[str] = field(default_factory=list)


def leading_amounts(text: str, reading: Reading) -> str:
    """Read the amounts at the beginning, with their alternatives and packs; the rest of the text."""
    found = read_amount(text)
    if not found:
        return text
    amount, rest = found
    (_, unit), *others = amount.parts
    if not others and (unit in PACKS or unit == ""):
        pack = _pack(amount, unit, rest, reading)
        if pack is not None:
            return pack
    reading.amounts.append(amount)
    return _without_pack(_alternatives(rest, reading), text, reading)


def _without_pack(rest: str, text: str, reading: Reading) -> str:
    """What follows `2 x 200 g packs` or `250 g tub`."""
    named = read_amount(f"1 {rest}")
    if named is None or named[0].parts[0][1] not in PACKS or not reading.amounts[0].units <= MASSES | VOLUMES:
        return rest
    is_count = re.match(r"[\d./ ]+[x×X]\s?\d", text)
    reading.pack = cleaned(text.removesuffix(named[1]) if is_count else rest.removesuffix(named[1]))
    return re.sub(r"^of\s+", "", named[1])


def _pack(count: Amount, unit: str, rest: str, reading: Reading) -> str | None:
    """Read a count of packs with a size: `1 (14-oz) can`, `2 8-ounce packages`, `1 can (14 oz)`; None if it is none."""
    sizes: list[Amount] = []
    after = rest
    bracket = BRACKETS.match(rest)
    inside = (bracket[1] or bracket[2] or "") if bracket else ""
    if bracket:
        sizes, after = amounts_in(inside), rest[bracket.end() :].lstrip()
    elif unit == "":
        size = read_amount(rest)
        sizes, after = ([size[0]], size[1]) if size else ([], rest)
    if not sizes or not all(size.units <= MASSES | VOLUMES for size in sizes):
        return None
    pack, number = unit, count.parts[0][0]
    if unit == "":
        named = read_amount(f"1 {after}")
        pack = named[0].parts[0][1] if named else ""
        if named is None or pack not in PACKS:
            return None
        after = named[1]
    if unit in TOTALS and "each" not in inside:
        reading.amounts += [count, *sizes]
        return _alternatives(after, reading)
    if unit and number != 1 and "each" not in inside:
        reading.doubts.append(f"is {inside} the size of one {pack}, or of all {number}?")
    reading.amounts += [size.times(count) for size in sizes]
    reading.pack = f"{number} {pack}{'s' if number > 1 and pack != 'box' else ''}"
    return _alternatives(after, reading)


def _alternatives(rest: str, reading: Reading) -> str:
    """Read the same amount in other measures: `1 cup / 240 ml`, `1 cup (240 ml; 8 oz)`."""
    while True:
        bracket = BRACKETS.match(rest)
        inside = amounts_in(bracket[1] or bracket[2] or "") if bracket else []
        if bracket and inside:
            reading.amounts += inside
            rest = rest[bracket.end() :].lstrip()
            continue
        other = _ALTERNATIVE.match(rest)
        found = read_amount(rest[other.end() :]) if other else None
        if not found or not found[0].units & (MASSES | VOLUMES | {"stick"}):
            return rest
        reading.amounts.append(found[0])
        rest = found[1]


def amounts_in(text: str) -> list[Amount]:
    """The amounts that are all of a text; none if it says anything else."""
    found = []
    rest = with_plain_signs(text).strip()
    while rest:
        amount = read_amount(first_number_as_digits(rest))
        if not amount or amount[0].units == {""}:
            return []
        found.append(amount[0])
        rest = re.sub(r"^(?:each|total|weight|net|drained)\b", "", amount[1]).strip()
        other = _ALTERNATIVE.match(rest)
        if rest and not other:
            return []
        rest = rest[other.end() :] if other else ""
    return found


def trailing_amount(text: str, reading: Reading) -> str:
    """Read an amount at the end: `Butter – 250 g`, `butter 250g (1 cup)`."""
    found = _TRAILING.match(text)
    amount = read_amount(found["amount"]) if found else None
    if not found or not amount or amount[0].units == {""}:
        return text
    reading.amounts.append(amount[0])
    rest = _alternatives(amount[1], reading)
    return f"{found['name'].strip()}{', ' if rest and rest[0] not in ',(' else ''}{rest}"


def cleaned(text: str) -> str:
    """The words without signs around them."""
    return " ".join(_NOTHING.sub("", text).split())
