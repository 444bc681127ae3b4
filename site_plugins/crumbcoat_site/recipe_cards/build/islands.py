"""A page's HTML kept apart from its headings: Markdown need not read what it must not change.

MkDocs converts the headings, and in the place of each island of HTML one paragraph with its words, which the search
finds. When that is done, the islands take the places of their paragraphs.
"""

import re

_HEADING = re.compile(r"\n(#{1,6} .*)")  # Begins with what is fast to find; `^` is tried at every letter.
_NO_WORDS = re.compile(r"<(svg|select|datalist|script)\b.*?</\1>|<[^>]*>", re.DOTALL)
_PLACE = re.compile(r'<p data-island="(\d+)">.*?</p>', re.DOTALL)
_BETWEEN = "\n<!-- crumbcoat: next island -->\n"


def parted(markdown: str) -> tuple[str, str]:
    """Headings as Markdown, with a paragraph of words for each island between them; and the islands.

    In the text only headings begin a line with `#`, and all else is HTML in which every text is escaped.

    >>> lean, islands = parted('# Veil\\n\\n<div>\\n<p>Cold <b>milk</b></p>\\n</div>\\n')
    >>> lean, islands
    ('# Veil\\n\\n<p data-island="0">Cold milk</p>\\n\\n', '<div>\\n<p>Cold <b>milk</b></p>\\n</div>')
    >>> parted('# Veil\\n\\n## Method\\n')[0]
    '# Veil\\n\\n## Method\\n\\n'
    """
    islands: list[str] = []
    lean: list[str] = []

    def keep(island: str) -> None:
        if island.strip():
            words = " ".join(_NO_WORDS.sub(" ", island).split())
            lean.append(f'\n\n<p data-island="{len(islands)}">{words}</p>\n\n')
            islands.append(island.strip())
        elif lean:
            lean.append("\n\n")

    end, markdown = 0, f"\n{markdown}"
    for heading in _HEADING.finditer(markdown):
        keep(markdown[end : heading.start()])
        lean.append(heading[1])
        end = heading.end()
    keep(markdown[end:])
    return "".join(lean), _BETWEEN.join(islands)


def whole(html: str, islands: str) -> str:
    """The page with the islands in their places.

    >>> whole('<h1>Veil</h1><p data-island="0">Cold milk</p>', '<div><p>Cold <b>milk</b></p></div>')
    '<h1>Veil</h1><div><p>Cold <b>milk</b></p></div>'
    """
    kept = islands.split(_BETWEEN)
    return _PLACE.sub(lambda place: kept[int(place[1])], html)
