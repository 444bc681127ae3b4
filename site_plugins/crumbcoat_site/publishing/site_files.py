"""Puts into a built site what a host needs, and finds what the policy would keep from working."""

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from urllib.parse import urlsplit

from crumbcoat_site.publishing.built_site import files_of, pages_of, site_policy
from crumbcoat_site.publishing.hosts import apache, headers_file, nginx, pages
from crumbcoat_site.publishing.page_parts import PageParts
from crumbcoat_site.publishing.policy import Policy

Allowed = Mapping[str, Sequence[str]]


def publish(site: Path, host: str | None, allowed: Allowed, site_url: str) -> list[str]:
    """Write the files of a host into a built site; gives a sentence for each thing that readers would miss.

    Args:
        site: the folder.
        host: as in the options of the plug-in.
        allowed: further sources by directive.
        site_url: the address of the site, or nothing.
    """
    read = pages_of(site)
    policy = site_policy(site, read, allowed)
    if host == "pages":
        for name in read:
            page = (site / name).read_text(encoding="utf-8")
            (site / name).write_text(pages.with_policy(page, policy.text_in_pages), encoding="utf-8")
    written = host_file(site, host, policy, root_of(site_url)) if host else None
    notes = list(refused(read, policy))
    if written:
        name, text = written
        if (site / name).exists():
            notes.append(f"{name}: your own file is left as it is. Fix: take it away, or the option `host`")
        else:
            (site / name).write_text(text, encoding="utf-8")
    return notes


def host_file(site: Path, host: str, policy: Policy, root: str) -> tuple[str, str]:
    """The name and the text of the file that a host reads."""
    if host == "headers":
        return headers_file.NAME, headers_file.headers_file(policy, files_of(site), root)
    if host == "apache":
        return apache.NAME, apache.apache_file(policy, root)
    if host == "nginx":
        return nginx.NAME, nginx.nginx_file(policy, root)
    return pages.NAME, ""


def root_of(site_url: str) -> str:
    """The path of a site on its host, with a slash at both ends.

    >>> root_of("https://lantern.example/creams"), root_of("")
    ('/creams/', '/')
    """
    path = urlsplit(site_url).path.strip("/")
    return f"/{path}/" if path else "/"


def refused(read: Mapping[str, PageParts], policy: Policy) -> Iterator[str]:
    """What the policy keeps from working in pages: attributes that are scripts, and what is on other sites."""
    for name, page in read.items():
        for line, attribute in page.handlers:
            yield f"{name}:{line}: the security policy blocks `{attribute}`. Fix: move it to a script file"
        for found in page.addresses:
            parts = urlsplit(found.address)
            if not found.directive or not parts.netloc or parts.scheme not in ("http", "https", ""):
                continue
            host = f"{parts.scheme or 'https'}://{parts.netloc}"
            sources = policy.sources.get(found.directive, ())
            if host not in sources and not any(source in (f"{parts.scheme}:", "*") for source in sources):
                yield (
                    f"{name}:{found.line}: the security policy refuses {found.address[:80]}. Fix: put the file into "
                    f"your site, or allow its host under `publishing`: {{allow: {{{found.directive}: [{host}]}}}}"
                )
