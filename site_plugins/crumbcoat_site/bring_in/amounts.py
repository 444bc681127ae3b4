"""Amounts as ingredient lines write them: `1 1/2 cups`, `2–3 tbsp`, `2 x 400 g tins`, `1 (14-oz) can`, `1 lb 2 oz`."""

import re
import unicodedata
from dataclasses import dataclass, field
from fractions import Fraction

_NUMBER = r"(?:\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*|\.\d+)"
_RANGE = rf"(?P<low>{_NUMBER})(?:\s?(?:-|to|or)\s?(?P<high>{_NUMBER})(?![/\d]))?"

_WORDS: dict[str, str] = {
    "g": "g|gr|grs|gram|grams|gramme|grammes", "kg": "kg|kgs|kilo|kilos|kilogram|kilograms", "mg": "mg",
    "oz": "oz|ounce|ounces", "lb": "lb|lbs|pound|pounds",
    "mL": "ml|mls|millilitre|millilitres|milliliter|milliliters|cc", "cL": "cl", "dL": "dl",
    "l": "l|ltr|litre|litres|liter|liters", "cup": "c|cup|cups",
    "tbsp": "tbsp|tbsps|tbs|tbl|tb|tblsp|tablespoon|tablespoons|tablespoonful|tablespoonfuls",
    "tsp": "tsp|tsps|teaspoon|teaspoons|teaspoonful|teaspoonfuls", "fl oz": "fl oz|floz|fluid ounce|fluid ounces",
    "dessertspoon": "dsp|dsps|dstsp|dessertspoon|dessertspoons", "pint": "pt|pts|pint|pints",
    "quart": "qt|qts|quart|quarts",
}  # fmt: skip
"""Units by the word that a recipe file has for them."""

_PIECES: dict[str, str] = {
    "stick": "sticks?", "pinch": "(?:(?:small|good|big|large|generous) )?pinch(?:es)?", "drop": "drops?",
    "dash": "(?:(?:small|good) )?dash(?:es)?", "splash": "(?:splash(?:es)?|drizzle)",
    "handful": "(?:(?:small|large|big) )?handfuls?", "knob": "(?:(?:small|large) )?knobs?",
    "extra_large": "extra[- ]large", "large": "large|lg", "medium": "medium|med", "small": "small",
    "sheet": "sheets?", "leaf": "leaf|leaves", "packet": "packets?|pkts?|pkgs?|packages?|packs?",
    "envelope": "envelopes?", "sachet": "sachets?", "can": "cans?",
    "tin": "tins?", "jar": "jars?", "box": "box(?:es)?", "bag": "bags?",
    "bar": "bars?", "block": "blocks?", "tub": "tubs?", "carton": "cartons?", "container": "containers?",
    "bottle": "bottles?", "brick": "bricks?", "sprig": "sprigs?", "clove": "cloves?", "slice": "slices?",
    "piece": "pieces?", "square": "squares?", "scoop": "scoops?", "shot": "shots?", "part": "parts?",
}  # fmt: skip
"""What is counted, by the word that a recipe file has for it."""

PACKS = frozenset((
    "packet", "envelope", "sachet", "can", "tin", "jar", "box", "bag", "bar", "block", "tub", "carton", "container",
    "bottle", "brick", "stick", "sheet", "leaf", "piece",
))  # fmt: skip
"""What may have its own size in brackets."""

TOTALS = frozenset(("stick", "sheet", "leaf", "piece", "bar", "block"))
"""Of these a size in brackets after the word is that of all of them: `2 sticks (226 g)`."""

ROUGH = frozenset(("pinch", "dash", "splash", "handful", "knob", "sprig"))
"""Of what these say, no recipe means a weight."""

MASSES = frozenset(("g", "kg", "mg", "oz", "lb"))
METRIC_VOLUMES = frozenset(("mL", "cL", "dL", "l"))
VOLUMES = METRIC_VOLUMES | {"dessertspoon", "cup", "tbsp", "tsp", "fl oz", "pint", "quart"}

_BY_WORD = {word: unit for unit, words in _WORDS.items() for word in words.split("|")}
_UNIT = "|".join(sorted(map(re.escape, _BY_WORD), key=len, reverse=True))
_PIECE = "|".join(f"(?P<{unit}>{pattern})" for unit, pattern in _PIECES.items())
_CASED = {"T": "tbsp", "Tbs": "tbsp", "t": "tsp", "L": "l"}
_SYSTEM = r"(?:(?P<system>US|U\.S\.|UK|metric|imperial|Australian|AU)\s+)?"

_WHOSE = re.compile(r"^(?:US|metric|imperial|AU) ")

