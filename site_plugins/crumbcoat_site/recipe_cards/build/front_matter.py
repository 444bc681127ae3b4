"""The front matter of a page that this plug-in makes."""

import json
from collections.abc import Mapping


def front_matter(meta: Mapping[str, object]) -> str:
    """What MkDocs, the theme and other plug-ins need to know about a page; fields without a value are left out.

    >>> front_matter({"title": 'The "veil"', "published": None})
    '---\\ntitle: "The \\\\"veil\\\\""\\n---\\n'
    """
    head = "\n".join(f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in meta.items() if value)
    return f"---\n{head}\n---\n"
