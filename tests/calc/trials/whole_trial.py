"""A trial with every field, and one with none but those that it needs; invented."""

SMALLEST = {"number": "3", "date": "2026-11-24"}

WHOLE = SMALLEST | {
    "who": "bench two",
    "from": "2",
    "recipe": "0a1b2c3d",
    "aim": "Less sugar: does it still pipe?",
    "plan": "1",
    "code": "417",
    "changed": {
        "ingredients": {
            "sugar": "130 g",
            "salt": "Left out",
            "gum": {"kind": "cornstarch", "amount": "1 g", "add_at": "1.2"},
        },
        "steps": {"1.3": {"time": "4 min", "tool": "whisk"}, "2.1": "left out"},
    },
    "weighed": {"sugar": "131 g"},
    "readings": [
        {"at": "1.3", "temperature": "61 °C"},
        {"at": "1", "mass": "480 g"},
        {"cup": "metric cup", "cup_weighs": "212.5 g", "ph": "6.1", "brix": "48.5 °Bx", "water_activity": "0.93"},
        {"spread": "34 mm", "penetration": "1.2 cm", "note": "after an hour"},
    ],
    "mixing": [{"at": "2.2", "from": "18 °C", "to": "21 °C", "time": "8 min"}],
    "chilling": [{"from": "30 °C", "to": "20 °C", "cold": "4 °C", "time": "25 min"}],
    "seen": [{"at": "1.3", "sign": "Small grains.", "remedy": "Warmed the bowl.", "worked": "yes"}],
    "tests": [
        {
            "test": "keeping",
            "where": "fridge",
            "temperature": "4 °C",
            "time": "3 days",
            "weeping": "2 mm",
            "did": "wept",
        },
        {
            "test": "holding",
            "where": "on a table in the sun",
            "time": "1 h 30 min",
            "height_lost": "3 mm",
            "did": "slumped",
        },
        {"test": "piping", "temperature": "19 °C", "rosettes": "14", "did": "held"},
    ],
    "tasted": [
        {"attribute": "liking", "marks": ["7", "8", "6"], "code": "417"},
        {"attribute": "sweet", "scale": "5", "marks": ["3"]},
    ],
    "compared": [
        {"test": "triangle", "against": "2", "people": "12", "right": "9"},
        {"test": "paired", "against": "2", "people": "12", "chose": "8", "asked": "Which one is sweeter?"},
    ],
    "pictures": [{"file": "trial-3.jpg", "shot": "cut edge"}],
    "did": "wept",
    "verdict": "go on from here",
    "because": "It pipes, and weeps on the third day.",
}
