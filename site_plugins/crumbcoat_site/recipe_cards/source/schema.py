"""The recipe format as a JSON Schema, with which an editor completes and checks a recipe file while you write.

It is built from the fields, the words and the ingredient table that the reader of recipe files uses, and accepts every
file that the reader accepts. Only the reader checks what depends on several fields, such as portions that add up, and
whether a kind has the name that is written: the schema lists the keys, for completion, and lets other names pass.

    python -m crumbcoat_site.recipe_cards.source.schema      writes it and ingredients.schema.json
"""

import json
from collections.abc import Callable, Mapping
from pathlib import Path

from crumbcoat_calc.foods.components import FIELD_NAMES, unit_of
from crumbcoat_calc.foods.pack import NUTRIENTS, PACK_FIELDS, RULES
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.recipe import ingredients, reading, stages
from crumbcoat_calc.recipe.claims import CLAIMS
from crumbcoat_calc.recipe.model import FAMILIES, PLACES, SPEEDS
from crumbcoat_calc.recipe.other_words import ALSO_PLACES, ALSO_SPEEDS

from crumbcoat_site.recipe_cards.source import field_descriptions as about
from crumbcoat_site.recipe_cards.source.credits_schema import author, video
from crumbcoat_site.recipe_cards.source.schema_shapes import (
    ADDITIONS,
    ALLERGENS,
    DATE,
    MEASURES,
    NUMBER,
    NUMBER_START,
    PHOTO,
    QUANTITY,
    SHORT_NAME,
    TEMPERATURE,
    TEXT,
    TEXTS,
    TEXTS_AT_LEAST_ONE,
    USES,
    YES_NO,
    Schema,
    block,
    named,
    photo_shape,
    words,
)  # fmt: skip

FILE = Path(__file__).parents[4] / "recipes" / "recipe.schema.json"
INGREDIENTS_FILE = FILE.with_name("ingredients.schema.json")


_OF_ANY: dict[str, Schema] = {
    "kind": {"$ref": "#/$defs/kind"},
    "composition": {"$ref": "#/$defs/composition"},
    "pack": {"$ref": "#/$defs/pack"},
    "density": QUANTITY,
    "measures": MEASURES,
    "source": TEXT,
    "name": TEXT,
    "made_of": TEXTS_AT_LEAST_ONE,
    "allergens": ALLERGENS,
}
"""What is said of an ingredient, of what replaces it, and of a site's own one alike."""


def recipe_schema() -> Schema:
    """The JSON Schema, draft 2020-12, of a recipe file."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Recipe file",
        "description": "One frosting or filling: one batch of it as published.",
        **block(
            reading.RECIPE_FIELDS,
            about.RECIPE,
            {
                "title": TEXT,
                "summary": TEXT,
                "author": author(),
                "published": DATE,
                "draft": YES_NO,
                "family": words(FAMILIES),
                "keywords": TEXTS,
                "yield": _yield(),
                "ingredients": named({"$ref": "#/$defs/ingredient"}, at_least=1),
                "stages": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/stage"}},
                "storage": {"type": "array", "items": {"$ref": "#/$defs/storage"}},
                "made": NUMBER,
                "measured": _measured(),
                "tried": block(reading.TRIED_FIELDS, about.TRIED, {"from": NUMBER, "to": NUMBER}, ("from", "to")),
                **dict.fromkeys(("notes", "tips", "equipment"), TEXTS),
                "asked": {"type": "array", "items": _asked()},
                "may_contain": ALLERGENS,
                "decorations": {"type": "array", "items": _decoration()},
                "claims": {"type": "array", "items": _claim()},
                "notebook": _notebook(),
                "updated": DATE,
                "cuisine": TEXT,
                "video": video(),
                "moved_from": TEXTS,
                "cover": PHOTO,
            },
            ("title", "summary", "author", "family", "yield", "ingredients", "stages"),
        ),
        "$defs": {
            **definitions(),
            "ingredient": _ingredient(),
            "replacement": _replacement(),
            "stage": _stage(),
            "step": _step(),
            "checkpoint": _checkpoint(),
            "storage": _storage(),
            "photo": photo_shape(),
        },
    }


def ingredients_schema() -> Schema:
    """The JSON Schema of the list of a site's own ingredients."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Ingredients of a site",
        "description": "Ingredients that any recipe of the site may use as a kind, by the name that it writes.",
        **named(_shared(), at_least=0),
        "$defs": definitions(),
    }


