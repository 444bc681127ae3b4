"""A number stays on one line with its unit: the space between them is a no-break space.

The SI Brochure (9th edition, 5.4.3) has a space there. The browser does the same with the texts of an answer, in
`spacing.js` of the calculators.
"""

import re

from crumbcoat_calc.values.region import html_in

_QUANTITY = re.compile(
    r"([0-9¼½¾⅓⅔⅛⅜⅝⅞]) ("
    r"°[CF]|°Brix|%|[kmµ]?g|m?L|[kcmµ]?m|in(?=$|[,;:.)]| \()|oz|fl oz|lb|k?J|kcal|k?Pa|mPa s|W|min|h|s|"
    r"(?:hour|minute|second|day|week|month)s?|"
    r"(?:(?:US|UK|AU|metric|imperial) )?(?:cups?|tbsp|tsp|pints?|quarts?|qt|fl oz)|[A-Z]{3}"
    r")(?![A-Za-z])"
)
"""A unit is a symbol, a time in words, a household measure or a currency; "in" is inches only where a phrase ends."""

_AS_WRITTEN = re.compile(r"(<(pre|code|script|style|textarea)\b.*?</\2>|<[^>]*>)", re.DOTALL)


def unbroken(text: str) -> str:
    """The text with a no-break space between each number and its unit; a second time changes nothing.

    >>> unbroken("2½ US tsp at 18 °C (64 °F), 3 in 100 g")
    '2½\\xa0US\\xa0tsp at 18\\xa0°C (64\\xa0°F), 3 in 100\\xa0g'
    """
    return _QUANTITY.sub(lambda found: found[0].replace(" ", "\u00a0"), text)


def page_html(region: str | None, html: str) -> str:
    """HTML of a page: words that are seen are as usual in a region, and `unbroken`; tags, code and data stay.

    >>> page_html("US", '<i data-t="4 °C">4 °C</i> <code>1 g</code>')
    '<i data-t="4 °C">39\\xa0°F (4\\xa0°C)</i> <code>1 g</code>'
    """
    return unbroken_html(html_in(region, html))


def unbroken_html(html: str) -> str:
    """HTML in which the words that are seen are `unbroken`; tags, code and data stay.

    >>> unbroken_html('<i data-t="4 °C">4 °C</i> <code>1 g</code>')
    '<i data-t="4 °C">4\xa0°C</i> <code>1 g</code>'
    """
    parts = _AS_WRITTEN.split(html)
    return "".join([part if number % 3 else unbroken(part) for number, part in enumerate(parts) if number % 3 != 2])
