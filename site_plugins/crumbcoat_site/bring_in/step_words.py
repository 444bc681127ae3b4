"""What the words of a step say of its time, its temperatures, its tool and the speed of the mixer."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.temperatures import celsius

from crumbcoat_site.bring_in.amounts import with_plain_signs

_NUMBER = r"\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?"
_WORDS = {
    "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9",
    "ten": "10", "twelve": "12", "fifteen": "15", "twenty": "20", "thirty": "30", "forty": "40", "forty-five": "45",
    "sixty": "60", "a": "1", "an": "1", "half an": "1/2", "a half": "1/2", "another": "1", "a full": "1",
}  # fmt: skip
_UNITS = {"s": "s", "m": "min", "h": "h", "d": "days"}
_UNIT = r"(?P<{0}>seconds?|secs?|minutes?|mins?|hours?|hrs?|h|days?)\b"
_COUNT = re.compile(
    rf"\b({'|'.join(sorted(_WORDS, key=len, reverse=True))})"
    rf"(?=(?:\s(?:to|or)\s\S+)?[\s-](?:more |full |whole |good )?(?:seconds?|minutes?|mins?|hours?|days?)\b)",
    re.IGNORECASE,
)
_TIME = re.compile(
    rf"(?<![\d/.])(?P<low>{_NUMBER})(?:\s?(?:-|to|or)\s?(?P<high>{_NUMBER}))?[\s-]?(?:more |full |additional )?"
    + _UNIT.format("unit")
    + rf"(?:,?\s(?:and\s)?(?P<rest>{_NUMBER})\s?"
    + _UNIT.format("under")
    + ")?",
    re.IGNORECASE,
)
_NOT_A_TIME = re.compile(
    r"(?:up to|within|every|keeps?(?: well)? for|stays? fresh for|last|per|no longer than|"
    r"no more than|under)\s*(?:the\s*)?$",
    re.IGNORECASE,
)
_OLD = re.compile(r"\s?(?:old|ahead|in advance|before|later)\b", re.IGNORECASE)
_DEGREES = re.compile(
    r"(?<![\d.])(?P<low>-?\d{1,3}(?:\.\d)?)(?:\s?(?:-|to)\s?(?P<high>\d{1,3}))?\s?"
    r"(?:(?:°|º|˚|degrees?|deg\.?)\s?(?P<letter>[CFcf])\b|(?P<bare>[CF])\b|degrees? (?P<word>celsius|fahrenheit))",
)
_OVEN = re.compile(r"\b(?:ovens?|pre-?heat(?:ed)?|bak(?:e|ed|ing)|fan|gas(?: mark)?|convection|roast)\b", re.IGNORECASE)
_COOL = re.compile(r"\b(?:cool(?:s|ed|ing)?|chill(?:s|ed|ing)?|refrigerat\w+|drops?|below|freez\w+)\b", re.IGNORECASE)
_UNATTENDED = re.compile(
    r"\b(?:chill|refrigerate|freeze|(?<!the )rest(?! of)|overnight|cool (?:completely|for)|"
    r"(?:leave|let|set aside|allow)\b[^.]*\b(?:cool|set|rest|infuse|soften))",
    re.IGNORECASE,
)
_SPEEDS = r"medium[- ]high|medium[- ]low|low|medium|high|full"
_SPEED = re.compile(
    rf"\b(?:(?P<speed>{_SPEEDS})\s+speed|(?:on|at)\s+(?P<on>{_SPEEDS})\b(?!\s+heat|-)|speed\s+to\s+(?P<to>{_SPEEDS}))\b",
    re.IGNORECASE,
)
_TOOLS = (
    ("stand mixer", r"stand mixer|bowl of (?:a|an|your|the) [a-z ]{0,16}mixer|mixer fitted"),
    ("hand mixer", r"hand[- ]?held|hand mixer|electric (?:hand )?(?:mixer|whisk|beaters?)|electric hand"),
    ("paddle", r"paddle"),
    ("whisk", r"whisk attachment|with the whisk|balloon whisk|with a (?:hand )?whisk|wire whisk"),
    (
        "double boiler",
        r"double[- ]boiler|bain[- ]marie|over (?:a (?:pan|pot|saucepan) of )?(?:barely |gently )?simmering water",
    ),
    ("saucepan", r"saucepan|small pan|medium pan|heavy[- ]based pan"),
    ("food processor", r"food processor"),
    ("stick blender", r"(?:stick|immersion|hand) blender"),
    ("blender", r"(?<!stick )(?<!immersion )(?<!hand )blender"),
    ("sieve", r"sieve|fine[- ]mesh strainer|strainer"),
    ("spatula", r"(?<!offset )spatula"),
    ("palette knife", r"offset spatula|palette knife"),
    ("piping bag", r"pip(?:ing|ing-) ?bag|pastry bag"),
    ("microwave", r"microwave"),
)
_TOOL_PATTERNS = tuple([(tool, re.compile(rf"\b(?:{pattern})", re.IGNORECASE)) for tool, pattern in _TOOLS])
_ADDITIONS = re.compile(
    r"\bin (?P<count>two|three|four|five|six|\d{1,2}) (?:equal )?(?:additions?|batches|parts|portions|lots|goes)\b",
    re.IGNORECASE,
)
_BOILS = re.compile(
    r"(?<!not )(?<!let it )\b(?:boil|simmer|reduce)\b(?!,? (?:the )?(?:speed|heat))[^.;]*\b(?:for|until|by)\b",
    re.IGNORECASE,
)
_SENTENCE = re.compile(r"(?<=[.!?;])\s+")
_MOST_TOOLS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class StepWords:
    """The fields of a step that its words give, each as a recipe file writes it; empty where they do not.

    `boils`: something boils for a while. `additions_at` and `additions_end` are where the words about additions
    are. `more` are further times, temperatures and additions of the same step: only the first of each has a field.
    """

    time: str = ""
    heat_to: str = ""
    cool_to: str = ""
    tool: str = ""
    speed: str = ""
    additions: str = ""
    additions_at: int = 0
    additions_end: int = 0
    is_unattended: bool = False
    boils: bool = False
    more: tuple[str, ...] = ()


def step_words(text: str, prefers_f: bool = False) -> StepWords:
    """What the words of a step say.

    Args:
        prefers_f: whether °F is taken where both are given.

    >>> found = step_words("Heat the syrup to 240°F (116°C), then beat on high speed for 5 to 7 minutes.")
    >>> found.heat_to, found.speed, found.time
    ('116 °C', 'high', '5 to 7 min')
    >>> found = step_words("Bake at 180°C for 1 hour 20 minutes.")
    >>> found.time, found.heat_to, step_words("Keep in the fridge for up to 5 days.").time
    ('1 h 20 min', '', '')
    """
    shown = with_plain_signs(text)
    times = list(dict.fromkeys(_times(_counted(shown))))
    heats, cools = _temperatures(shown, prefers_f)
    speeds = [
        (found["speed"] or found["on"] or found["to"]).lower().replace(" ", "-") for found in _SPEED.finditer(shown)
    ]
    tools = [tool for tool, pattern in _TOOL_PATTERNS if pattern.search(shown)]
    parts = list(_ADDITIONS.finditer(text))
    additions = parts[0] if parts else None
    count = _WORDS.get(additions["count"].lower(), additions["count"]) if additions else ""
    more = [
        *times[1:],
        *heats[1:],
        *cools[1:],
        *dict.fromkeys(f"{speed} speed" for speed in speeds[1:] if speed != speeds[0]),
        *[found[0] for found in parts[1:]],
    ]
    return StepWords(
        time=times[0] if times else "",
        heat_to=heats[0] if heats else "",
        cool_to=cools[0] if cools else "",
        tool=", ".join(tools[:_MOST_TOOLS]),
        speed={"full": "high"}.get(speeds[0], speeds[0]) if speeds else "",
        additions=count,
        additions_at=additions.start() if additions else 0,
        additions_end=additions.end() if additions else 0,
        is_unattended=_is_unattended(shown),
        boils=bool(_BOILS.search(shown)),
        more=tuple(more),
    )


def _is_unattended(text: str) -> bool:
    """Whether nobody need be there in the first time of a step: the sentence that says it is about waiting."""
    timed = next((part for part in _SENTENCE.split(text) if any(_times(_counted(part)))), "")
    return bool(_UNATTENDED.search(timed))


def _counted(text: str) -> str:
    """The text with number words before a unit of time as digits."""
    return _COUNT.sub(lambda found: _WORDS[found[0].lower()], text)


def _times(text: str) -> Iterator[str]:
    """The times in a text as a recipe file writes them; for how long something keeps is none of a step."""
    for found in _TIME.finditer(text):
        if _NOT_A_TIME.search(text[: found.start()]) or _OLD.match(text[found.end() :]):
            continue
        unit = _UNITS[found["unit"][0].lower()]
        low, high = _plain(found["low"]), _plain(found["high"] or "")
        if not low or (found["high"] and (not high or Fraction(high) <= Fraction(low))):
            continue
        rest = f" {_plain(found['rest'])} {_UNITS[found['under'][0].lower()]}" if found["rest"] else ""
        shown = f"{low} to {high} {unit}" if high else f"{low} {unit}"
        yield f"{shown}{rest}" if _is_smaller(found["unit"], found["under"]) else shown


def _is_smaller(unit: str, under: str | None) -> bool:
    return bool(under) and "dhms".index(unit[0].lower()) < "dhms".index(str(under)[0].lower())


def _plain(number: str) -> str:
    """A number as a decimal; empty if it is none."""
    try:
        value = sum((Fraction(part) for part in number.split()), Fraction(0))
    except (ValueError, ZeroDivisionError):
        return ""
    return f"{float(value):.4g}" if number and value and value < 10_000 else ""


def _temperatures(text: str, prefers_f: bool) -> tuple[list[str], list[str]]:
    """What something in the vessel is heated to, and cooled to; how hot an oven is is neither."""
    heats: dict[str, None] = {}
    cools: dict[str, None] = {}
    found = list(_DEGREES.finditer(text))
    for place, degrees in enumerate(found):
        letter = (degrees["letter"] or degrees["bare"] or degrees["word"])[0].upper()
        sentence = text[: degrees.start()].rpartition(". ")[2]
        near = found[place - 1] if place and degrees.start() - found[place - 1].end() < 6 else None
        after = found[place + 1] if place + 1 < len(found) and found[place + 1].start() - degrees.end() < 6 else None
        is_second = (near or after) is not None and (letter == "F") != prefers_f
        shown = f"{degrees['low']} °{letter}"
        if _OVEN.search(sentence) or is_second or not _is_possible(shown):
            continue
        (cools if _COOL.search(sentence) else heats)[shown] = None
    return list(heats), list(cools)


def _is_possible(written: str) -> bool:
    try:
        celsius(written)
    except InputError:
        return False
    return True
