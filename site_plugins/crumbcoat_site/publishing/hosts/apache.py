"""`.htaccess` for Apache HTTP Server 2.4, in the folder of the site; it needs `AllowOverride All`."""

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

NAME = ".htaccess"


def apache_file(policy: Policy, root: str) -> str:
    """The file's text.

    Args:
        policy: that of the site.
        root: the path of the site on its host, with a slash at both ends.
    """
    always = {"Content-Security-Policy": policy.text(), **HEADERS}
    start = f"^{re.escape(root)}"
    lines = [
        f"{WRITTEN}. Modules: headers, setenvif, mime, dir, and deflate to compress.",
        "Options -Indexes",
        "DirectoryIndex index.html",
        f"ErrorDocument 404 {root}404.html",
        "",
        "# Types",
        *(f'AddType "{bare(kind)}" .{ending}' for ending, kind in TYPES.items()),
        f"AddCharset utf-8 {' '.join(f'.{ending}' for ending, kind in TYPES.items() if 'charset' in kind)}",
        "RemoveEncoding .gz",
        *(f'<Files "{name}">\n  ForceType "{kind}"\n</Files>' for name, kind in FEEDS.items()),
        "",
        "# Headers",
        f'SetEnvIf Request_URI "{start}{HASHED}" crumbcoat_for_ever',
        f'SetEnvIf Request_URI "{start}{re.escape(WORKER)}$" crumbcoat_never',
        f'SetEnvIf Request_URI "{start}{EMBED}$" crumbcoat_embed',
        *(f'Header always set {name} "{value}"' for name, value in always.items()),
        f'Header always set Content-Security-Policy "{policy.text(framed=True)}" env=crumbcoat_embed',
        f'Header set Cache-Control "{ASK}"',
        f'Header set Cache-Control "{FOR_EVER}" env=crumbcoat_for_ever',
        f'Header set Cache-Control "{NEVER}" env=crumbcoat_never',
        "",
        "# Compression",
        "<IfModule mod_deflate.c>",
        f"  AddOutputFilterByType DEFLATE {' '.join(COMPRESSED)}",
        "</IfModule>",
    ]
    return "\n".join(lines) + "\n"
