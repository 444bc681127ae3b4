"""An item of the type Recipe -> what a page says of the recipe."""

import re
from collections.abc import Iterable, Iterator
from datetime import datetime

from crumbcoat_calc.values.display import duration_text

from crumbcoat_site.bring_in.durations import seconds_of
from crumbcoat_site.bring_in.found_recipe import FoundAuthor, FoundRecipe
from crumbcoat_site.bring_in.instructions import MOST_STEPS, sections_of
from crumbcoat_site.bring_in.items import Item, addresses_of, everything_in
from crumbcoat_site.bring_in.plain_texts import one_line, paragraphs, plain

_PLACED = frozenset((
    "name", "headline", "description", "author", "creator", "datePublished", "dateCreated", "dateModified",
    "recipeYield", "yield", "recipeIngredient", "ingredients", "recipeInstructions", "instructions", "step", "steps",
    "keywords", "recipeCategory", "recipeCuisine", "image", "url", "mainEntityOfPage", "inLanguage", "isPartOf",
    "potentialAction",
))  # fmt: skip
"""Properties that have a place in a draft, or that only say where the item is in its page."""

_MOST_LINES = 200
_LONGEST_OTHER = 2000
_MOST_OTHERS = 200
_IN_WORDS = ("%B %d, %Y", "%b %d, %Y", "%d %B %Y", "%d %b %Y")
_WEB = re.compile(r"https?://[^\s/?#\"'<>\\]+\S{0,300}", re.IGNORECASE)
_DATE = re.compile(r"(\d{4}-\d{2}-\d{2})(?:$|[T ])")


def recipes_in(items: Iterable[Item]) -> list[Item]:
    """The recipes among the items of a page, wherever they are."""
    return [item for item in everything_in(items) if item.is_a("Recipe")]


def found_recipe(item: Item, syntax: str, page_title: str, page_address: str, language: str) -> FoundRecipe:
    """What an item says, with what the page around it says where the item says nothing.

    Args:
        syntax: how the page carries it, for the report.
    """
    published, updated = _date(item, "datePublished", "dateCreated"), _date(item, "dateModified")
    video = _video(item)
    others = [(name, text) for name, text in _others(item) if not (video and name == "video")]
    lines = list(_lines(item))
    sections = sections_of(item.values("recipeInstructions", "instructions", "step", "steps"))
    if len(lines) > _MOST_LINES:
        others.append(("recipeIngredient", f"{len(lines) - _MOST_LINES} more lines are left out"))
    if sum(len(section.steps) for section in sections) >= MOST_STEPS:
        others.append(("recipeInstructions", f"only the first {MOST_STEPS} steps are here"))
    for name, day in (("datePublished", published), ("dateModified", updated)):
        written = texts_of(item, name)
        if written and not day:
            others.append((name, written[0][:_LONGEST_OTHER]))
    return FoundRecipe(
        title=next(iter(texts_of(item, "name", "headline")), page_title)[:200],
        summary="\n".join(line for text in texts_of(item, "description") for line in paragraphs(text)),
        authors=tuple(dict.fromkeys(_authors(item))),
        published=published,
        updated=updated,
        cuisine=", ".join(texts_of(item, "recipeCuisine")),
        yields=tuple(dict.fromkeys(texts_of(item, "recipeYield", "yield"))),
        lines=tuple(lines[:_MOST_LINES]),
        sections=sections,
        keywords=tuple(_keywords(item)),
        category=", ".join(texts_of(item, "recipeCategory")),
        pictures=tuple(dict.fromkeys(addresses_of(item.values("image")))),
        addresses=tuple(
            dict.fromkeys([*addresses_of(item.values("url")), *_pages(item), *_own(one_line(page_address))])
        ),
        language=next(iter(texts_of(item, "inLanguage")), language),
        syntax=syntax,
        others=tuple(others),
        video=tuple(video.items()),
    )


def _date(item: Item, *names: str) -> str:
    """The first date of a property; empty for what is not one, such as a month without a day."""
    for text in texts_of(item, *names):
        found = _DATE.match(text)
        for written, pattern in ((found[1] if found else "", "%Y-%m-%d"), *((text, pattern) for pattern in _IN_WORDS)):
            try:
                return datetime.strptime(written, pattern).date().isoformat()
            except ValueError:
                continue
    return ""


