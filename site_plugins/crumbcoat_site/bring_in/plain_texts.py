"""Texts as web pages carry them -> plain text: tags, entities and invisible characters are gone, paragraphs stay."""

import html
import re
from html.parser import HTMLParser

from crumbcoat_calc.values.fields import UNPRINTABLE

MOST_LETTERS = 100_000
"""Of a longer text only the beginning is read."""

_BLOCKS = frozenset((
    "address", "article", "blockquote", "br", "dd", "div", "dl", "dt", "h1", "h2", "h3", "h4", "h5", "h6", "hr", "li",
    "ol", "p", "pre", "section", "table", "td", "th", "tr", "ul",
))  # fmt: skip
_HIDDEN = frozenset(("script", "style", "template", "noscript"))
_INVISIBLE = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]")
_MARKUP = re.compile(r"<[a-zA-Z/!]|&[#a-zA-Z]")


class _Letters(HTMLParser):
    """Collects the text between tags, with a line break where a block begins or ends."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.parts: list[str] = []
        self._hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._hidden += tag in _HIDDEN
        if tag in _BLOCKS:
            self.parts.append("\n")

    def handle_endtag(self, tag: str) -> None:
        self._hidden = max(0, self._hidden - (tag in _HIDDEN))
        if tag in _BLOCKS:
            self.parts.append("\n")

    def handle_data(self, data: str) -> None:
        if not self._hidden:
            self.parts.append(data)


def paragraphs(written: str) -> tuple[str, ...]:
    """The lines of a text, each as one line without tags, entities and characters that cannot be shown.

    >>> paragraphs("<p>Beat&nbsp;the <b>butter</b>.</p><p>Add 1&frac12; cups &amp;amp; more.<script>x</script></p>")
    ('Beat the butter.', 'Add 1½ cups & more.')
    """
    text = written[:MOST_LETTERS]
    for _ in range(2):  # What a page has escaped twice is common, more than that is not.
        if not _MARKUP.search(text):
            break
        reader = _Letters()
        reader.feed(text)
        reader.close()
        text = "".join(reader.parts)
    lines = [one_line(line) for line in re.split(r"[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]+", html.unescape(text))]
    return tuple([line for line in lines if line])


def one_line(written: str) -> str:
    """A text as one line without characters that cannot be shown.

    >>> one_line("  cold\\u200b\\x07  butter\\n")
    'cold butter'
    """
    words = " ".join(_INVISIBLE.sub("", written).split())
    return " ".join(UNPRINTABLE.sub("", words).split())


def plain(written: str) -> str:
    """The whole of a text as one line; `paragraphs` keeps its lines."""
    return " ".join(paragraphs(written))
