"""A line of a list of ingredients -> its amounts, its name and everything else that it says."""

import re
from dataclasses import dataclass

from crumbcoat_site.bring_in.amounts import Amount, first_number_as_digits, read_amount, with_plain_signs
from crumbcoat_site.bring_in.line_amounts import (
    BRACKETS,
    Reading,
    amounts_in,
    cleaned,
    leading_amounts,
    trailing_amount,
)
from crumbcoat_site.bring_in.plain_texts import one_line

LONGEST = 400
"""Of a longer line only the beginning is taken apart; all of it stays in the draft."""

_BULLET = re.compile(r"^(?:[•‣▪▫●◦○□▢☐✓✔*–—-]+\s*)+")
_HEADING = re.compile(r"(?:for|to make) (?:the|your) [^,\d]{2,50}|[^\d,]{2,50}:", re.IGNORECASE)
_MORE = re.compile(
    r"[,;(]?\s*(?:\+|(?:\b(?:plus|and)))\s+(?:a (?:little|bit|few) )?(?:more|extra|additional|some)\b[^,;)]*\)?",
    re.IGNORECASE,
)
_SIDE = re.compile(
    r"(?:^|[,;]?\s+|\()(?P<words>(?:if (?:needed|desired|necessary|using)|as (?:needed|required|desired)|to taste|to "
    r"(?:serve|decorate|garnish|finish|dust|grease|coat|roll)\b[^,;)]*|for (?:the |a )?(?:dusting|decorat\w+|serving|"
    r"garnish\w*|greasing|topping|sprinkling|finishing|rolling|brushing|drizzling|coating)\b[^,;)]*|"
    r"at (?:cool )?room[- ]temp(?:erature)?\b\.?|"
    r"\(?optional\)?|\(?divided\)?))\)?",
    re.IGNORECASE,
)
_DIVIDED = re.compile(r"\bdivided\b|\bseparated into\b|\bin (?:two|three) (?:parts|portions)\b", re.IGNORECASE)
_OPTIONAL = re.compile(r"\boptional(?:ly)?\b|\bif (?:desired|using)\b", re.IGNORECASE)
_JUICE = re.compile(
    r"(?:the )?(?:(?:finely |freshly )?(?:grated |squeezed |strained )?)(?P<what>juice|zest|rind|peel)"
    r"(?P<too>(?: and| &) (?:juice|zest|rind|peel))?\s+(?:of|from)\s+(?P<rest>.+)",
    re.IGNORECASE,
)
_HOW = re.compile(
    r"(?:firmly |tightly |lightly )?(?P<how>packed|sifted|unsifted|unpacked|sliced|slivered|chopped)\b\s*",
    re.IGNORECASE,
)
_BEFORE = re.compile(
    r"(?:(?:very |extra |freshly |finely |coarsely |roughly |lightly |well[- ]|good[- ]quality |gently )*"
    r"(?:cold|chilled|ice[- ]cold|soft|softened|melted|cooled|warm|hot|lukewarm|room[- ]temperature|"
    r"chopped|grated|shredded|diced|cubed|sliced|crushed|toasted|roasted|sifted|sieved|squeezed|strained|beaten|whisked|fresh|freshly|finely|organic|"
    r"free[- ]range|"
    r"good[- ]quality|boiling|crumbled|ripe|peeled|mashed|heaped|heaping|level|scant|packed|browned)\s+)+",
    re.IGNORECASE,
)
_PACKED = re.compile(r"(?:firmly |lightly |tightly |well )?packed", re.IGNORECASE)
_JUICED = re.compile(
    r"juiced|(?:finely )?zested|(?:the )?(?:juice|zest) only|(?:finely )?grated zest(?: only)?", re.IGNORECASE
)
_INEXACT = ("heaped", "heaping", "rounded", "scant", "generous")
_FRUITS = ("lemon", "lime", "orange")


@dataclass(frozen=True, slots=True, kw_only=True)
class IngredientLine:
    """What a line says. `amounts` are the same amount in several measures, the first one first.

    `pack` is what it is sold in, such as `2 tins`, where the amounts are those of its contents; `how` is how a cup of
    it is measured; `preparation` are all other words beside the name, in the order of the line; `more` is what is
    needed beside the amount. A `heading` has a name alone.
    """

    written: str
    name: str = ""
    amounts: tuple[Amount, ...] = ()
    pack: str = ""
    how: str = ""
    preparation: tuple[str, ...] = ()
    more: str = ""
    is_heading: bool = False
    is_optional: bool = False
    is_divided: bool = False
    doubts: tuple[str, ...] = ()


