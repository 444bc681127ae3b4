"""The format of a trial file as a JSON Schema, with which an editor completes and checks it while you write.

Run `python -m crumbcoat_site.recipe_cards.source.trial_schema` to write it.
"""

import json
from collections.abc import Iterable, Mapping
from pathlib import Path

from crumbcoat_calc.foods.table import written_unit
from crumbcoat_calc.kitchen.density import CUPS
from crumbcoat_calc.recipe.stages import STEP_FIELDS
from crumbcoat_calc.trials import observed, reading
from crumbcoat_calc.trials.model import COMPARISONS, NOT_MADE, OUTCOMES, TESTS, VERDICTS

from crumbcoat_site.recipe_cards.source import field_descriptions as about
from crumbcoat_site.recipe_cards.source import trial_descriptions as of_trials
from crumbcoat_site.recipe_cards.source.schema import definitions, ingredient_shapes, step_shapes
from crumbcoat_site.recipe_cards.source.schema_shapes import (
    DATE,
    NUMBER,
    QUANTITY,
    SHORT_NAME,
    TEMPERATURE,
    TEXT,
    YES_NO,
    Schema,
    block,
    named,
    photo_shape,
    words,
)

TRIAL_FILE = Path(__file__).parents[4] / "recipes" / "trial.schema.json"

_PLACE: Schema = {"type": ["string", "number"], "pattern": r"^\s*[1-9][0-9]*(\.[1-9][0-9]*)?\s*$"}
_STEP: Schema = {**_PLACE, "pattern": r"^\s*[1-9][0-9]*\.[1-9][0-9]*\s*$"}
_CODE: Schema = {"type": ["string", "number"]}
_ANY_OBJECT: Schema = {"type": "object"}
_BRIX: Schema = {**QUANTITY, "type": ["string", "number"]}


def trial_schema() -> Schema:
    """The JSON Schema, draft 2020-12, of a trial file."""
    shapes: dict[str, Schema] = {
        "number": NUMBER,
        "date": DATE,
        "who": TEXT,
        "from": {"type": ["string", "number"], "pattern": r"^\s*[vV]?[1-9][0-9]{0,3}\s*$"},
        "recipe": {"type": ["string", "number"], "pattern": r"^\s*[0-9a-f]{8}\s*$"},
        "aim": TEXT,
        "plan": NUMBER,
        "code": _CODE,
        "changed": _changed(),
        "weighed": named(QUANTITY, at_least=0),
        "readings": _list(observed.READING_FIELDS, of_trials.READING, _READING, ()),
        "mixing": _list(observed.MIXING_FIELDS, of_trials.MIXING, _MIXING, ("from", "to", "time")),
        "chilling": _list(observed.CHILLING_FIELDS, of_trials.CHILLING, _CHILLING, ("from", "to", "time", "cold")),
        "seen": _list(observed.SEEN_FIELDS, of_trials.SEEN, _SEEN, ("at", "sign")),
        "tests": _list(observed.TEST_FIELDS, of_trials.TEST, _TEST, ("test", "did")),
        "tasted": _list(observed.TASTED_FIELDS, of_trials.TASTED, _TASTED, ("attribute", "marks")),
        "compared": _list(observed.COMPARED_FIELDS, of_trials.COMPARED, _COMPARED, ("test", "against", "people")),
        "pictures": _list(observed.PICTURE_FIELDS, of_trials.PICTURE, {"file": TEXT, "shot": TEXT}, ("file",)),
        "did": words(OUTCOMES),
        "verdict": words(VERDICTS),
        "because": TEXT,
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Trial file",
        "description": "One batch of a recipe as it was made: what differed, what was read, seen, tested and tasted.",
        **block(reading.TRIAL_FIELDS, of_trials.TRIAL, shapes, ("number", "date")),
        "$defs": {**definitions(), "photo": photo_shape()},
    }


_READING: dict[str, Schema] = {
    "at": _PLACE,
    "temperature": TEMPERATURE,
    "mass": QUANTITY,
    "density": QUANTITY,
    "cup": {"anyOf": [{"enum": [written_unit(cup) for cup in CUPS]}, {"type": "string"}]},
    "cup_weighs": QUANTITY,
    "ph": NUMBER,
    "brix": _BRIX,
    "water_activity": NUMBER,
    "spread": QUANTITY,
    "penetration": QUANTITY,
    "note": TEXT,
}
_MIXING: dict[str, Schema] = {"at": _STEP, "from": TEMPERATURE, "to": TEMPERATURE, "time": QUANTITY}
_CHILLING: dict[str, Schema] = {"from": TEMPERATURE, "to": TEMPERATURE, "time": QUANTITY, "cold": TEMPERATURE}
_SEEN: dict[str, Schema] = {"at": _STEP, "sign": TEXT, "remedy": TEXT, "worked": YES_NO}
_TEST: dict[str, Schema] = {
    "test": words(TESTS),
    "did": words(OUTCOMES),
    "where": TEXT,
    "temperature": TEMPERATURE,
    "time": QUANTITY,
    "weeping": QUANTITY,
    "height_lost": QUANTITY,
    "rosettes": NUMBER,
    "note": TEXT,
}
_TASTED: dict[str, Schema] = {
    "attribute": TEXT,
    "scale": NUMBER,
    "marks": {"type": "array", "minItems": 1, "items": NUMBER},
    "code": _CODE,
}
_COMPARED: dict[str, Schema] = {
    "test": words(COMPARISONS),
    "against": NUMBER,
    "people": NUMBER,
    "right": NUMBER,
    "chose": NUMBER,
    "asked": TEXT,
}


def _list(
    fields: Iterable[str], descriptions: Mapping[str, str], shapes: Mapping[str, Schema], required: Iterable[str]
) -> Schema:
    return {"type": "array", "items": block(fields, descriptions, shapes, required)}


def _changed() -> Schema:
    ingredient = block(
        reading.CHANGED_INGREDIENT_FIELDS,
        about.INGREDIENT | {"add_at": of_trials.ADD_AT},
        ingredient_shapes() | {"replacements": named(_ANY_OBJECT, at_least=1), "add_at": _STEP},
        (),
    )
    step = block(STEP_FIELDS, about.STEP, step_shapes() | {"checkpoint": _ANY_OBJECT}, ())
    shapes: dict[str, Schema] = {
        "ingredients": {
            **named({"anyOf": [QUANTITY, words([NOT_MADE]), ingredient]}, at_least=0),
            "propertyNames": SHORT_NAME,
        },
        "steps": {
            "type": "object",
            "propertyNames": {"pattern": _STEP["pattern"]},
            "additionalProperties": {"anyOf": [words([NOT_MADE]), step]},
        },
    }
    return block(reading.CHANGED_FIELDS, of_trials.CHANGED, shapes, ())


def trial_schema_text() -> str:
    """The schema as the text of its file."""
    return json.dumps(trial_schema(), ensure_ascii=False, indent=2) + "\n"


if __name__ == "__main__":
    TRIAL_FILE.write_text(trial_schema_text(), encoding="utf-8")
