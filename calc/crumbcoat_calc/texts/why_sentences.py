"""Every sentence about why a mixture holds, with its condition: the one place for both."""

from dataclasses import dataclass
from math import inf

from crumbcoat_calc.science.carriers import Carries
from crumbcoat_calc.science.more_sugar import CROWDED_PERCENT
from crumbcoat_calc.science.structure import GELS, Outside

THICK_SYRUP, THIN_SYRUP = 55.0, 35.0
"""Strengths, in g per 100 g, from which a syrup is called thick, and below which thin (common practice, no source)."""

FIRM, SOFT = 35.0, 10.0
"""Solid fat, in g per 100 g of it, from which it is called firm, and below which weak (common practice, no source)."""

GEL_STARCH = 5.0
"""Starch for 100 g of water from which it sets to a gel (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Within:
    """A figure whose whole band is from `low` on and below `high`; it is not met where the figure is not known."""

    figure: str
    low: float = -inf
    high: float = inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """A template and when it is said: the first of a part that applies, or of each carrier in `holds` and `carriers`.

    `carrier` must hold the mixture, none of `unless` may, the phase `outside` must be known, and all `within` be met.
    """

    part: str
    text: str
    source: str
    carrier: Carries | None = None
    unless: tuple[Carries, ...] = ()
    outside: Outside | None = None
    families: tuple[str, ...] = ()
    within: tuple[Within, ...] = ()


def _phrase(carrier: Carries, text: str, *within: Within) -> Sentence:
    return Sentence(part="holds", text=text, source="common-practice", carrier=carrier, within=within)


def _of(carrier: Carries, text: str, source: str, *within: Within) -> Sentence:
    return Sentence(part="carriers", text=text, source=source, carrier=carrier, within=within)


_SETS = Within(figure="gelling_starch", low=GEL_STARCH)
_FAT = Within(figure="fat", low=5)
_STARCH = "Starch ({figure} g for 100 g of water) was heated to {heated} in water: its grains have swollen"
_CREAM = (
    "Cream with {figure} % of fat was whipped cold: its globules, partly solid, clump around the bubbles and hold "
    "them. At {cold}, {cold_solid} % of milk fat is solid. Common practice: keep the cream at 5 °C for at least 4 h, "
    "and whip it at {cold}."
)
_SHARE = "Fat is {fat_volume} % of the volume of fat and water phase{}"
_SYRUP = "Water and dissolved sugar form a syrup of {strength} % sugar{}"
_COVER = "{emulsifiers} can cover droplets down to about {finest}{}"
_WARM = "At {at}, about {solid} % of {frame_fat} is solid{}"

SENTENCES = (
    _phrase(Carries.WHITE_FOAM, "a foam of egg white"),
    _phrase(Carries.YOLK_FOAM, "a foam of egg"),
    _phrase(Carries.EGG_GEL, "egg that has set"),
    _phrase(Carries.STARCH_GEL, "a starch gel", _SETS),
    _phrase(Carries.STARCH_GEL, "swollen starch"),
    _phrase(Carries.GELATINE, "gelatine"),
    _phrase(Carries.AGAR, "agar"),
    _phrase(Carries.GUM, "gum"),
    _phrase(Carries.CLUMPED_FAT, "clumped fat around the bubbles"),
    _phrase(Carries.COCOA_BUTTER, "cocoa butter"),
    _phrase(Carries.COCONUT_FAT, "coconut fat"),
    _phrase(Carries.FAT_FRAME, "a frame of fat"),
    _phrase(Carries.FRESH_CHEESE, "the curd of the cheese"),
    _phrase(Carries.SUGAR_CRYSTALS, "undissolved sugar"),
    _of(
        Carries.WHITE_FOAM,
        "Egg white ({figure} g in 100 g) was whipped to a foam: its protein is the skin of the bubbles, and the fat is "
        "between them.",
        "common-practice",
        _FAT,
    ),
    _of(
        Carries.WHITE_FOAM,
        "Egg white ({figure} g in 100 g) was whipped to a foam: its protein is the skin of the bubbles.",
        "common-practice",
    ),
    _of(Carries.YOLK_FOAM, "Egg ({figure} g in 100 g) was whipped to a foam, which holds air.", "common-practice"),
    _of(
        Carries.EGG_GEL,
        "Egg ({figure} g for 100 g of water) was heated to {heated}: its protein has set, and holds the water. White "
        "begins to set at {white}, yolk at {yolk}, both later in sugar.",
        "belitz",
    ),
    _of(Carries.STARCH_GEL, _STARCH + ", and set as they cool to a gel that holds the water.", "belitz", _SETS),
    _of(Carries.STARCH_GEL, _STARCH + ", and thicken the water.", "belitz"),
    _of(
        Carries.GELATINE,
        "Gelatine ({figure} g in 100 g of water and sugar) sets in the cold, and melts again at {gelatine}.",
        "gelatine-makers",
    ),
    _of(
        Carries.AGAR,
        "Agar ({figure} g for 100 g of water) sets as it cools to {agar}, and melts again only from {agar_melts} on.",
        "agar-suppliers",
    ),
    _of(
        Carries.GUM,
        "Gum ({figure} g for 100 g of water) thickens the water; alone, it does not set.",
        "common-practice",
    ),
    _of(
        Carries.CLUMPED_FAT,
        _CREAM + " Above about 42 % of fat, cream is less stable.",
        "versteeg-2016",
        Within(figure="cream_fat", low=42),
    ),
    _of(Carries.CLUMPED_FAT, _CREAM, "versteeg-2016"),
    _of(
        Carries.COCOA_BUTTER,
        "Cocoa butter ({figure} g in 100 g) sets as it cools, and melts again at {cocoa}.",
        "belitz",
    ),
    _of(
        Carries.COCONUT_FAT,
        "Coconut fat ({figure} g in 100 g) is firm in the cold, and melts at {coconut}.",
        "belitz",
    ),
    _of(
        Carries.FAT_FRAME,
        "Fat that was never melted ({figure} g in 100 g) keeps its crystals: they hold together, and hold air that is "
        "beaten in.",
        "common-practice",
    ),
    _of(
        Carries.FRESH_CHEESE,
        "Fresh cheese ({figure} g in 100 g) holds its water in a curd of milk protein, and lets go of it when it is "
        "beaten for long.",
        "common-practice",
    ),
    Sentence(
        part="fat",
        text="There is hardly any fat.",
        source="definition",
        within=(Within(figure="fat_volume", high=1),),
    ),
    Sentence(
        part="fat",
        text=_SHARE.replace("{}", ": by amount, it surrounds the water."),
        source="definition",
        outside=Outside.FAT,
        within=(Within(figure="fat_volume", low=74.05),),
    ),
    Sentence(
        part="fat",
        text=_SHARE.replace("{}", ". In frostings of this kind (common practice), it surrounds the water."),
        source="common-practice",
        outside=Outside.FAT,
        families=("sugar-and-butter frosting",),
    ),
    Sentence(
        part="fat",
        text=_SHARE.replace("{}", ": too little to surround the water, so the water phase surrounds it."),
        source="definition",
        outside=Outside.WATER,
        within=(Within(figure="fat_volume", high=25.95),),
    ),
    Sentence(
        part="fat",
        text=_SHARE.replace("{}", ". Its droplets have room between them."),
        source="mason-1995",
        outside=Outside.WATER,
        unless=(Carries.CLUMPED_FAT,),
        within=(Within(figure="fat_volume", high=CROWDED_PERCENT),),
    ),
    Sentence(
        part="fat",
        text=_SHARE.replace("{}", ". Its droplets nearly touch, which makes the batch thick."),
        source="mason-1995",
        outside=Outside.WATER,
        unless=(Carries.CLUMPED_FAT,),
        within=(Within(figure="fat_volume", low=CROWDED_PERCENT, high=64),),
    ),
    Sentence(
        part="fat",
        text=_SHARE.replace("{}", ". That is about as close as droplets can pack: they support each other."),
        source="mason-1995",
        outside=Outside.WATER,
        unless=(Carries.CLUMPED_FAT,),
        within=(Within(figure="fat_volume", low=64, high=74.05),),
    ),
    Sentence(part="fat", text=_SHARE.replace("{}", "."), source="definition", within=(Within(figure="fat_volume"),)),
    Sentence(
        part="syrup",
        text=_SYRUP.replace("{}", "{times}: thick, so what is in it moves slowly."),
        source="genotelle-1978",
        unless=GELS,
        within=(Within(figure="strength", low=THICK_SYRUP),),
    ),
    Sentence(
        part="syrup",
        text=_SYRUP.replace("{}", "{times}: fluid, so it adds little thickness."),
        source="genotelle-1978",
        unless=GELS,
        within=(Within(figure="strength", low=THIN_SYRUP, high=THICK_SYRUP),),
    ),
    Sentence(
        part="syrup",
        text=_SYRUP.replace("{}", "{times}: as thin as a drink, so something else must hold the batch together."),
        source="genotelle-1978",
        unless=GELS,
        within=(Within(figure="strength", high=THIN_SYRUP),),
    ),
    Sentence(
        part="syrup",
        text=_SYRUP.replace("{}", "."),
        source="definition",
        within=(Within(figure="strength"),),
    ),
    Sentence(
        part="sugar",
        text="{undissolved} of sugar stays undissolved: its crystals stiffen the batch, and can be felt if they are "
        "coarse. More sugar only makes it stiffer.",
        source="vavrinecz-1962",
        within=(Within(figure="crystals", low=0.5),),
    ),
    Sentence(
        part="sugar",
        text="All the sugar is dissolved. More would first make more syrup around the droplets, and so a runnier "
        "frosting, not a stiffer one.",
        source="common-practice",
        within=(Within(figure="undissolved", high=0.05), Within(figure="holding_droplets", low=CROWDED_PERCENT)),
    ),
    Sentence(
        part="sugar",
        text="All the sugar is dissolved.",
        source="vavrinecz-1962",
        within=(Within(figure="undissolved", high=0.05), Within(figure="strength", low=1)),
    ),
    Sentence(
        part="cover",
        text=_COVER.replace("{}", ", enough for all the droplets that a whisk makes ({whisked})."),
        source="memory",
        within=(Within(figure="finest", high=5),),
    ),
    Sentence(
        part="cover",
        text=_COVER.replace(
            "{}", ", enough for the coarser droplets that a whisk makes ({whisked}), not for the finest."
        ),
        source="memory",
        within=(Within(figure="finest", low=5, high=50),),
    ),
    Sentence(
        part="cover",
        text=_COVER.replace("{}", "; a whisk makes droplets of {whisked}."),
        source="memory",
        within=(Within(figure="finest"),),
    ),
    Sentence(
        part="warmth",
        text=_WARM.replace("{}", ": firm. Beaten now, it may look curdled; it comes together as it warms."),
        source="versteeg-2016",
        unless=(Carries.FRESH_CHEESE,),
        within=(Within(figure="solid", low=FIRM),),
    ),
    Sentence(
        part="warmth",
        text=_WARM.replace("{}", ": soft enough to beat, and firm enough to keep its shape."),
        source="versteeg-2016",
        unless=(Carries.FRESH_CHEESE,),
        within=(Within(figure="solid", low=SOFT, high=FIRM),),
    ),
    Sentence(
        part="warmth",
        text=_WARM.replace("{}", ": weak. Common practice: about {minutes} in the refrigerator, then beat again."),
        source="versteeg-2016",
        unless=(Carries.FRESH_CHEESE,),
        within=(Within(figure="solid", low=1, high=SOFT),),
    ),
    Sentence(
        part="warmth",
        text="At {at}, all of {frame_fat} is liquid, and supports nothing.",
        source="techniques-f6320",
        within=(Within(figure="solid", high=1e-6),),
    ),
    Sentence(
        part="warmth",
        text=_WARM.replace("{}", "."),
        source="versteeg-2016",
        within=(Within(figure="solid"),),
    ),
)
"""In the order in which they are tried."""

OPEN = {
    "holds": "what holds it",
    "fat": "how closely the fat is packed",
    "syrup": "how strong the syrup is",
    "sugar": "whether all the sugar dissolves",
    "cover": "whether the fat can be covered",
    "warmth": "how firm the fat is",
}
"""What each part is about, for a mixture of which not enough is known; `carriers` is left out there."""

PARTS = ("holds", "carriers", "fat", "syrup", "sugar", "cover", "warmth")
"""The parts in the order in which a page shows them."""
