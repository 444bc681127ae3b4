"""The reference of "Why this holds": what can hold a batch, and every sentence with its condition."""

from math import inf

from crumbcoat_calc.science.carriers import bands
from crumbcoat_calc.science.structure import GELS
from crumbcoat_calc.tables import citations, public_source
from crumbcoat_calc.texts.why_sentences import PARTS, Sentence, Within, sentences

from crumbcoat_site.reference.markdown import page, table

INTRO = """
A card says what holds a batch from what is in it and from what the recipe does with it. Nothing is said where nothing
is known. So a recipe should say what a cook does: `heat_to` where starch, egg or gelatine is heated, `cool_to` before
butter goes in, a `tool` with a whisk and a `speed` where something is whipped, the `temperature` of butter and cream.
"""

CARRIERS = """
## What can hold a batch

Each is counted from the first figure on. The list on a card begins with what is nearest to the second figure, which is
enough by itself. Starch is counted where it was heated in water until it swells (with more than 10 g of sugar in 100 g
of syrup: to 92 °C), egg where it was heated to 80 °C, gelatine where it was warmed to 35 °C, fat as a frame where it
was never warmer than 30 °C, egg foam where egg was whipped before other fat went in, and clumped fat where cold cream
was whipped. Beside others, a frame of fat counts from half of its first figure on. What has melted at the temperature
of the bowl is left out, and the card says of what is melting there that it hardly holds: gelatine, cocoa butter and
coconut fat inside the range in which they melt, and fat of which less than 10 % is solid.
"""

SENTENCES = """
## Sentences: when a card says what

Of each part, the first sentence that applies is said; of what holds the batch, each has one name and one sentence. A
condition on a figure reads its whole band, not its middle. Where it is not known which phase is outside, nothing that
needs it is said. The words "firm", "weak", "thick" and "thin" are common practice in all of them.
"""

OPEN_TEXT = """
Where something in an ingredient is not known and decides a part, the card says so: "What is not known of … leaves open
what holds it."
"""

FIGURES = {
    "bowl": "temperature of the bowl, °C",
    "cream_fat": "fat of the whipped cream, g per 100 g",
    "cold_lactose": "the most lactose that may crystallise in the cold, g per 100 g",
    "crystals": "undissolved sugar where the syrup is saturated, g per 100 g",
    "fat": "fat, g per 100 g",
    "fat_volume": "fat by volume of fat and water phase, %",
    "finest": "finest droplets that can be covered, µm, where fat is melted or beaten in",
    "gelling_starch": "starch that sets, g for 100 g of water",
    "holding_droplets": "fat by volume where it is known to be in droplets, and no gel or foam is there, %",
    "may_stay": "the most sugar that may stay undissolved where the syrup is or may be saturated, g per 100 g",
    "other_fat": "fat that is not cocoa butter, in 100 g of the fat",
    "slow": "the most of a sugar but sucrose that is more than the water holds, g per 100 g",
    "solid": "solid part of the fat that was never melted, %",
    "strength": "sugar in the syrup, g per 100 g",
    "undissolved": "undissolved sugar, g per 100 g",
    "viscosity": "viscosity of the syrup, mPa·s, where not all that could hold the batch has melted",
    "weak": "1 or more where what it is about is melting at the temperature of the bowl",
}
"""What the figures are that conditions read."""

_PART = {
    "holds": "What holds it: …",
    "carriers": "How each holds",
    "fat": "Fat",
    "syrup": "Syrup",
    "sugar": "Sugar",
    "cover": "Emulsifiers",
    "warmth": "Warmth",
}
_MARKS = {"common-practice": "common practice", "memory": "not checked against a source", "definition": "definition"}


def why_this_holds_page() -> str:
    """The page as Markdown."""
    carriers = [
        (name, f"{low:g}", f"{high:g}", unit, _mark(source))
        for name, (low, high, unit, source) in sorted(bands().items())
    ]
    said = [one for part in PARTS for one in sentences() if one.part == part]
    rows = [
        (_PART[one.part], _shown(one.text), _condition(one), ", ".join(one.families) or "any", _mark(one.source))
        for one in said
    ]
    named = sorted({source for *_, source in bands().values()} | {one.source for one in said})
    sources = [f"- `{key}`: {public_source(citations()[key])}" for key in named if key not in _MARKS]
    return page(
        "Why this holds",
        "What can hold a batch, and when a card says what",
        INTRO,
        CARRIERS,
        table(("what", "counted from", "enough from", "unit", "mark"), carriers),
        SENTENCES,
        table(("part", "sentence", "when", "families", "mark"), rows),
        OPEN_TEXT,
        "The figures of the conditions:",
        table(("figure", "what it is"), [(f"`{name}`", meaning) for name, meaning in FIGURES.items()]),
        "The sources:",
        "\n".join(sources),
    )


def _condition(sentence: Sentence) -> str:
    """When a sentence is said, in words."""
    found = []
    if sentence.carrier:
        found.append(f"for {sentence.carrier.value}")
    if sentence.unless:
        found.append("without a gel" if sentence.unless == GELS else f"without {sentence.unless[0].value}")
    if sentence.outside:
        found.append(f"{sentence.outside.value} is outside")
    return "; ".join(found + [_within(within) for within in sentence.within])


def _within(within: Within) -> str:
    ends = [f"from {within.low:g}"] if within.low > -inf else []
    ends += [f"below {within.high:g}"] if within.high < inf else []
    return f"`{within.figure}` {' and '.join(ends) or 'known'}"


def _shown(text: str) -> str:
    """A template with its places in square brackets, such as [figure]."""
    return text.replace("{", "[").replace("}", "]").replace("_", " ")


def _mark(source: str) -> str:
    return _MARKS.get(source, f"sourced: `{source}`")
