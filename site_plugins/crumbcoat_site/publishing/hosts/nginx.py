"""`nginx.conf`, to be included in the `server` block of a site.

A `location` of that block which adds headers of its own does without these.
"""

import re

from crumbcoat_site.publishing.hosts import WRITTEN
from crumbcoat_site.publishing.policy import Policy
from crumbcoat_site.publishing.table import (
    ASK,
    COMPRESSED,
    EMBED,
    FEEDS,
    FOR_EVER,
    HASHED,
    HEADERS,
    NEVER,
    TYPES,
    WORKER,
    bare,
)

NAME = "nginx.conf"


def nginx_file(policy: Policy, root: str) -> str:
    """The file's text.

    Args:
        policy: that of the site.
        root: the path of the site on its host, with a slash at both ends.
    """
    start = f"^{re.escape(root)}"
    kinds: dict[str, list[str]] = {}
    for ending, kind in TYPES.items():
        kinds.setdefault(bare(kind), []).append(ending)
    charset = sorted({bare(kind) for kind in TYPES.values() if "charset" in kind} - {"text/html"})
    lines = [
        f"{WRITTEN}, for the `server` block of the site: include /path/to/the/site/nginx.conf;",
        "index index.html;",
        "autoindex off;",
        "absolute_redirect off;",
        f"error_page 404 {root}404.html;",
        f"if ($uri ~ {_quoted(f'{start}({re.escape(NAME)}|(.*/)?[.](?!well-known/).*)$')}) {{ return 404; }}",
        "",
        "# Types",
        "types {",
        *(f"    {kind} {' '.join(endings)};" for kind, endings in kinds.items()),
        "}",
        "default_type application/octet-stream;",
        "charset utf-8;",
        f"charset_types {' '.join(charset)};",
        *(f"location = {root}{name} {{ types {{ }} default_type {kind}; }}" for name, kind in FEEDS.items()),
        "",
        "# Headers",
        f'set $crumbcoat_policy "{policy.text()}";',
        f"if ($uri ~ {_quoted(f'{start}{EMBED}$')}) {{",
        f'    set $crumbcoat_policy "{policy.text(framed=True)}";',
        "}",
        f'set $crumbcoat_cache "{ASK}";',
        f"if ($uri ~ {_quoted(f'{start}{HASHED}')}) {{",
        f'    set $crumbcoat_cache "{FOR_EVER}";',
        "}",
        f'if ($uri = "{root}{WORKER}") {{',
        f'    set $crumbcoat_cache "{NEVER}";',
        "}",
        "add_header Content-Security-Policy $crumbcoat_policy always;",
        *(f'add_header {name} "{value}" always;' for name, value in HEADERS.items()),
        "add_header Cache-Control $crumbcoat_cache;",
        "",
        "# Compression",
        "gzip on;",
        "gzip_vary on;",
        "gzip_min_length 1000;",
        f"gzip_types {' '.join(kind for kind in COMPRESSED if kind != 'text/html')};",
    ]
    return "\n".join(lines) + "\n"


def _quoted(expression: str) -> str:
    """An expression with braces in it, as nginx reads one."""
    return f'"{expression}"'
