"""What a new site or recipe can be; in a module of its own, so that `crumbcoat --help` need not load calc."""

REGIONS = ("UK", "EU", "US")
VOICES = ("home", "class")

COLOURS = {
    "cocoa": ("#5b3a29", "#8a3b12", "#a8480f", "#2c1d15", "#f2b48a", "#ffc9a3"),
    "raspberry": ("#9c1c4b", "#9c1c4b", "#b3124f", "#3a0d20", "#ff9dbc", "#ffb8cf"),
    "lemon": ("#f4cf4e", "#7a5600", "#8a5a00", "#3b2f0a", "#f1d16b", "#e9c65c"),
    "mint": ("#1f6b57", "#14614d", "#0b6b54", "#10352b", "#7fd8bd", "#98e6cf"),
    "blueberry": ("#34407f", "#34407f", "#3a3fa6", "#181d3f", "#a9b6ff", "#bfc8ff"),
    "plain": ("#2f3437", "#0b5c8a", "#0b5c8a", "#1b1f22", "#8fc8ea", "#a6d6f2"),
}
"""Header, links, and what is live or under the pointer: for light, then for dark pages."""

FAMILY_WORDS = (
    "emulsified milk frosting",
    "meringue buttercream",
    "egg-yolk buttercream",
    "custard buttercream",
    "cooked-flour buttercream",
    "condensed-milk buttercream",
    "sugar-and-butter frosting",
    "cream-cheese frosting",
    "whipped cream",
    "ganache",
    "curd or custard filling",
    "glaze or icing",
    "other",
)
"""The families; a test compares them with the model's. All but the last have a skeleton."""
