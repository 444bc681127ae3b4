"""The reference of all other sentences of a card: with their conditions, and the cautions of each region."""

from crumbcoat_calc.forms.conditions import BEATEN_WITH_BUTTER
from crumbcoat_calc.label.caution_table import all_cautions, limits
from crumbcoat_calc.values.display import list_text
from crumbcoat_calc.values.region import REGIONS

from crumbcoat_site.reference.markdown import page, table
from crumbcoat_site.reference.other_sentences import other_sentences

INTRO = """
What holds a batch, and why, is on a page of its own, [Why this holds](why-this-holds.md). These are the other
sentences that cards make from figures. What is in square brackets differs from recipe to recipe. Where something in an
ingredient is not known, numbers are ranges, and a sentence whose words would depend on it is replaced by "not given:
what is not known of … leaves it open". The tests compare this page with what the cards of the demo and recipes made at
random say.
"""

CAUTIONS = """
## Cautions

They are chosen by what a recipe holds and does, for recipes of any family, in the words of the site's region. Where
handouts are off, some are worded for a home. Above them, a card says once who decides, and that no note is a clearance.
"""


def caution_conditions() -> dict[str, str]:
    """When each caution is given, by its key."""
    own, shared = [limits(region) for region in REGIONS], limits()
    eggs = " / ".join([f"{limit['egg_mixture_c']:g}" for limit in own])
    hot = " / ".join([f"{limit['hot_holding_c']:g}" for limit in own])
    regions = ", ".join(REGIONS)
    return {
        "allergens": "a list of ingredients contains an allergen of the law",
        "allergens_by_accident": "`may_contain` names one that no ingredient contains",
        "allergens_unknown": "those of an ingredient, or of a decoration that is eaten, are not all known",
        "of_slaughter": "an ingredient is, or may be, gelatine or animal fat",
        "raw_egg": "no step heats an egg that is sold raw",
        "lightly_heated_egg": f"its steps heat it to less than {eggs} °C ({regions})",
        "heated_egg": f"its steps heat it to {eggs} °C ({regions}) or more",
        "raw_flour": f"no step heats it, or to less than {eggs} °C ({regions})",
        "time_and_temperature": "there is water in the batch",
        "cooling": f"there is, and a step heats to {hot} °C ({regions}) or more",
        "out_of_the_cold": "there is, and `storage` has a place that is not cold",
        "date": "there is, and `storage` has the refrigerator",
        "date_passed": "there, for more than 6 days",
        "water_activity_and_ph": "there is water in the batch",
        "hot_syrup": f"a step heats to more than {shared['syrup_from_c']:g} °C",
        "hot_liquid": f"a step heats to {shared['scalds_from_c']:g} to {shared['syrup_from_c']:g} °C",
        "machines": "a text or a tool names one",
        "choking": "nuts or pieces are in it, unless only adults cook",
        "honey": "honey is in it, unless only adults cook",
        "alcohol": "an ingredient has alcohol",
        "hard_or_sharp": "a text names wire or the like, or a decoration is not eaten",
        "decorations": "a text names dusts or glitters",
        "flowers": "a text names flowers",
    }


def card_sentences_page() -> str:
    """The page as Markdown."""
    when = caution_conditions()
    others = [(one.part, one.sentence, one.when, one.families) for one in other_sentences()]
    cautions = [
        (
            row.title, row.words.replace("{", "[").replace("}", "]"), when[row.key],
            row.region if row.voice == "any" else f"{row.region}, {row.voice}",
        )
        for row in all_cautions()
    ]  # fmt: skip
    return page(
        "Sentences of a card",
        "When a card says what, apart from why it holds",
        INTRO,
        "## By part",
        table(("part", "sentence", "when", "families"), others),
        f"Families that are beaten with butter: {list_text(sorted(BEATEN_WITH_BUTTER))}.",
        CAUTIONS,
        table(("caution", "words", "when", "region"), cautions),
    )