def definitions() -> dict[str, Schema]:
    """What the shapes of an ingredient refer to."""
    return {"kind": _kind(), "composition": _composition(), "pack": _pack()}


def _kind() -> Schema:
    return {"anyOf": [{"enum": sorted(foods())}, TEXT]}


def _either_kind_or_own(shape: Schema) -> Schema:
    own = [{"required": [what, "name"]} for what in ("composition", "pack")]
    return {**shape, "anyOf": [{"required": ["kind"]}, *own]}


def _composition() -> Schema:
    units = {"g": r"(%|g)", "mg": "mg", "ug": "(µg|μg|ug)"}
    properties: Schema = {
        field: {
            "description": about.COMPOSITION[field],
            "type": "string",
            "pattern": rf"{NUMBER_START}.*{units[unit_of(component)]}\s*$",
        }
        for field, component in FIELD_NAMES.items()
    }
    return {"type": "object", "minProperties": 1, "properties": properties, "additionalProperties": False}


def _pack() -> Schema:
    figure: Schema = {"type": "string", "pattern": r"[0-9].*g\s*$"}
    shapes: dict[str, Schema] = {
        "per": QUANTITY,
        "rules": words(RULES),
        "energy": {"type": "string", "pattern": r"[0-9]"},
        **dict.fromkeys(NUTRIENTS, figure),
    }
    return {**block(PACK_FIELDS, about.PACK, shapes, ["per", "rules"]), "minProperties": 3}


def ingredient_shapes() -> dict[str, Schema]:
    """The shape of each field of an ingredient, except what replaces it."""
    return {
        **_OF_ANY,
        "amount": QUANTITY,
        "role": TEXT,
        "preparation": TEXT,
        "temperature": TEMPERATURE,
        "optional": YES_NO,
        "portions": named(QUANTITY, at_least=2),
        "kept_back": named(QUANTITY, at_least=1),
    }


def _ingredient() -> Schema:
    shapes = ingredient_shapes() | {"replacements": named({"$ref": "#/$defs/replacement"}, at_least=1)}
    fields = block(ingredients.INGREDIENT_FIELDS, about.INGREDIENT, shapes, [])
    needs_amount: Schema = {"if": {"not": {"required": ["kept_back"]}}, "then": {"required": ["amount"]}}
    return {**_either_kind_or_own(fields), **needs_amount}


def _shared() -> Schema:
    return _either_kind_or_own(block(ingredients.SHARED_FIELDS, about.SHARED, _OF_ANY, ["name"]))


def _replacement() -> Schema:
    shapes: dict[str, Schema] = {
        **_OF_ANY,
        "grams_per_gram": NUMBER,
        "note": TEXT,
    }
    return _either_kind_or_own(block(ingredients.REPLACEMENT_FIELDS, about.REPLACEMENT, shapes, []))


def _decoration() -> Schema:
    return block(reading.DECORATION_FIELDS, about.DECORATION, {"what": TEXT, "eaten": YES_NO}, ["what"])


def _asked() -> Schema:
    shapes: dict[str, Schema] = {"question": TEXT, "answer": TEXT}
    return block(reading.ASKED_FIELDS, about.ASKED, shapes, ["question", "answer"])


def _claim() -> Schema:
    shapes: dict[str, Schema] = {"claim": words(CLAIMS), "ground": TEXT}
    return block(reading.CLAIM_FIELDS, about.CLAIM, shapes, ["claim", "ground"])


