"""The parts that the JSON Schema of a recipe file is built from: texts, numbers, amounts, and blocks of fields."""

from collections.abc import Iterable, Mapping

from crumbcoat_calc.foods.allergens import allergen_words

Schema = dict[str, object]

_NAME = "[a-z][a-z0-9_-]*"
NUMBER_START = r"^\s*[0-9.¼½¾⅓⅔⅛⅜⅝⅞]"
_BARE = ["string", "number"]
"""An editor reads a bare 12 as a number, and the reader of recipe files reads it as a text."""

TEXT: Schema = {"type": ["string", "number", "boolean"], "pattern": r"\S"}
"""Recipe files are read as text, so a bare 12 or true is a text too."""

TEXTS: Schema = {"type": "array", "items": TEXT}
YES_NO: Schema = {"anyOf": [{"enum": ["yes", "no"]}, {"type": "string", "pattern": r"^\s*([Yy][Ee][Ss]|[Nn][Oo])\s*$"}]}
NUMBER: Schema = {"type": _BARE, "pattern": NUMBER_START}
SHORT_NAME: Schema = {"type": "string", "pattern": rf"^\s*{_NAME}\s*$", "maxLength": 60}
QUANTITY: Schema = {"type": "string", "pattern": NUMBER_START}
TEMPERATURE: Schema = {"type": "string", "pattern": r"^\s*[-−–]?\s*[0-9.¼½¾⅓⅔⅛⅜⅝⅞]"}
USE: Schema = {"type": "string", "pattern": rf"^\s*{_NAME}\s*(/\s*{_NAME}\s*)?$"}
ALLERGENS: Schema = {"type": "array", "items": {"enum": list(allergen_words())}}
DATE: Schema = {"type": "string", "pattern": r"^\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\s*$"}


def block(
    fields: Iterable[str], descriptions: Mapping[str, str], shapes: Mapping[str, Schema], required: Iterable[str]
) -> Schema:
    """A block of fields, each with its description and its shape."""
    return {
        "type": "object",
        "properties": {field: {"description": descriptions[field], **shapes[field]} for field in fields},
        "required": list(required),
        "additionalProperties": False,
    }


def named(entry: Schema, at_least: int) -> Schema:
    """Entries under short names that the writer chooses."""
    return {
        "type": "object",
        "minProperties": at_least,
        "propertyNames": SHORT_NAME,
        "additionalProperties": entry,
    }
