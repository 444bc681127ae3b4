"""Texts as web pages carry them -> plain text: tags, entities and invisible characters are gone, paragraphs stay."""

import html
import re

from crumbcoat_calc.values.fields import UNPRINTABLE

MOST_LETTERS = 100_000
"""Of a longer text only the beginning is read."""

BLOCKS = frozenset((
    "address", "article", "blockquote", "br", "dd", "div", "dl", "dt", "h1", "h2", "h3", "h4", "h5", "h6", "hr", "li",
    "ol", "p", "pre", "section", "table", "td", "th", "tr", "ul",
))  # fmt: skip
"""The elements that begin and end a line."""

_TAG = re.compile(r"""</?(?P<name>[a-zA-Z][a-zA-Z0-9:-]*+)(?:[^<>"']|"[^"<]*+"|'[^'<]*+')*+>|<[!?][^<>]*+>""")
"""A tag; none goes past the next `<`, so that reading any text takes time in proportion to its length."""

_HIDDEN = re.compile(r"<(?P<name>script|style|template|noscript)\b[^<>]*+>", re.IGNORECASE)
_INVISIBLE = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]")
_MARKUP = re.compile(r"<[a-zA-Z/!?]|&[#a-zA-Z]")
_BREAKS = re.compile("[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]+")


def paragraphs(written: str) -> tuple[str, ...]:
    """The lines of a text, each as one line without tags, entities and characters that cannot be shown.

    >>> paragraphs("<p>Beat&nbsp;the <b>butter</b>.</p><p>Add 1&frac12; cups &amp;amp; more.<script>x</script></p>")
    ('Beat the butter.', 'Add 1½ cups & more.')
    """
    text = written[:MOST_LETTERS]
    for _ in range(2):  # What a page has escaped twice is common, more than that is not.
        if not _MARKUP.search(text):
            break
        text = html.unescape(_TAG.sub(_of_tag, _without_hidden(text)))
    lines = [one_line(line) for line in _BREAKS.split(html.unescape(text))]
    return tuple([line for line in lines if line])


def _of_tag(found: re.Match[str]) -> str:
    return "\n" if (found["name"] or "").lower() in BLOCKS else ""


def _without_hidden(text: str) -> str:
    """The text without comments, and without what is in elements that no reader sees."""
    kept: list[str] = []
    at = 0
    lower = text.lower()
    while True:
        comment, hidden = text.find("<!--", at), _HIDDEN.search(text, at)
        if comment < 0 and hidden is None:
            return "".join([*kept, text[at:]])
        if hidden is None or 0 <= comment < hidden.start():
            start, inside, end = comment, comment + 4, "-->"
        else:
            start, inside, end = hidden.start(), hidden.end(), f"</{hidden['name'].lower()}"
        close = lower.find(end, inside)
        kept.append(text[at:start])
        if close < 0:  # It is never closed: what follows is text after all.
            return "".join([*kept, text[inside:]])
        at = close + len(end) if end == "-->" else close


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
