"""Lines that name several foods, such as `2 eggs plus 1 egg yolk`, as a line for each."""

import re
from dataclasses import replace

from crumbcoat_site.bring_in.amounts import MASSES, VOLUMES, first_number_as_digits, read_amount, with_plain_signs
from crumbcoat_site.bring_in.ingredient_lines import LONGEST, IngredientLine, ingredient_line

_JOINED = re.compile(
    r",?\s(?P<how>plus|and|\+|&|dissolved in|slaked (?:in|with)|mixed with|blended with|whisked with|bloomed in|"
    r"stirred into|soaked in)\s"
    r"(?=(?:about )?(?:\d|an? |one |two |half ))",
    re.IGNORECASE,
)
_TWO_PARTS = re.compile(
    r"(?P<before>(?:finely |freshly )?(?:grated )?)(?P<one>juice|zest)(?: and| &) (?:grated )?(?P<two>juice|zest)"
    r"\s+(?P<rest>(?:of|from)\s.+)",
    re.IGNORECASE,
)
_FRUIT = re.compile(
    r"(?P<fruit>[^,()]*\b(?:lemon|lime|orange|grapefruit)s?),?\s\(?(?:finely |freshly )?(?:grated )?(?P<one>juice|zest)"
    r"(?: and| &) (?:finely |freshly )?(?:grated |squeezed )?(?P<two>juice|zest)(?: only)?\)?",
    re.IGNORECASE,
)
_MORE = re.compile(
    r"(?:little|bit|few|more|extra|additional)\b|.*\bfor (?:the |a )?\w*(?:dust|greas|decor|serv|sprinkl|top|tin|pan)",
    re.IGNORECASE,
)


def ingredient_lines(written: str) -> tuple[IngredientLine, ...]:
    """The line as one or two foods.

    >>> [line.name for line in ingredient_lines("2 large eggs plus 1 egg yolk")]
    ['eggs', 'egg yolk']
    >>> [line.name for line in ingredient_lines("2 tsp coffee powder dissolved in 1 tbsp hot water")]
    ['coffee powder', 'water']
    >>> [line.name for line in ingredient_lines("Zest and juice of 1 orange")]
    ['orange zest', 'orange juice']
    >>> [line.name for line in ingredient_lines("3 lemons, zest and juice")]
    ['lemon zest', 'lemon juice']
    >>> len(ingredient_lines("1 cup and 2 tbsp sugar"))
    1
    """
    whole = ingredient_line(written)
    text = with_plain_signs(whole.written[:LONGEST])
    parts = _TWO_PARTS.fullmatch(text)
    if parts and parts["one"].lower() != parts["two"].lower():
        both = [ingredient_line(f"{parts['before']}{parts[name]} {parts['rest']}") for name in ("one", "two")]
        return tuple([replace(line, written=whole.written) for line in both])
    fruit = _FRUIT.fullmatch(text)
    if fruit and fruit["one"].lower() != fruit["two"].lower():
        both = [ingredient_line(f"{fruit[name]} of {fruit['fruit']}") for name in ("one", "two")]
        return tuple([replace(line, written=whole.written) for line in both])
    for joined in _JOINED.finditer(text):
        first, second = text[: joined.start()], text[joined.end() :]
        if _names_a_food(first) and _names_a_food(second):
            return tuple([replace(ingredient_line(part), written=whole.written) for part in (first, second)])
    return (whole,)


def _names_a_food(text: str) -> bool:
    """Whether there are an amount and, after it, a name, not a measure or a purpose."""
    found = read_amount(first_number_as_digits(text.strip()))
    if not found or _MORE.match(found[1]) or not re.match(r"[(a-zA-Z]", found[1]):
        return False
    inner = read_amount(f"1 {found[1]}")
    return inner is None or inner[0].units == {""} or not inner[0].units & (MASSES | VOLUMES)
