"""`serve --as-published` and `check --published`: the finished site as readers get it."""

import os
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from crumbcoat_site.command.site_files import SiteFiles, SiteFilesError, site_around
from crumbcoat_site.publishing.policy import allow_problem
from crumbcoat_site.publishing.server import PublishedSite, SiteHandler, SiteServer
from crumbcoat_site.publishing.site_files import root_of

_USUAL_ADDRESS = "127.0.0.1:8000"
_LOOPBACK = ("127.0.0.1", "localhost", "[::1]")


def published_site(site: SiteFiles, site_dir: Path | None = None) -> PublishedSite:
    """The finished site, as its host will serve it.

    Raises:
        SiteFilesError: if it was not built, or its options cannot be used.
    """
    folder = (site_dir or site.site).resolve()
    if not (folder / "404.html").is_file():
        shown = os.path.relpath(folder)
        raise SiteFilesError(f"{shown}: there is no built site.\n    Fix: run `crumbcoat build` first.")
    allowed = site.publishing.get("allow") or {}
    problem = allow_problem(allowed)
    if problem:
        raise SiteFilesError(f"{os.path.relpath(site.config)}: publishing: allow: {problem}.")
    return PublishedSite(folder, root_of(site.url), allowed)


def serve_published(folder: Path, arguments: Sequence[str], say: Callable[[str], object]) -> None:
    """Serve the finished site around a folder until it is stopped.

    Args:
        folder: in the site.
        arguments: `--dev-addr` or `-a` with an address of this machine, and nothing else.
        say: prints a line.
    """
    host, port = _address(arguments)
    site = published_site(site_around(folder))
    try:
        server = SiteServer((host.strip("[]"), port), partial(SiteHandler, site=site))
    except OSError as error:
        remedy = "stop what runs there, or choose another: `--dev-addr 127.0.0.1:8010`"
        raise SiteFilesError(f"{host}:{port}: {error.strerror}.\n    Fix: {remedy}.") from None
    with server:
        say(f"As published, from {os.path.relpath(site.folder)}: http://{host}:{server.server_port}{site.root}")
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            return


def _address(arguments: Sequence[str]) -> tuple[str, int]:
    """The address to serve at."""
    given = " ".join(arguments).replace("=", " ").split()
    remedy = f"leave it out, or write `--dev-addr {_USUAL_ADDRESS}`"
    if given and (len(given) != 2 or given[0] not in ("--dev-addr", "-a")):
        raise SiteFilesError(f"{' '.join(arguments)}: --as-published has no such option.\n    Fix: {remedy}.")
    host, _, port = (given[1] if given else _USUAL_ADDRESS).rpartition(":")
    if host not in _LOOPBACK or not port.isdecimal() or int(port) > 65535:
        raise SiteFilesError(f"{given[-1]}: this is not an address of this machine.\n    Fix: {remedy}.")
    return host, int(port)
