"""Where a page was on the web -> the path that leads to the new card, and the local files that a page names."""

import posixpath
import re
from pathlib import Path
from urllib.parse import unquote, urlsplit

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.moved_from import earlier_path

from crumbcoat_site.bring_in.plain_texts import one_line

_SEGMENT = re.compile(r"[^\x00-\x1f\x7f\\:*?\"<>|#%]{1,120}")
MOST_SEGMENTS = 12


def old_path(address: str) -> str:
    """The path of an address as `moved_from` of a recipe has it; empty for one that no file can be at.

    An address with a query is none: a static host sees its path alone.

    >>> old_path("https://old.example/2019/05/veil%20cream/#recipe"), old_path("https://old.example/?p=12")
    ('2019/05/veil cream/', '')
    >>> old_path("/../../etc/passwd"), old_path("javascript:alert(1)"), old_path("https://old.example/veil.html")
    ('', '', 'veil.html')
    """
    try:
        parts = urlsplit(address.strip())
    except ValueError:
        return ""
    if parts.scheme.lower() not in ("http", "https", "") or parts.query:
        return ""
    try:
        path = unquote(parts.path, errors="strict") if parts.path.isascii() else parts.path
    except UnicodeDecodeError:  # Of another encoding: no file of a site has that name.
        return ""
    if one_line(path) != path:
        return ""
    segments = [part for part in path.split("/") if part]
    if not segments or len(segments) > MOST_SEGMENTS or any(part.strip(". ") == "" for part in segments):
        return ""
    if not all(_SEGMENT.fullmatch(part) for part in segments):
        return ""
    try:
        return earlier_path("/".join(segments) + "/" * path.endswith("/"))
    except InputError:
        return ""


def is_remote(address: str) -> bool:
    """Whether an address is on a network, or no address of a file at all.

    >>> is_remote("https://old.example/a.jpg"), is_remote("veil_files/a.jpg"), is_remote("//cdn.example/a.jpg")
    (True, False, True)
    """
    return bool(re.match(r"[A-Za-z][A-Za-z0-9+.-]*:|//", address.strip()))


def local_file(address: str, page: Path) -> Path | None:
    """The file that a saved page names beside itself; None if it leads out of the page's folder, or is not there."""
    if is_remote(address) or "\0" in address:
        return None
    written = unquote(address.partition("?")[0].partition("#")[0])
    folder = page.parent.resolve()
    path = folder / posixpath.normpath(written.replace("\\", "/")).lstrip("/")
    try:
        found = path.resolve()
        is_there = found.is_relative_to(folder) and found.is_file()
    except (OSError, ValueError, RuntimeError):
        return None
    return found if is_there else None


def file_name_in(address: str) -> str:
    """The last part of an address, by which a browser keeps a picture that it saves.

    >>> file_name_in("https://cdn.example/2020/veil%20cream.jpg?w=1200")
    'veil cream.jpg'
    """
    return unquote(address.partition("?")[0].partition("#")[0]).rstrip("/").rpartition("/")[2]
