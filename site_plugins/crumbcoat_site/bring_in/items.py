"""Items of schema.org, whichever way a page carries them: types, and properties whose values are texts or items."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from crumbcoat_site.bring_in.plain_texts import one_line

MOST_ITEMS = 20_000
"""Items of a page beyond these are not read."""

DEEPEST = 40
"""Values nested more deeply are not read; a recipe with sections, steps and tips needs eight levels."""

_PREFIXES = (
    "https://schema.org/", "http://schema.org/", "https://www.schema.org/", "http://www.schema.org/", "schema:",
)  # fmt: skip


@dataclass(eq=False, slots=True)
class Item:
    """A thing that a page describes. `id` is what other items of the page refer to it by; empty if nothing does."""

    types: tuple[str, ...] = ()
    id: str = ""
    properties: "dict[str, list[str | Item]]" = field(default_factory=dict)

    def add(self, name: str, value: "str | Item") -> None:
        """Add a value of a property."""
        self.properties.setdefault(short_name(name), []).append(value)

    def values(self, *names: str) -> "list[str | Item]":
        """The values of the first of these properties that has any."""
        return next((self.properties[name] for name in names if self.properties.get(name)), [])

    def is_a(self, *types: str) -> bool:
        """Whether it is of one of these types."""
        return any(kind in self.types for kind in types)

    @property
    def is_reference(self) -> bool:
        """Whether it only names another item."""
        return bool(self.id) and not self.properties and not self.types


def short_name(name: str) -> str:
    """A type or property of schema.org without its address.

    >>> short_name("http://schema.org/Recipe"), short_name("schema:name"), short_name("https://x.example/Recipe")
    ('Recipe', 'name', 'https://x.example/Recipe')
    """
    name = name.strip()
    for prefix in _PREFIXES:
        if name.lower().startswith(prefix):
            return name[len(prefix) :].strip("/#")
    return name


def addresses_of(values: "Iterable[str | Item]") -> Iterator[str]:
    """The addresses in the values of a property such as `image`, which may be texts or items."""
    for value in values:
        if isinstance(value, str):
            yield from [one_line(value)] if value.strip() else []
            continue
        inner = value.values("url", "contentUrl") or ([value.id] if value.id and not value.id.startswith("#") else [])
        yield from [one_line(one) for one in inner if isinstance(one, str) and one.strip()]


def everything_in(items: Iterable[Item]) -> Iterator[Item]:
    """All items, those inside others too, each once, in the order of the page."""
    seen: set[int] = set()
    waiting = list(reversed(list(items)))
    while waiting:
        item = waiting.pop()
        if id(item) in seen:
            continue
        seen.add(id(item))
        yield item
        inside = [value for values in item.properties.values() for value in values if isinstance(value, Item)]
        waiting += reversed(inside)


def with_references(items: list[Item]) -> list[Item]:
    """The items, with whatever only names another item of the page replaced by that one."""
    known: dict[str, Item] = {}
    every = list(everything_in(items))
    for item in every:
        if item.id and not item.is_reference:
            known.setdefault(item.id, item)
    for item in every:
        for values in item.properties.values():
            for place, value in enumerate(values):
                if isinstance(value, Item) and value.is_reference:
                    values[place] = known.get(value.id, value)
    return items