def ingredient_line(written: str) -> IngredientLine:
    """Take a line apart.

    >>> line = ingredient_line("1 1/2 cups (340 g) butter, cold, divided, plus more for the tin")
    >>> line.name, line.preparation, line.more, line.is_divided, [str(amount.parts[0][0]) for amount in line.amounts]
    ('butter', ('cold', 'divided'), 'plus more for the tin', True, ['3/2', '340'])
    >>> ingredient_line("For the frosting:").is_heading, ingredient_line("Juice of 1 lemon").name
    (True, 'lemon juice')
    """
    shown = one_line(written)
    text = _BULLET.sub("", shown[:LONGEST]).strip()
    if _is_heading(text):
        return IngredientLine(written=shown, name=text.rstrip(": "), is_heading=True)
    reading = Reading()
    text = first_number_as_digits(with_plain_signs(text))
    text = _without_more(text, reading)
    juice = _JUICE.fullmatch(text)
    if juice:
        return _of_fruit(shown, juice)
    rest = leading_amounts(text, reading)
    if not reading.amounts:
        rest = trailing_amount(rest, reading)
    rest = _brackets(rest, reading)
    name = _name(rest, reading)
    inexact = [part.lower() for part in (*reading.before, *reading.after) if part.lower() in _INEXACT]
    reading.doubts += [f"the page says {word}" for word in inexact]
    preparation = tuple([part for part in (*reading.before, *reading.after) if part])
    return IngredientLine(
        written=shown,
        name=name,
        amounts=tuple(reading.amounts),
        pack=reading.pack,
        how=reading.how,
        preparation=tuple(dict.fromkeys(preparation)),
        more=" ".join(reading.more),
        is_optional=bool(_OPTIONAL.search(shown)),
        is_divided=bool(_DIVIDED.search(shown)),
        doubts=tuple(reading.doubts),
    )


def _is_heading(text: str) -> bool:
    if _HEADING.fullmatch(text):
        return True
    return text.isupper() and text.replace(" ", "").isalpha() and len(text) > 3 and text.count(" ") < 5


def _without_more(text: str, reading: Reading) -> str:
    """The text without `plus more for dusting`."""
    found = _MORE.search(text)
    if not found or found.start() == 0:
        return text
    reading.more.append(cleaned(found[0].replace("(", " ").replace(")", " ")))
    return f"{text[: found.start()]}{text[found.end() :]}".strip()


def _brackets(rest: str, reading: Reading) -> str:
    """Put what is in brackets aside: amounts alone are further measures of the line, all else is preparation."""

    def aside(found: re.Match[str]) -> str:
        inside = cleaned(found[1] or found[2] or "")
        amounts = amounts_in(inside)
        if amounts:
            reading.amounts += amounts
        elif inside:
            reading.after.append(inside)
        return " "

    return " ".join(BRACKETS.sub(aside, rest).split())


def _name(rest: str, reading: Reading) -> str:
    """The name of the food; everything else goes to the preparation."""
    rest = re.sub(r"^(?:of|the|each)\s+", "", rest.strip(), flags=re.IGNORECASE)

    def side(found: re.Match[str]) -> str:
        reading.after.append(cleaned(found["words"].strip("()")))
        return " "

    head, comma, tail = rest.partition(",")
    if not comma:
        head, comma, tail = re.sub(r"\s+[–—-]\s+", "\0", head, count=1).partition("\0")
    head = _SIDE.sub(side, head)
    how = _HOW.match(head)
    if how:
        reading.how = how["how"].lower()
        head = head[how.end() :]
    before = _BEFORE.match(head)
    if before and head[before.end() :].strip():
        reading.before.append(cleaned(before[0]))
        head = head[before.end() :]
    reading.after += [cleaned(part) for part in tail.split(",") if cleaned(part)]
    packed = next((part for part in reading.after if _PACKED.fullmatch(part)), "")
    if packed and not reading.how:
        reading.how = "packed"
        reading.after.remove(packed)
    return _of_what(cleaned(head), reading)


def _of_what(name: str, reading: Reading) -> str:
    """The part of a fruit that `1 lemon, juiced` is about."""
    part = next((part for part in reading.after if _JUICED.fullmatch(part)), "")
    fruit = re.sub(r"(?<=[a-z])s$", "", name)
    if not part or fruit.lower() not in _FRUITS or len(reading.amounts) != 1:
        return name
    (number, unit), *_ = reading.amounts[0].parts
    if unit in ("", "small", "medium", "large"):
        reading.amounts[0] = Amount(parts=((number, fruit.lower()),), high=reading.amounts[0].high)
    reading.after.remove(part)
    return f"{fruit} {'juice' if 'juice' in part.lower() else 'zest'}"


def _of_fruit(shown: str, juice: re.Match[str]) -> IngredientLine:
    """`Juice of 1 lemon`: lemon juice, by the number of lemons."""
    rest = first_number_as_digits(juice["rest"])
    found = read_amount(rest)
    amount, fruit = found if found else (None, rest)
    fruit, _, tail = fruit.partition(",")
    name = re.sub(r"(?<=[a-z])s$", "", cleaned(fruit))
    number = amount.parts[0][0] if amount else None
    counted = () if number is None else (Amount(parts=((number, name.split()[-1].lower() if name else ""),)),)
    others = [cleaned(part) for part in (juice["too"] or "", *tail.split(",")) if cleaned(part)]
    return IngredientLine(
        written=shown, name=f"{name} {juice['what'].lower()}", amounts=counted, preparation=tuple(others),
        is_optional=bool(_OPTIONAL.search(shown)),
    )  # fmt: skip
