"""The reference of the recipe file, from the JSON Schema and the descriptions in it."""

from collections.abc import Iterator, Mapping
from typing import Any

from crumbcoat_site.recipe_cards.source import field_descriptions as about
from crumbcoat_site.recipe_cards.source.schema import recipe_schema
from crumbcoat_site.reference.markdown import page, table

INTRO = """
A recipe is a `.yaml` file anywhere below `docs_dir`; its path is its address on the site. Every value is text, so
amounts are written as people write them: `1 1/2 US cups, sifted`, `1,5 kg`, `½ tsp`. Fields marked * are required. A
file that cannot be used stops the build, and every problem of every file is reported with its place, what is wrong
and how to fix it.

An editor that knows JSON Schema completes and checks a file while you write. Copy `recipe.schema.json` into your site
and begin each recipe with the line `# yaml-language-server: $schema=recipe.schema.json`, with the path from the
recipe to the schema.
"""

SECTIONS = (
    ("The recipe", ()),
    ("author", ("properties", "author")),
    ("video", ("properties", "video")),
    ("yield", ("properties", "yield")),
    ("An ingredient", ("$defs", "ingredient")),
    ("A replacement", ("$defs", "replacement")),
    ("A composition", ("$defs", "composition")),
    ("A pack", ("$defs", "pack")),
    ("A stage", ("$defs", "stage")),
    ("A step", ("$defs", "step")),
    ("A checkpoint", ("$defs", "checkpoint")),
    ("A trouble of a checkpoint", ("$defs", "checkpoint", "properties", "troubles", "items")),
    ("Storage", ("$defs", "storage")),
    ("measured", ("properties", "measured")),
    ("tried", ("properties", "tried")),
    ("A decoration", ("properties", "decorations", "items")),
    ("An entry of asked", ("properties", "asked", "items")),
    ("A claim", ("properties", "claims", "items")),
    ("notebook", ("properties", "notebook")),
    ("A picture: `cover`, and `photo` of a step", ("$defs", "photo")),
)
"""Headings, and the path in the schema of the block of fields that each is about."""

MARKS = """
## Emphasis and links

`*emphasis*`, `**strong**`, `` `code` `` and `[a link](https://example.org/)` are written as in Markdown. A link leads
to an address that begins with `https://`, `http://` or `mailto:`, or by a path from the card's page to another one,
such as `../custard/` beside it. A backslash takes the meaning away from a sign: `\\*`. Everything else, HTML too, is
shown as it is written. Search gets the words without the marks. They count in these fields:
"""

CUPS = """
## Kept back for a rescue

What goes in only if something went wrong, or only on demand, is `kept_back`: `kept_back: {rescue: 60 g}` at the
ingredient, and `add: cream/rescue` at the trouble that it is for. It is extra to the `amount`, and not in the batch:
mass, fat, portions and cost are those without it. The card shows it at the ingredient and at the checkpoint, a
class buys it and lays it out, and the label names its allergens. A reader who ticks "it went in" has it counted
everywhere.

## Drafts

`draft: yes`, or a date under `published` that is to come, keeps the card and its pictures out of the built site; a
mistake in a file with `draft: yes` does not stop a build. `crumbcoat serve` shows the card, marked as a draft. The
date is that of the build in UTC, or of `SOURCE_DATE_EPOCH`.

## A card that has moved

`moved_from` lists the addresses that a card had before, as paths of the site: `[2019/05/lemon-cream/, lemon.html]`. At
each of them a page leads on to the card, with what a link to it carries, another one to its handout, and card.json
is there as well. The file `_redirects` in the site lists them for hosts that read one, unless the site has such a file
of its own. An address where something else is now is an error, and so is a file other than a page, such as
`robots.txt`, or one that steers a host, such as `_headers`.

## Cups and spoons

A plain "cup" or "tbsp" is that of the site's `region` (an option of `recipe_cards` in `mkdocs.yml`), in a recipe file
and in what a reader types, and the column beside the grams shows the same ones, by their full names:

| `region` | a plain `cup` | `tbsp` | `tsp` | `fl oz`, `pint` | `quart` |
| --- | --- | --- | --- | --- | --- |
| `UK` | `metric cup`, 250 mL | `metric tbsp`, 15 mL | `metric tsp`, 5 mL | imperial | refused |
| `EU` | `metric cup`, 250 mL | `metric tbsp`, 15 mL | `metric tsp`, 5 mL | refused | refused |
| `US` | `US cup`, 237 mL | `US tbsp`, 14.8 mL | `US tsp`, 4.9 mL | US | US |
| none | refused | refused | `US tsp`, 4.9 mL | refused | refused |

To mean another one, say so: `1 US cup` on a site for the UK, `2 AU tbsp` (20 mL each) anywhere. A measure that is
refused is refused with those that it can be. Which one is usual where is common practice, without a source.

In `measures`, where you say what a measure weighs, each has its full name.

What a measure weighs is that ingredient's own weight, never a common density.
[Ingredients and their measures](kinds.md) lists which measures each kind has. A measure that a kind has no weight for
is an error; give grams instead.

## Pictures

Put the files of your camera beside the recipe: JPEG, PNG, WebP, AVIF, TIFF, GIF or HEIC, with endings in small or
large letters. A picture is found by its name, or named in the recipe:

| file beside `veil.yaml` | its place |
| --- | --- |
| `veil.jpg` | the cover |
| `veil.2-1.jpg` | stage 2, step 1 |
| `veil.2-1b.jpg` | the same step, a second picture; after `z` come `za`, `zb` and so on |
| `IMG_2041.HEIC` | where the recipe says `photo: {file: IMG_2041.HEIC}`, or `cover: {file: IMG_2041.HEIC}` |

A step's `photo` may be no more than what its picture must show. Until the picture is there, the page shows a drawing
in its place, and `crumbcoat shot-list` lists it for the day of the photographs (`--page shots.html` to print).
Several are a list.

    photo:
      - {file: IMG_2041.HEIC, shows: A soft peak that bends over, credit: Ana Example}
      - {file: IMG_2043.HEIC, alt: The peak upside down, caption: Too stiff}

The site gets each picture upright, in up to five widths, never wider than it is, as AVIF, WebP and JPEG, and a browser
takes the smallest that fits. It gets no metadata: no place, no date, no camera, no name. That is true of every other
picture below `docs_dir` too, which keeps its name and format; of a JPEG, as cameras write it, the longer side has at
most 2400 pixels. What was made is kept in the cache, so that only new
pictures take time. A picture that cannot be read, or has more than 120 megapixels, is reported like a mistake in a
recipe; one that nothing shows is a warning.

Each recipe also has a social picture, for those who share its address: title, fat, and the cover or a drawing. Its
address is in the page if `site_url` is set in `mkdocs.yml`.
"""


