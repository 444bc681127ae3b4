"""Recipe data -> the text of a recipe file, from which the same data can be read."""

import json
import re
from collections.abc import Mapping

_PLAIN = re.compile(r"[A-Za-z0-9½¼¾⅓⅔⅛][\w½¼¾⅓⅔⅛.,/()°% µé-]*")
_RESERVED = frozenset(("yes", "no", "true", "false", "null", "on", "off", "y", "n"))


def recipe_text(data: Mapping[str, object]) -> str:
    """A recipe file: YAML in block style, every value as text, in quotes if it could be read as something else.

    A kind whose figures a build filled in is as it was written.

    >>> print(recipe_text({"title": "Milk: hot", "keywords": ["plain", "two"], "yield": {"portions": "12"}}), end="")
    title: "Milk: hot"
    keywords:
      - plain
      - two
    yield:
      portions: 12
    """
    return "".join([f"{line}\n" for line in _mapping(data, "")])


def _mapping(fields: Mapping[str, object], indent: str) -> list[str]:
    lines: list[str] = []
    for name, value in fields.items():
        head = f"{indent}{_scalar(name)}:"
        if name == "kind" and isinstance(value, Mapping):
            lines.append(f"{head} {_scalar(str(value['written']))}")
        elif isinstance(value, Mapping):
            lines += [head, *_mapping(value, f"{indent}  ")] if value else [f"{head} {{}}"]
        elif isinstance(value, list):
            lines += [head, *_list(value, f"{indent}  ")] if value else [f"{head} []"]
        else:
            lines.append(f"{head} {_scalar(str(value))}")
    return lines


def _list(values: list[object], indent: str) -> list[str]:
    lines: list[str] = []
    for value in values:
        if isinstance(value, Mapping) and value:
            first, *rest = _mapping(value, f"{indent}  ")
            lines += [f"{indent}- {first.lstrip()}", *rest]
        elif isinstance(value, list) and value:
            lines += [f"{indent}-", *_list(value, f"{indent}  ")]
        elif isinstance(value, (Mapping, list)):
            lines.append(f"{indent}- {'{}' if isinstance(value, Mapping) else '[]'}")
        else:
            lines.append(f"{indent}- {_scalar(str(value))}")
    return lines


def _scalar(value: str) -> str:
    if _PLAIN.fullmatch(value) and not value.endswith(" ") and " #" not in value and ": " not in value:
        return value
    if value.lower() in _RESERVED:
        return value
    # A JSON string is a YAML string in double quotes, except for the characters that YAML requires to be escaped.
    quoted = json.dumps(value, ensure_ascii=False)
    return re.sub("[\x7f-\x9f\u2028\u2029\ufeff\ud800-\udfff]", lambda found: f"\\u{ord(found[0]):04x}", quoted)
