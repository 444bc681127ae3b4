"""Who wrote a recipe, and its video, in the JSON Schema of a recipe file."""

from crumbcoat_calc.recipe.credits import AUTHOR_FIELDS, VIDEO_FIELDS

from crumbcoat_site.recipe_cards.source import field_descriptions as about
from crumbcoat_site.recipe_cards.source.schema_shapes import DATE, QUANTITY, TEXT, Schema, block

ADDRESS: Schema = {"type": "string", "pattern": r"^\s*[Hh][Tt][Tt][Pp][Ss]?://[^\s/?#]\S*\s*$"}


def author() -> Schema:
    """A name by itself, or a block that says whose it is."""
    fields = block(AUTHOR_FIELDS, about.AUTHOR, {"person": TEXT, "organization": TEXT, "url": ADDRESS}, [])
    either: list[Schema] = [{"required": [kind]} for kind in AUTHOR_FIELDS[:2]]
    return {
        **fields,
        "type": ["object", "string", "number", "boolean"],
        "pattern": TEXT["pattern"],
        "if": {"type": "object"},
        "then": {"oneOf": either},
    }


def video() -> Schema:
    """The address of a video, and what is known of it."""
    shapes: dict[str, Schema] = {
        "title": TEXT,
        "url": ADDRESS,
        "published": DATE,
        "length": QUANTITY,
        "picture": ADDRESS,
    }
    return block(VIDEO_FIELDS, about.VIDEO, shapes, ["title", "url", "published"])
