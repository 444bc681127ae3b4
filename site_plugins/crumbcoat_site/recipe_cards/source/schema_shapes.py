"""The parts that the JSON Schema of a recipe file is built from: texts, numbers, amounts, and blocks of fields."""

import re
from collections.abc import Iterable, Mapping

from crumbcoat_calc.foods.allergens import allergen_words, written_words
from crumbcoat_calc.recipe.photo import PHOTO_FIELDS

from crumbcoat_site.recipe_cards.source import field_descriptions as about

Schema = dict[str, object]

_NAME = r"[A-Za-z][A-Za-z0-9_ -]*"
_DIGIT = r"([0-9.,]|[^\x00-\x7f−–])"
"""What a number begins with: what is beyond ASCII may be a fraction or a digit of another script."""
NUMBER_START = rf"^\s*{_DIGIT}"
_BARE = ["string", "number"]
"""An editor reads a bare 12 as a number, and the reader of recipe files reads it as a text."""

TEXT: Schema = {"type": ["string", "number", "boolean"], "pattern": r"\S"}
"""Recipe files are read as text, so a bare 12 or true is a text too."""

TEXTS: Schema = {**TEXT, "type": ["array", "string", "number", "boolean"], "items": TEXT}
"""A list of texts, or one of them by itself."""
TEXTS_AT_LEAST_ONE: Schema = {**TEXTS, "minItems": 1}
NUMBER: Schema = {"type": _BARE, "pattern": NUMBER_START}
SHORT_NAME: Schema = {"type": "string", "pattern": rf"^\s*{_NAME}\s*$", "maxLength": 60}
QUANTITY: Schema = {"type": "string", "pattern": NUMBER_START}
TEMPERATURE: Schema = {"type": "string", "pattern": rf"^\s*[-−–]?\s*{_DIGIT}"}
MEASURES: Schema = {"type": "object", "minProperties": 1, "additionalProperties": QUANTITY}
USE: Schema = {"type": "string", "pattern": rf"^\s*{_NAME}\s*(/\s*{_NAME}\s*)?$"}
PHOTO: Schema = {"$ref": "#/$defs/photo"}
DATE: Schema = {"type": "string", "pattern": r"^\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\s*$"}


def words(listed: Iterable[str], also: Iterable[str] = ()) -> Schema:
    """One of the listed words, which an editor offers; the reader takes them in capitals and with other hyphens too."""
    listed = list(listed)
    return {"anyOf": [{"enum": listed}, _in_any_case((*listed, *also))]}


def _in_any_case(written: Iterable[str]) -> Schema:
    return {"type": "string", "pattern": rf"^\s*({'|'.join([_any_case(word) for word in written])})\s*$"}


def _any_case(word: str) -> str:
    return "".join(
        [
            r"[\s_-]+" if sign in " -" else f"[{sign.upper()}{sign.lower()}]" if sign.isalpha() else re.escape(sign)
            for sign in word
        ]
    )


YES_NO: Schema = {"anyOf": [{"enum": ["yes", "no"]}, {"type": "boolean"}, _in_any_case(("yes", "no", "true", "false"))]}
USES: Schema = {**USE, "type": ["string", "array"], "minItems": 1, "items": USE}
ADDITIONS: Schema = {
    **NUMBER,
    "type": ["string", "number", "object"],
    "propertyNames": {"pattern": USE["pattern"]},
    "additionalProperties": NUMBER,
}
ALLERGENS: Schema = {
    **_in_any_case((*allergen_words(), *written_words())),
    "type": ["array", "string"],
    "items": words(allergen_words(), written_words()),
}


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


def photo_shape() -> Schema:
    """The shape of a picture: a block, or in one text what it must show."""
    shapes: dict[str, Schema] = dict.fromkeys(PHOTO_FIELDS, TEXT)
    fields = block(PHOTO_FIELDS, about.PHOTO, shapes, [])
    return {**fields, **TEXT, "type": ["object", "string", "number", "boolean"]}
