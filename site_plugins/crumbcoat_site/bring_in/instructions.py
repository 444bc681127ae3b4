"""The instructions of a recipe, in any of the shapes that schema.org allows -> sections with steps."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from crumbcoat_site.bring_in.found_recipe import FoundSection, FoundStep
from crumbcoat_site.bring_in.items import Item, addresses_of
from crumbcoat_site.bring_in.plain_texts import paragraphs, plain

MOST_STEPS = 200
_DEEPEST = 8
_LONG = 240
"""A text with more letters than this and no line breaks is cut into sentences (for easy reading; no source)."""

_NUMBERED = re.compile(
    r"^(?:step\s*)?[0-9]{1,2}\s*[.):]\s+|^step\s+[0-9]{1,2}\s*[-–—]?\s*|^[•‣▪●◦*–—-]\s+", re.IGNORECASE
)
_INSIDE = re.compile(r"(?<=[.!?)])\s+(?=(?:step\s*)?[0-9]{1,2}\s*[.):]\s+[A-Z])", re.IGNORECASE)
_SENTENCE = re.compile(r"(?<=[a-z0-9)°CF][.!?])\s+(?=[A-Z])")
_GOES_ON = re.compile(
    r"(?:it|they|this|that|these|the (?:mixture|frosting|buttercream|icing|cream|batter|dough)|you|do not|don['’]t|"
    r"note|be careful|if|once|at this point|there)\b",
    re.IGNORECASE,
)
_HEADING = re.compile(r"(?:for|to make|make) the [^.!?]{1,50}:?|[^.!?:]{2,50}:")


@dataclass(slots=True)
class _Open:
    title: str
    steps: list[FoundStep] = field(default_factory=list)
    tips: list[str] = field(default_factory=list)


def sections_of(values: "Iterable[str | Item]") -> tuple[FoundSection, ...]:
    """The sections of the instructions; what has no heading is one without a title."""
    found = [_Open("")]
    _read(values, found, set(), 0)
    full = [part for part in found if part.steps or part.tips]
    return tuple([FoundSection(title=part.title, steps=tuple(part.steps), tips=tuple(part.tips)) for part in full])


def _read(values: "Iterable[str | Item]", found: list[_Open], seen: set[Item], depth: int) -> None:
    values = _placed(list(_unseen(values, seen)))
    texts = [value for value in values if isinstance(value, str)]
    for value in values:
        if _is_full(found) or depth > _DEEPEST:
            return
        if isinstance(value, str):
            _read_text(value, found, is_alone=len(texts) == 1 and len(values) == 1)
        elif value.is_a("Recipe"):
            continue
        elif value.is_a("HowToSection"):
            found.append(_Open(_title(value)))
            _read(_inside(value), found, seen, depth + 1)
            found.append(_Open(""))
        elif value.is_a("HowToTip"):
            found[-1].tips += [text for text in [_text(value)] if text]
        elif value.is_a("HowToStep", "HowToDirection", "CreativeWork") or not _inside(value):
            _read_step(value, found, seen)
        else:
            _read(_inside(value), found, seen, depth + 1)


def _unseen(values: "Iterable[str | Item]", seen: set[Item]) -> "Iterator[str | Item]":
    """The texts, and each item once: a page may refer to one many times, also from inside it."""
    for value in values:
        if isinstance(value, str):
            yield value
        elif value not in seen:
            seen.add(value)
            yield value


def _is_full(found: list[_Open]) -> bool:
    return sum(len(part.steps) for part in found) >= MOST_STEPS


def _inside(value: Item) -> "list[str | Item]":
    """The values of a list."""
    return value.values("itemListElement", "step", "steps", "item")


def _placed(values: "list[str | Item]") -> "list[str | Item]":
    """The values by their positions, where all of them have one."""
    placed = [(one.values("position"), one) for one in values if isinstance(one, Item)]
    if placed and len(placed) == len(values) and all(place and str(place[0]).isdecimal() for place, _ in placed):
        return [one for _, one in sorted(placed, key=lambda pair: int(str(pair[0][0])[:9]))]
    return values


def _read_step(value: Item, found: list[_Open], seen: set[Item]) -> None:
    """A step; one that is a list of directions is a step for each."""
    inner = _inside(value)
    text = _text(value)
    if inner and not text:
        _read(inner, found, seen, _DEEPEST)
        return
    for one in inner:
        if isinstance(one, Item) and one.is_a("HowToTip"):
            found[-1].tips += [tip for tip in [_text(one)] if tip]
    title = plain(next((name for name in value.values("name") if isinstance(name, str)), ""))
    if not text and not title:
        return
    pictures = tuple(addresses_of(value.values("image")))
    shows = next((_title_of_picture(one) for one in value.values("image") if isinstance(one, Item)), "")
    lines = paragraphs(text) or (title,)
    for place, words in enumerate(lines):
        if _is_full(found):
            return
        own = title if place == 0 and title and not _says(words, title) else ""
        step = FoundStep(text=_unnumbered(words), title=own)
        found[-1].steps.append(step if place else replace(step, pictures=pictures, shows=shows))


def _title_of_picture(value: Item) -> str:
    texts = [text for text in value.values("caption", "description", "name") if isinstance(text, str)]
    return plain(texts[0])[:200] if texts else ""


def _says(words: str, title: str) -> bool:
    """Whether a title only repeats the beginning of the words, or is a number."""
    bare = title.rstrip(".… ").lower()
    return words.lower().startswith(bare) or bool(re.fullmatch(r"(?:step\s*)?[0-9]*", bare))


def _text(value: Item) -> str:
    texts = [text for text in value.values("text", "description") if isinstance(text, str)]
    return "\n".join(texts)


def _title(value: Item) -> str:
    return plain(next((name for name in value.values("name", "headline") if isinstance(name, str)), ""))[:120]


def _read_text(text: str, found: list[_Open], *, is_alone: bool) -> None:
    """A text: a step for each line; a single long one is cut at its numbers, or at its sentences."""
    lines = [part for line in paragraphs(text) for part in _INSIDE.split(line)]
    if is_alone and len(lines) == 1 and len(lines[0]) > _LONG:
        lines = list(_sentences(lines[0]))
    for line in lines:
        bare = _unnumbered(line)
        if _HEADING.fullmatch(bare) and len(lines) > 1:
            found.append(_Open(bare.rstrip(":")))
        elif bare and not _is_full(found):
            found[-1].steps.append(FoundStep(text=bare))


def _unnumbered(line: str) -> str:
    return _NUMBERED.sub("", line, count=1).strip()


def _sentences(text: str) -> Iterator[str]:
    """The sentences of a text; one that goes on about the same thing stays with the one before it."""
    parts = _SENTENCE.split(text)
    step = parts[0]
    for part in parts[1:]:
        if _GOES_ON.match(part):
            step = f"{step} {part}"
        else:
            yield step
            step = part
    yield step