def _video(item: Item) -> dict[str, str]:
    """A video as a recipe file has it; nothing where its name, its address or its date is not there."""
    for value in item.values("video"):
        if isinstance(value, Item):
            urls = [url for url in addresses_of(value.values("contentUrl", "embedUrl", "url")) if _WEB.fullmatch(url)]
            fields = {
                "title": name_of(value)[:200],
                "url": next(iter(urls), ""),
                "published": _date(value, "uploadDate"),
            }
            if all(fields.values()):
                length_s = next(filter(None, map(seconds_of, texts_of(value, "duration"))), None)
                return fields | ({"length": duration_text(length_s)} if length_s else {})
    return {}


def _authors(item: Item) -> Iterator[FoundAuthor]:
    for value in item.values("author", "creator"):
        name = name_of(value)[:200]
        if name and isinstance(value, Item):
            urls = [url for url in addresses_of(value.values("url")) if _WEB.fullmatch(url)]
            yield FoundAuthor(name, value.is_a("Person"), next(iter(urls), ""))
        elif name:
            yield FoundAuthor(name)


def texts_of(item: Item, *names: str) -> list[str]:
    """The values of the first of these properties as lines of plain text; an item is called by its name."""
    return [text for value in item.values(*names) if (text := name_of(value))]


def name_of(value: str | Item) -> str:
    """A text, or what an item is called.

    >>> name_of(Item(properties={"name": ["Loft <i>kitchen</i>"]})), name_of(" 12&nbsp;buns ")
    ('Loft kitchen', '12 buns')
    """
    if isinstance(value, str):
        return plain(value)
    for name in ("name", "text", "headline", "value", "url"):
        for inner in value.properties.get(name, []):
            if isinstance(inner, str) and plain(inner):
                return plain(inner)
    return plain(value.id)


def _own(page_address: str) -> list[str]:
    return [page_address] if page_address else []


def _pages(item: Item) -> Iterator[str]:
    for value in item.values("mainEntityOfPage"):
        if isinstance(value, str):
            yield from [one_line(value)] if "/" in value else []
        else:
            yield from addresses_of([*value.values("url"), *([value.id] if "/" in value.id else [])])


def _lines(item: Item) -> Iterator[str]:
    """The lines of ingredients; a single text with line breaks is a list of them."""
    for value in item.values("recipeIngredient", "ingredients", "supply"):
        if isinstance(value, str):
            yield from paragraphs(value)
            continue
        amount = [name_of(one) for one in value.values("requiredQuantity", "amount", "value")]
        yield one_line(" ".join([*amount, name_of(value)]))


def _keywords(item: Item) -> Iterator[str]:
    words = [part.strip() for text in texts_of(item, "keywords") for part in re.split("[,;]", text)]
    yield from dict.fromkeys([word[:60] for word in words if word])


def _others(item: Item) -> Iterator[tuple[str, str]]:
    """The properties without a place, each with its values as one line."""
    seen: set[Item] = set()
    names = [name for name in item.properties if name not in _PLACED]
    for name in names[:_MOST_OTHERS]:
        shown = _joined("; ", (_shown(value, 0, seen) for value in item.properties[name]))
        length_s = seconds_of(shown) if name.endswith("Time") else None
        shown = f"{shown}, {duration_text(length_s)}" if length_s else shown
        if shown:
            yield one_line(name)[:60], shown[:_LONGEST_OTHER]
    if len(names) > _MOST_OTHERS:
        yield "properties", f"{len(names) - _MOST_OTHERS} more are left out"


def _shown(value: str | Item, depth: int, seen: set[Item]) -> str:
    """A value as one line; of an item that was shown already, or that is far inside, only its name."""
    if isinstance(value, str):
        return plain(value)
    if depth > 3 or value in seen:
        return name_of(value)
    seen.add(value)
    parts = (
        f"{one_line(name)} {text}"
        for name, values in value.properties.items()
        for inner in values[:10]
        if (text := _shown(inner, depth + 1, seen))
    )
    return _joined(", ", parts) or plain(value.id)


def _joined(between: str, parts: Iterable[str]) -> str:
    """The parts that are not empty, as far as they are shown."""
    joined = ""
    for part in parts:
        joined += between * bool(joined and part) + part
        if len(joined) > _LONGEST_OTHER:
            break
    return joined
