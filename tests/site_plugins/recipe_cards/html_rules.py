"""What makes a piece of HTML valid: the rules of the HTML Living Standard that a browser corrects in silence."""

from collections import Counter
from collections.abc import Iterator

from .conftest import Element, read_html

PHRASING = {
    "a", "abbr", "b", "br", "button", "cite", "code", "data", "datalist", "em", "i", "img", "input", "kbd", "label",
    "mark", "meter", "option", "output", "picture", "progress", "q", "s", "samp", "select", "small", "span", "strong",
    "sub", "sup", "svg", "template", "textarea", "time", "u", "var", "wbr",
}  # fmt: skip
"""4.4 to 4.10 and 3.2.5.2.5: what may be in a line of text."""

FLOW = {
    "article", "aside", "blockquote", "details", "dialog", "div", "dl", "fieldset", "figure", "footer", "form", "h1",
    "h2", "h3", "h4", "header", "hr", "main", "nav", "ol", "p", "pre", "section", "table", "ul", "recipe-calculator",
    "recipe-reader", "movable-point", "kept-form", "whole-card", "class-links", "class-results",
}  # fmt: skip
"""3.2.5.2.2: what is a block of its own; the last five are custom elements, of which we use no inline one."""

ONLY_PHRASING = {
    "p", "h1", "h2", "h3", "h4", "span", "b", "i", "em", "strong", "small", "label", "button", "output", "time",
    "summary", "legend", "option", "mark", "code",
}  # fmt: skip
"""Elements whose content is phrasing content; summary and legend may also be headings, which we do not use."""

PARENTS = {
    "li": {"ul", "ol", "menu"}, "dt": {"dl", "div"}, "dd": {"dl", "div"},
    "tr": {"thead", "tbody", "tfoot"}, "td": {"tr"}, "th": {"tr"}, "caption": {"table"},
    "thead": {"table"}, "tbody": {"table"}, "tfoot": {"table"},
    "option": {"select", "datalist", "optgroup"}, "optgroup": {"select"},
    "legend": {"fieldset"}, "summary": {"details"}, "figcaption": {"figure"}, "source": {"picture"},
}  # fmt: skip
"""Where an element may be used, for those that say so."""

CHILDREN = {
    "ul": {"li", "script", "template"}, "ol": {"li", "script", "template"}, "dl": {"dt", "dd", "div"},
    "table": {"caption", "thead", "tbody", "tfoot", "colgroup"}, "thead": {"tr"}, "tbody": {"tr"}, "tfoot": {"tr"},
    "tr": {"td", "th"}, "select": {"option", "optgroup"}, "datalist": {"option"}, "optgroup": {"option"},
    "picture": {"source", "img"},
}  # fmt: skip
"""What an element may have as its children, and no text beside them."""

FIRST = {"caption": "table", "legend": "fieldset", "summary": "details"}
INTERACTIVE = {"a", "button", "input", "select", "textarea", "details", "label"}
REFERENCES = ("aria-labelledby", "aria-describedby", "list", "for")
INPUT_TYPES = {"text", "checkbox", "radio", "range", "number", "date", "hidden", "file"}


def problems_in(html: str, known_ids: frozenset[str] = frozenset()) -> list[str]:
    """What is wrong with a piece of HTML.

    Args:
        known_ids: ids that are elsewhere on the page, and may be referred to.
    """
    tree = read_html(html)
    return [*_nesting(tree), *_references(tree, known_ids)]


def _nesting(element: Element) -> Iterator[str]:
    children = [child for child in element.children if isinstance(child, Element)]
    allowed = CHILDREN.get(element.name)
    if allowed is not None and element.name != "document":
        yield from (f"<{child.name}> in <{element.name}>" for child in children if child.name not in allowed)
        texts = [child for child in element.children if isinstance(child, str) and child.strip()]
        yield from (f"text {text.strip()!r} in <{element.name}>" for text in texts)
    for at, child in enumerate(children):
        if child.name in PARENTS and element.name not in PARENTS[child.name]:
            yield f"<{child.name}> in <{element.name}>"
        if child.name in FIRST and at:
            yield f"<{child.name}> is not the first of <{element.name}>"
        if child.name not in PHRASING | FLOW | PARENTS.keys():
            yield f"unknown element <{child.name}>"
        if child.name != "svg":
            yield from _nesting(child)
        yield from _inside(child)


def _inside(element: Element) -> Iterator[str]:
    """What may be nowhere below an element."""
    if element.name in ONLY_PHRASING:
        yield from (
            f"<{inner.name}> in <{element.name}>" for inner in element.all() if inner.name in FLOW | {"li", "tr"}
        )
    below = [inner.name for inner in element.all()]
    if element.name in ("a", "button"):
        yield from (f"<{name}> in <{element.name}>" for name in below if name in INTERACTIVE)
    if element.name == "label":
        controls = [name for name in below if name in ("input", "select", "textarea", "button", "output")]
        if "label" in below or len(controls) > 1:
            yield f"a label with {controls}"
    if element.name == "form" and "form" in below:
        yield "a form in a form"
    if element.name == "img" and "alt" not in element.attributes:
        yield "an image without alt"
    if element.name == "input" and element.attributes.get("type", "text") not in INPUT_TYPES:
        yield f"an input of type {element['type']!r}"
    if element.name == "button" and element.attributes.get("type") not in ("button", "reset", "submit"):
        yield "a button without a type"


def _references(tree: Element, known_ids: frozenset[str]) -> Iterator[str]:
    ids = Counter(element["id"] for element in tree.walk() if "id" in element.attributes)
    yield from (f"id {name!r} is used {count} times" for name, count in ids.items() if count > 1)
    yield from (f"id {name!r} has a space or is empty" for name in ids if not name or " " in name)
    for element in tree.walk():
        for attribute in REFERENCES:
            for name in element.attributes.get(attribute, "").split():
                if name not in ids and name not in known_ids:
                    yield f"{attribute}={name!r} refers to nothing"
