"""Reads the folder of a built site: its files, its pages, and the policy that they need."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from crumbcoat_site.publishing.page_parts import PageParts, page_parts
from crumbcoat_site.publishing.policy import SELF, Policy, policy_of

HOST_SCRIPT = "assets/embed.js"
"""For pages of other sites with cards of this one."""


def files_of(site: Path) -> list[str]:
    """The paths of all files that readers get, from the root of the site; what is hidden is for the host."""
    found = (path.relative_to(site) for path in site.rglob("*") if path.is_file())
    return sorted(path.as_posix() for path in found if not any(part.startswith(".") for part in path.parts))


def pages_of(site: Path) -> dict[str, PageParts]:
    """The pages by path."""
    names = [name for name in files_of(site) if name.endswith(".html")]
    return {name: page_parts((site / name).read_text(encoding="utf-8", errors="replace")) for name in names}


def policy_of_folder(site: Path, allowed: Mapping[str, Sequence[str]] | None = None) -> Policy:
    """The policy of a built site."""
    return site_policy(site, pages_of(site), allowed)


def site_policy(site: Path, pages: Mapping[str, PageParts], allowed: Mapping[str, Sequence[str]] | None) -> Policy:
    """The same, of pages that are read: other sites show its cards if it has the script for them.

    Args:
        pages: all of the site, by path.
        allowed: further sources by directive, as the author of the site names them.
    """
    return policy_of(pages.values(), allowed, "*" if (site / HOST_SCRIPT).is_file() else SELF)