_QUANTITY = re.compile(_RANGE)
_MEASURE = re.compile(rf"\s?-?\s?{_SYSTEM}(?:(?i:(?P<word>{_UNIT}))|(?P<cased>[TtL]))\.?(?![A-Za-z])")
_COUNTED = re.compile(rf"\s?-?\s?(?i:{_PIECE})\.?(?![A-Za-z-])")
_APPROXIMATE = re.compile(
    r"(?:about|approximately|approx\.?|around|roughly|circa|ca\.|c\.|~|≈|scant|heaped|heaping|rounded|generous|level|"
    r"good|just under|just over|up to|at least)\s*(?=[\d.])",
    re.IGNORECASE,
)
_FULL = re.compile(
    r"\s?(?:heaped|heaping|rounded|scant|generous|level|good|large|small)\s+(?=(?:tbs?p?|tsp|table|tea|cup))", re.I
)
_SIGNS_OF_ABOUT = ("~", "≈", "circa", "ca.", "c.")
_TIMES = re.compile(r"\s?[xX×]\s?(?=\d)")
_AND = re.compile(r"\s?(?:\+|&|,?\s?plus\s|,?\s?and\s)\s?(?=\d)", re.IGNORECASE)
_NUMBER_WORDS = {
    "a half": "1/2", "half a": "1/2", "half an": "1/2", "half": "1/2", "one half": "1/2", "a quarter": "1/4",
    "quarter": "1/4", "one and a half": "1 1/2", "three quarters": "3/4", "two thirds": "2/3", "a third": "1/3",
    "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9",
    "ten": "10", "twelve": "12", "a dozen": "12", "one dozen": "12",
    "half a dozen": "6", "a couple of": "2", "a few": "3",
    "a": "1", "an": "1",
}  # fmt: skip
_FIRST_WORD = re.compile(
    rf"(?:{'|'.join(sorted(_NUMBER_WORDS, key=len, reverse=True))})(?: of an?)?(?=[\s-])(?!\s(?:little|bit|lot)\b)",
    re.IGNORECASE,
)
_BARE_PIECE = re.compile(
    r"(?:small |good |large |generous )?(?:pinch|dash|splash|handful|knob|drizzle)\b|"
    r"(?:heap(?:ed|ing)|rounded|scant|level|generous|good) (?:tsp|tbsp|(?:tea|table|dessert)spoon|cup)\b",
    re.IGNORECASE,
)
_VAGUE_COUNTS = ("a couple of", "a few")


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """One amount: numbers with units that add up, such as 1 cup and 2 tbsp. `high` is the end of a range.

    A unit is a key of `_WORDS` or `_PIECES`, with its system before it where the line says it; empty for a bare number.
    `rough` are words by which it is not exactly that much, such as `about`, and `heaped` of a spoon.
    """

    parts: tuple[tuple[Fraction, str], ...]
    high: Fraction | None = None
    rough: tuple[str, ...] = field(default=(), repr=False)

    @property
    def units(self) -> frozenset[str]:
        """The units, without their systems."""
        return frozenset([_WHOSE.sub("", unit) for _, unit in self.parts])

    def times(self, count: "Amount") -> "Amount":
        """This amount as often as a count says."""
        first = count.parts[0][0]
        high = None if count.high is None else count.high * self.parts[0][0]
        rough = (*count.rough, *self.rough)
        return Amount(parts=tuple([(first * number, unit) for number, unit in self.parts]), high=high, rough=rough)


def with_plain_signs(text: str) -> str:
    """The text with fractions as digits, one kind of dash in ranges, and mixed numbers with a space.

    >>> with_plain_signs("1½–2 cups"), with_plain_signs("1-1/2 cups"), with_plain_signs("2 ⅔ cups")
    ('1 1/2-2 cups', '1 1/2 cups', '2 2/3 cups')
    """
    shown = "".join([_fraction(sign) for sign in text])
    shown = re.sub(r"\b(\d+) dozen\b", lambda found: str(12 * int(found[1][:4])), shown)
    shown = re.sub(r"(?<=\d)\s*[–—−‐‑‒]\s*(?=\d)", "-", shown)
    shown = re.sub(r"(?<=\d)\s?[⁄∕／]\s?(?=\d)", "/", shown)
    shown = re.sub(r"(?<![\d/])(\d+)\s?-\s?(?=([1-9]\d?)/([1-9]\d?)\b)", _mixed, shown)
    return " ".join(re.sub(r"(?<=\d) (?:and|&) (?=\d+/\d)", " ", shown).split())


def _fraction(sign: str) -> str:
    if not unicodedata.decomposition(sign).startswith("<fraction>"):
        return sign
    return f" {unicodedata.normalize('NFKC', sign).replace('⁄', '/')}"