OWN = """
## Ingredients of the site

The file `ingredients.yaml` in `docs_dir` lists ingredients that any recipe of the site may use as a `kind`, each under
a short name of your own. It is not published. A mistake in it is reported with its line, and a change makes the
recipes that use it again. `ingredients.schema.json` is its schema for editors.

    our_vanilla_paste:
      name: vanilla paste
      pack: {per: 100 g, rules: EU, energy: 252 kcal, fat: 0.5 g, carbohydrate: 61 g, sugars: 55 g, protein: 0.6 g}
      measures: {US tsp: 6 g, jar: 90 g}
      allergens: []
      source: The maker's label of May 2026

A recipe then has `paste: {kind: our_vanilla_paste, amount: 2 US tsp}`. What the recipe itself states comes first.
"""

TABLES = """
## Foods of other tables

`kind: usda 01139`, `kind: ciqual 19584` and `kind: cofid 12-490` are rows of three public tables that come with
Crumbcoat: those of the US Department of Agriculture (Standard Reference, Release 28), of the French agency Anses
(Ciqual 2025) and of Public Health England (CoFID 2021). `crumbcoat foods mascarpone` lists the built-in kinds of that
name, then the foods of the tables, in English or French, with their numbers. A row that is in the ingredient table too
is the kind of that table. What a table does not print is not known, and has bounds on the card. State the `allergens`:
the tables do not.
"""


def recipe_file_page() -> str:
    """The page as Markdown."""
    schema = recipe_schema()
    blocks = [part for title, path in SECTIONS for part in section(title, schema, path)]
    return page("The recipe file", "Every field of a recipe file", INTRO, *blocks, MARKS, _prose_list(), CUPS)


def _prose_list() -> str:
    fields = [f"`{field}`" for fields in about.PROSE.values() for field in fields]
    return f"{', '.join(fields[:-1])} and {fields[-1]}."


def section(title: str, schema: Mapping[str, Any], path: tuple[str, ...]) -> Iterator[str]:
    """A heading, and the table of the fields of a block in a schema."""
    block = _at(schema, path)
    yield f"## {title}"
    required = block.get("required", ())
    rows = [
        (f"`{name}`{' *' if name in required else ''}", _description(field))
        for name, field in block["properties"].items()
    ]
    yield table(("field", "what it holds"), rows)


def _description(field: Mapping[str, Any]) -> str:
    words = next((shape["enum"] for shape in (field, *field.get("anyOf", ())) if "enum" in shape), ())
    listed = f" One of {', '.join(f'`{word}`' for word in words)}." if 2 < len(words) < 30 else ""
    return f"{field['description']}{listed}"


def _at(schema: Mapping[str, Any], path: tuple[str, ...]) -> Mapping[str, Any]:
    block: Mapping[str, Any] = schema
    for key in path:
        block = block[key]
    return block
