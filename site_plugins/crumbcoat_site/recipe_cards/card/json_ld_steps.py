"""The steps of a recipe in the terms of schema.org: what to do, how warm, how long, with what, and what to look for."""

import re

from crumbcoat_calc.recipe.model import Step, Use
from crumbcoat_calc.values.display import celsius_text, duration_text, iso_duration
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_calc.values.region import text_in

from crumbcoat_site.recipe_cards.build.addresses import Place
from crumbcoat_site.recipe_cards.card.card import Card
from crumbcoat_site.recipe_cards.card.json_ld_lines import named_amount, use_amount
from crumbcoat_site.recipe_cards.pictures.ready import whole_place

_LONGEST_NAME = 70
_SENTENCE = re.compile(r"(?<=[.!?])\s")
_CLAUSE = re.compile(r"[,;:]\s| and then | until ")


def instructions(card: Card, place: Place, region: str | None) -> list[dict[str, object]]:
    """The stages as sections, each with its steps."""
    return [
        {
            "@type": "HowToSection",
            "name": stage.title,
            "itemListElement": [
                _step(card, place, region, f"{number}-{position}", step) for position, step in enumerate(stage.steps, 1)
            ],
        }
        for number, stage in enumerate(card.recipe.stages, 1)
    ]


def step_name(do: str) -> str:
    """A few words for a step: its first sentence, or as many whole clauses of it as are short enough.

    >>> step_name("Whisk both powders into the milk, then warm it gently, whisking along the bottom of the pan. Wait.")
    'Whisk both powders into the milk, then warm it gently'
    """
    sentence = _SENTENCE.split(do)[0].rstrip(".")
    ends = [found.start() for found in _CLAUSE.finditer(sentence) if found.start() <= _LONGEST_NAME]
    return sentence if len(sentence) <= _LONGEST_NAME or not ends else sentence[: ends[-1]]


def _step(card: Card, place: Place, region: str | None, number: str, step: Step) -> dict[str, object]:
    do = text_in(region, plain_text(step.do))
    entry: dict[str, object] = {
        "@type": "HowToStep",
        "name": step_name(do),
        "text": do,
        "url": place.part(f"step-{number}"),
    }
    images = [place.file(whole_place(photo.shown)) for photo in card.photos(number) if photo.shown]
    if images:
        entry["image"] = images if len(images) > 1 else images[0]
    details = [found for found in (_direction(card, region, step), _tip(region, step)) if found]
    return entry | ({"itemListElement": details} if details else {})


def _direction(card: Card, region: str | None, step: Step) -> dict[str, object] | None:
    """What programs can use of a step, with the words for it; None where a step says no more than its text."""
    words = [
        f"heat to {celsius_text(step.heat_to_c)}" if step.heat_to_c is not None else "",
        f"cool to {celsius_text(step.cool_to_c)}" if step.cool_to_c is not None else "",
        f"{step.speed} speed" if step.speed and step.speed != "by hand" else step.speed or "",
        duration_text(step.time.shortest_s, step.time.longest_s) if step.time else "",
    ]
    said = [word for word in words if word]
    if not said:
        said = [f"add {card.names_in(step)}"] if step.uses else [f"use {step.tool}"] if step.tool else []
    if not said:
        return None
    text = ", ".join(said)
    found: dict[str, object] = {"@type": "HowToDirection", "text": text_in(region, f"{text[0].upper()}{text[1:]}.")}
    if step.time:
        found["totalTime" if step.unattended else "performTime"] = iso_duration(step.time.longest_s)
    if step.uses:
        found["supply"] = [_supply(card, region, use) for use in step.uses]
    return found | ({"tool": step.tool} if step.tool else {})


def _supply(card: Card, region: str | None, use: Use) -> str:
    return text_in(region, named_amount(use_amount(card, use) or "", card.use_name(use)))


def _tip(region: str | None, step: Step) -> dict[str, object] | None:
    return {"@type": "HowToTip", "text": text_in(region, plain_text(step.look_for))} if step.look_for else None