def _mixed(found: re.Match[str]) -> str:
    """`1-1/2` is one and a half; in `1-3/2` or `1/2-3/4` the dash is one."""
    return f"{found[1]} " if int(found[2]) < int(found[3]) else found[0]


def first_number_as_digits(text: str) -> str:
    """The text with a number word at its beginning as digits.

    >>> first_number_as_digits("half a cup of milk"), first_number_as_digits("a few drops")
    ('1/2 cup of milk', '~3 drops')
    """
    found = _FIRST_WORD.match(text)
    if not found:
        return f"1 {text}" if _BARE_PIECE.match(text) else text
    words = re.sub(r" of an?$", "", found[0].lower())
    sign = "~" if words in _VAGUE_COUNTS else ""
    return f"{sign}{_NUMBER_WORDS[words]} {text[found.end() :].lstrip(' -')}"


def read_amount(text: str) -> tuple[Amount, str] | None:
    """The amount at the beginning of a text, and the rest; None if it does not begin with a number.

    >>> read_amount("1 1/2 cups (340 g) butter")
    (Amount(parts=((Fraction(3, 2), 'cup'),), high=None), '(340 g) butter')
    >>> read_amount("2 x 400g tins of milk")[0].parts, read_amount("1 cup plus 2 Tbsp cream")[0].parts
    (((Fraction(800, 1), 'g'),), ((Fraction(1, 1), 'cup'), (Fraction(2, 1), 'tbsp')))
    """
    about = _APPROXIMATE.match(text)
    rest = text[about.end() :] if about else text
    found = _QUANTITY.match(rest)
    if not found:
        return None
    low, high = _number(found["low"]), _number(found["high"]) if found["high"] else None
    if low is None or (found["high"] and high is None):
        return None
    if high is not None and high <= low:
        return None
    rest = rest[found.end() :]
    times = _TIMES.match(rest)
    inner = read_amount(rest[times.end() :]) if times else None
    if inner and inner[0].units & (MASSES | VOLUMES):
        return inner[0].times(Amount(parts=((low, ""),), high=high, rough=_rough(about))), inner[1]
    full = _FULL.match(rest)
    unit, rest = _unit(f" {rest[full.end() :]}" if full else rest)
    amount = Amount(parts=((low, unit),), high=high, rough=(*_rough(about), *_rough(full)))
    return _with_more(amount, rest) if amount.units <= MASSES | VOLUMES and high is None else (amount, rest.lstrip())


def _rough(found: re.Match[str] | None) -> tuple[str, ...]:
    """The words before an amount as such; none for `level`, which is how spoons are meant."""
    words = found[0].strip().lower() if found else ""
    word = "about" if words and (words in _SIGNS_OF_ABOUT or words.startswith("approx")) else words
    return (word,) if word not in ("", "level") else ()


def _with_more(amount: Amount, rest: str) -> tuple[Amount, str]:
    """The amount with what is added to it: `1 cup plus 2 tbsp`, `1 lb 2 oz`."""
    joined = _AND.match(rest) or (re.match(r"\s(?=\d)", rest) if amount.parts[-1][1] == "lb" else None)
    more = read_amount(rest[joined.end() :]) if joined else None
    if more is None or more[0].high is not None or not more[0].units <= MASSES | VOLUMES:
        return amount, rest.lstrip()
    return Amount(parts=(*amount.parts, *more[0].parts), rough=(*amount.rough, *more[0].rough)), more[1]


def _unit(rest: str) -> tuple[str, str]:
    """The unit at the beginning of a text, and what follows."""
    found = _MEASURE.match(rest)
    if found:
        unit = _CASED[found["cased"]] if found["cased"] else _BY_WORD[found["word"].lower()]
        if found["word"] in ("c", "C") and not rest[found.end() :].startswith(" "):
            return "", rest
        system = (found["system"] or "").replace(".", "")
        system = {"UK": "imperial" if unit in ("pint", "fl oz") else "metric", "Australian": "AU"}.get(system, system)
        return f"{system} {unit}".strip(), rest[found.end() :]
    counted = _COUNTED.match(rest)
    if counted:
        unit = next(name for name, value in counted.groupdict().items() if value)
        return unit, rest[counted.end() :]
    return "", rest


def _number(written: str) -> Fraction | None:
    """A number; a comma before three digits parts thousands, any other comma or point is a decimal mark."""
    whole, _, part = written.rpartition(" ")
    if "/" in part:
        top, _, under = part.partition("/")
        if not int(under):
            return None
        return Fraction(int(whole or 0)) + Fraction(int(top), int(under))
    if len(written) > 12:
        return None
    if re.fullmatch(r"\d{1,3}(,\d{3})+(\.\d+)?", written):
        written = written.replace(",", "")
    written = written.replace(",", ".")
    return Fraction(written) if written.count(".") <= 1 else None
