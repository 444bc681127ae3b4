"""What a security policy and links have to do with in a page: inline scripts and styles, and addresses."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser

_LOADS: Mapping[tuple[str, str], str] = {
    ("script", "src"): "script-src",
    ("img", "src"): "img-src",
    ("img", "srcset"): "img-src",
    ("source", "srcset"): "img-src",
    ("source", "src"): "media-src",
    ("track", "src"): "media-src",
    ("audio", "src"): "media-src",
    ("video", "src"): "media-src",
    ("video", "poster"): "img-src",
    ("iframe", "src"): "frame-src",
    ("whole-card", "src"): "frame-src",
    ("embed", "src"): "object-src",
    ("object", "data"): "object-src",
    ("form", "action"): "form-action",
    ("a", "href"): "",
    ("area", "href"): "",
}
"""Attributes with addresses, and the directive of a policy that allows what they load; a link loads nothing. Into a
`whole-card` a script puts a frame."""

_LINKED = {"stylesheet": "style-src", "icon": "img-src", "apple-touch-icon": "img-src", "manifest": "manifest-src"}
"""The same for the relations of `<link>`."""

_SCRIPT_TYPES = {"", "module", "text/javascript", "application/javascript"}
"""Of scripts that run; any other type makes a script data."""


@dataclass(frozen=True, slots=True)
class Address:
    """An address in a page: the line, what has it, and the directive of a policy that it needs, if it needs one."""

    line: int
    attribute: str
    address: str
    directive: str


@dataclass(slots=True)
class PageParts:
    """What was found in a page; the texts are those that a browser makes a digest of."""

    scripts: set[str] = field(default_factory=set)
    styles: set[str] = field(default_factory=set)
    style_attributes: set[str] = field(default_factory=set)
    handlers: list[tuple[int, str]] = field(default_factory=list)
    """Attributes such as `onclick`, by line."""
    addresses: list[Address] = field(default_factory=list)
    ids: set[str] = field(default_factory=set)
    policy: str = ""
    """The policy that the page itself names."""


def page_parts(html: str) -> PageParts:
    """Read a page.

    >>> found = page_parts('<p id="a" style="color: red"><a href="#a">up</a><script>go()</script>')
    >>> found.scripts, found.style_attributes, found.ids, [link.address for link in found.addresses]
    ({'go()'}, {'color: red'}, {'a'}, ['#a'])
    """
    reader = _Reader()
    reader.feed(html.replace("\r\n", "\n"))
    reader.close()
    return reader.parts


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.parts = PageParts()
        self._inside: set[str] | None = None
        self._text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "script" and "src" not in given and given.get("type", "") in _SCRIPT_TYPES:
            self._inside = self.parts.scripts
        elif tag == "style":
            self._inside = self.parts.styles
        line = self.getpos()[0]
        for name, value in given.items():
            if name == "style":
                self.parts.style_attributes.add(value)
            elif name.startswith("on"):
                self.parts.handlers.append((line, name))
            elif name == "id" or (name == "name" and tag == "a"):
                self.parts.ids.add(value)
            elif (tag, name) in _LOADS:
                addresses = addresses_of_srcset(value) if name == "srcset" else [value]
                self.parts.addresses += [
                    Address(line, f"{tag} {name}", address, _LOADS[tag, name]) for address in addresses
                ]
        if tag == "link" and "href" in given:
            directives = [_LINKED[word] for word in given.get("rel", "").lower().split() if word in _LINKED]
            self.parts.addresses.append(Address(line, "link href", given["href"], (directives or [""])[0]))
        if tag == "meta" and given.get("http-equiv", "").lower() == "content-security-policy":
            self.parts.policy = given.get("content", "")

    handle_startendtag = handle_starttag

    def handle_data(self, data: str) -> None:
        if self._inside is not None:
            self._text.append(data)

    def handle_endtag(self, tag: str) -> None:
        if self._inside is not None and tag in ("script", "style"):
            self._inside.add("".join(self._text))
            self._inside = None
            self._text.clear()


def addresses_of_srcset(text: str) -> list[str]:
    """The addresses of a `srcset`.

    >>> addresses_of_srcset("a.webp 320w, b,c.webp 640w")
    ['a.webp', 'b,c.webp']
    """
    return re.findall(r"(\S*[^\s,])(?:\s+[\d.]+[wx])?\s*(?:,|$)", text)
