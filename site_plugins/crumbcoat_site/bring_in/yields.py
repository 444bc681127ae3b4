"""What a page says that a recipe makes -> portions, and what is counted."""

import re
from collections.abc import Sequence

from crumbcoat_site.bring_in.amounts import first_number_as_digits, with_plain_signs

_COUNT = re.compile(
    r"^(?:(?:makes|serves|yields?|frosts|fills|covers|enough for|for|about|approx(?:imately)?\.?|ca\.|around|up to)"
    r"\s*:?\s*)*"
    r"(?P<low>\d{1,5})(?:\s?(?:-|to|or)\s?(?P<high>\d{1,5}))?(?P<of>(?:\s|$|\().*)$",
    re.IGNORECASE,
)
_MEASURE = re.compile(
    r"^[\s(]*(?:\d|/|cups?|ml|l|litres?|liters?|g|grams?|kg|oz|ounces?|lbs?|pounds?|pints?|quarts?)\b", re.IGNORECASE
)
_SERVES = re.compile(r"\b(?:serves|servings?|people|persons?)\b", re.IGNORECASE)


def yield_of(written: Sequence[str]) -> tuple[dict[str, str], str]:
    """The fields of `yield`, and why to look at them; empty if there is no doubt.

    Several texts of a page say the same in more words: the longest one that begins with a count is taken.

    >>> yield_of(["12", "12 cupcakes"]), yield_of(["Serves 8-10"])
    (({'portions': '12', 'of': 'cupcakes'}, ''), ({'portions': '8', 'of': 'servings'}, 'the page says Serves 8-10'))
    >>> yield_of(["about 2 1/2 cups"])
    ({'portions': '1', 'of': 'batch (about 2 1/2 cups)'}, 'how many portions are in about 2 1/2 cups?')
    """
    for text in sorted(written, key=len, reverse=True):
        shown = first_number_as_digits(with_plain_signs(text))
        found = _COUNT.match(shown)
        if not found or _MEASURE.match(found["of"]) or int(found["low"]) == 0:
            continue
        of = found["of"].strip(" .,;:")
        of = of[1:-1] if of.startswith("(") and of.find(")") == len(of) - 1 else of
        doubt = f"the page says {text[:80]}" if found["high"] else ""
        if not of:
            of = "servings"
            doubt = doubt or ("" if _SERVES.search(text) else f"the page says {text[:80]}: of what?")
        return {"portions": found["low"], "of": of[:120]}, doubt
    if written:
        return {"portions": "1", "of": f"batch ({written[0][:100]})"}, f"how many portions are in {written[0][:80]}?"
    return {"portions": "1", "of": "batch"}, "the page does not say how much it makes"