def _notebook() -> Schema:
    shapes: dict[str, Schema] = {
        "show": words(reading.SHOWN_TO),
        "note": TEXT,
        "map": {"type": "array", "minItems": 2, "maxItems": 2, "items": SHORT_NAME},
        "beside": {"type": "array", "items": TEXT},
    }
    fields = block(reading.NOTEBOOK_FIELDS, about.NOTEBOOK, shapes, [])
    return {**fields, "type": ["object", "string"], "pattern": r"(?i)^\s*(private|public)\s*$"}


def _stage() -> Schema:
    shapes: dict[str, Schema] = {
        "title": TEXT,
        "makes": SHORT_NAME,
        "shares": named(NUMBER, at_least=2),
        "steps": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/step"}},
    }
    fields = block(stages.STAGE_FIELDS, about.STAGE, shapes, ["title", "steps"])
    return {**fields, "dependentRequired": {"shares": ["makes"]}}


def step_shapes() -> dict[str, Schema]:
    """The shape of each field of a step, except its checkpoint."""
    return {
        "do": TEXT,
        "add": USES,
        "additions": ADDITIONS,
        "tool": TEXT,
        "speed": words(SPEEDS, ALSO_SPEEDS),
        "time": QUANTITY,
        "look_for": TEXT,
        "why": TEXT,
        "photo": {"anyOf": [PHOTO, {"type": "array", "minItems": 1, "items": PHOTO}]},
        "optional": YES_NO,
        "water_lost": QUANTITY,
        "heat_to": TEMPERATURE,
        "cool_to": TEMPERATURE,
        "unattended": YES_NO,
        "may_wait": TEXT,
        "when_scaled": TEXT,
    }


def _step() -> Schema:
    return block(stages.STEP_FIELDS, about.STEP, step_shapes() | {"checkpoint": {"$ref": "#/$defs/checkpoint"}}, ["do"])


def _checkpoint() -> Schema:
    trouble = block(
        stages.TROUBLE_FIELDS, about.TROUBLE, {"sign": TEXT, "remedy": TEXT, "add": USES}, ["sign", "remedy"]
    )
    shapes: dict[str, Schema] = {
        "passes": TEXTS_AT_LEAST_ONE,
        "troubles": {"type": "array", "minItems": 1, "items": trouble},
    }
    return block(stages.CHECKPOINT_FIELDS, about.CHECKPOINT, shapes, ["passes", "troubles"])


def _storage() -> Schema:
    shapes: dict[str, Schema] = {"where": words(PLACES, ALSO_PLACES), "up_to": QUANTITY, "note": TEXT}
    return block(reading.STORAGE_FIELDS, about.STORAGE, shapes, ["where", "up_to"])


def _yield() -> Schema:
    fields = block(
        reading.YIELD_FIELDS, about.YIELD, {"portions": NUMBER, "of": TEXT, "people": NUMBER}, ["portions", "of"]
    )
    return {**fields, "type": ["object", "string"], "pattern": r"^\s*[0-9]+\s+[^0-9\s]"}


def _measured() -> Schema:
    shapes: dict[str, Schema] = {"density": QUANTITY, "ph": NUMBER, "water_activity": NUMBER}
    return block(reading.MEASURED_FIELDS, about.MEASURED, shapes, [])


SCHEMAS: Mapping[Path, Callable[[], Schema]] = {FILE: recipe_schema, INGREDIENTS_FILE: ingredients_schema}
"""Each schema by its file."""


def schema_text(file: Path = FILE) -> str:
    """A schema as the text of its file."""
    return json.dumps(SCHEMAS[file](), ensure_ascii=False, indent=2) + "\n"


if __name__ == "__main__":
    for file in SCHEMAS:
        file.write_text(schema_text(file), encoding="utf-8")
