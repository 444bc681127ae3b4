"""The reference of the trial file, from the JSON Schema and the descriptions in it."""

from crumbcoat_site.recipe_cards.source.trial_schema import trial_schema
from crumbcoat_site.reference.markdown import page
from crumbcoat_site.reference.recipe_file import section

INTRO = """
A trial is one batch of a recipe as it was made. It is a `.yaml` file in a folder beside the recipe that has the name of
its file with `.trials` at the end: the trials of `lemon-cream.yaml` are in `lemon-cream.trials`. `crumbcoat new-trial`
begins one, `crumbcoat check` finds every problem of it. Only what differs is written, and nothing that can be worked
out. Every value is text, as in a recipe file. Fields marked * are required. Trials are published only
with a [notebook](trials.md) that you make public.

    number: 3
    date: 2026-11-24
    from: 2
    aim: Does it still pipe with less sugar?
    changed:
      ingredients: {sugar: 130 g}
      steps: {2.1: {time: 4 min}}
    readings:
      - {at: 1.3, temperature: 61 °C}
      - {temperature: 20 °C, cup: US cup, cup_weighs: 205 g}
    tests:
      - {test: keeping, where: in the refrigerator, temperature: 4 °C, time: 3 days, weeping: 2 mm, did: wept}
    did: held
    verdict: go on from here
    because: It pipes, and weeps on the third day.

A new amount keeps the shares of its portions. A step that is left out takes what it adds with it, and the others keep
their numbers. What was measured on the recipe does not count for a trial: only its own readings do.

An earlier version of the recipe is kept beside the trials as `v1.yaml`, `v2.yaml` and so on; a trial with `from: v1`
changes that one. `trial.schema.json` is the schema for editors.
"""

SECTIONS = (
    ("The trial", ()),
    ("changed", ("properties", "changed")),
    ("A reading", ("properties", "readings", "items")),
    ("An entry of mixing", ("properties", "mixing", "items")),
    ("An entry of chilling", ("properties", "chilling", "items")),
    ("An entry of seen", ("properties", "seen", "items")),
    ("A test", ("properties", "tests", "items")),
    ("An entry of tasted", ("properties", "tasted", "items")),
    ("An entry of compared", ("properties", "compared", "items")),
    ("A picture", ("properties", "pictures", "items")),
)
"""Headings, and the path in the schema of the block of fields that each is about."""


def trial_file_page() -> str:
    """The page as Markdown."""
    schema = trial_schema()
    blocks = [part for title, path in SECTIONS for part in section(title, schema, path)]
    return page("The trial file", "Every field of a trial file", INTRO, *blocks)
