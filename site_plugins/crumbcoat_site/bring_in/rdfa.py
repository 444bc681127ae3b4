"""RDFa Lite -> items: `vocab`, `typeof`, `property`, `resource` and `prefix`, with the values of HTML+RDFa."""

from crumbcoat_site.bring_in.html_page import Element, InnerHtml
from crumbcoat_site.bring_in.items import MOST_ITEMS, Item, short_name

_LINKS = ("resource", "href", "src")


def rdfa_items(root: Element) -> list[Item]:
    """The items of a page that are not values of others.

    Source:
        rdfa-lite (W3C, RDFa Lite 1.1), html-rdfa (W3C, HTML+RDFa 1.1: `content`, `datetime`).
    """
    tops: list[Item] = []
    nowhere = Item()
    count = 0
    texts = InnerHtml()
    waiting: list[tuple[Element, Item, str, dict[str, str]]] = [(root, nowhere, "", {})]
    while waiting:
        element, owner, vocabulary, prefixes = waiting.pop()
        if not isinstance(element.tag, str):
            continue
        vocabulary = (element.get("vocab") or vocabulary).strip()
        prefixes = _with_prefixes(element, prefixes)
        names = [_full(word, vocabulary, prefixes) for word in (element.get("property") or "").split()]
        inner = owner
        if element.get("typeof") is not None and count < MOST_ITEMS:
            count += 1
            types = tuple([short_name(_full(word, vocabulary, prefixes)) for word in element.get("typeof").split()])
            inner = Item(types=types, id=(element.get("resource") or element.get("about") or "").strip())
            if not names:
                tops.append(inner)
        for name in names:
            owner.add(name, inner if inner is not owner else _value(element, texts))
        waiting += [(child, inner, vocabulary, prefixes) for child in reversed(list(element))]
    inside = [value for values in nowhere.properties.values() for value in values if isinstance(value, Item)]
    return [*tops, *inside]


def _with_prefixes(element: Element, prefixes: dict[str, str]) -> dict[str, str]:
    words = (element.get("prefix") or "").split()
    if not words:
        return prefixes
    named = {word.removesuffix(":").lower(): address for word, address in zip(words[::2], words[1::2], strict=False)}
    return prefixes | named


def _full(word: str, vocabulary: str, prefixes: dict[str, str]) -> str:
    prefix, colon, name = word.partition(":")
    if colon and prefix.lower() in prefixes:
        return prefixes[prefix.lower()] + name
    return word if colon else vocabulary + word


def _value(element: Element, texts: InnerHtml) -> "str | Item":
    if element.get("content") is not None:
        return str(element.get("content")).strip()
    for name in _LINKS:
        if element.get(name) is not None:
            written = str(element.get(name)).strip()
            return Item(id=written) if name == "resource" else written
    if element.tag == "time" and element.get("datetime"):
        return str(element.get("datetime")).strip()
    return texts.of(element)
