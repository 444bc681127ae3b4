"""Microdata -> items, by the rules of the HTML standard (WHATWG, 5.2: values, and associating names with items)."""

from crumbcoat_site.bring_in.html_page import Element, InnerHtml
from crumbcoat_site.bring_in.items import MOST_ITEMS, Item, short_name

_ATTRIBUTES = {
    "meta": "content", "audio": "src", "embed": "src", "iframe": "src", "img": "src", "source": "src", "track": "src",
    "video": "src", "a": "href", "area": "href", "link": "href", "object": "data", "data": "value", "meter": "value",
    "time": "datetime",
}  # fmt: skip
"""The attribute that holds the value, by element; where a `time` has none, its text is the value."""

_MOST_ELEMENTS = 500_000
"""Elements of a page that are looked at; where several items refer to the same ones, each time."""


def microdata_items(root: Element) -> list[Item]:
    """The items of a page that are not values of others.

    Source:
        whatwg-html (microdata).
    """
    by_id: dict[str, Element] = {}
    for element in root.iter():
        if isinstance(element.tag, str) and element.get("id"):
            by_id.setdefault(element.get("id"), element)
    scopes = [
        element for element in root.iter() if isinstance(element.tag, str) and element.get("itemscope") is not None
    ]
    made: dict[Element, Item] = {}
    for scope in scopes[:MOST_ITEMS]:
        types = tuple([short_name(word) for word in (scope.get("itemtype") or "").split()])
        made[scope] = Item(types=types, id=(scope.get("itemid") or "").strip())
    left = _MOST_ELEMENTS
    texts = InnerHtml()
    for scope, item in made.items():
        properties, seen = _properties(scope, by_id, left)
        left -= seen
        for element in properties:
            value = made.get(element)
            for name in element.get("itemprop").split():
                item.add(name, value if value is not None else _value(element, texts))
    return [item for scope, item in made.items() if scope.get("itemprop") is None]


def _properties(scope: Element, by_id: dict[str, Element], most: int) -> tuple[list[Element], int]:
    """The elements with a property of an item, in the order of the page, and how many were looked at."""
    found: list[Element] = []
    seen = {scope}
    waiting = [by_id[name] for name in reversed((scope.get("itemref") or "").split()) if name in by_id]
    waiting += reversed(list(scope))
    while waiting and len(seen) < most:
        element = waiting.pop()
        if element in seen or not isinstance(element.tag, str):
            continue
        seen.add(element)
        if (element.get("itemprop") or "").strip():
            found.append(element)
        if element.get("itemscope") is None:
            waiting += reversed(list(element))
    return found, len(seen)


def _value(element: Element, texts: InnerHtml) -> str:
    attribute = _ATTRIBUTES.get(element.tag)
    written = element.get(attribute) if attribute else None
    if written is None and (attribute is None or element.tag == "time"):
        return texts.of(element)
    return (written or "").strip()
