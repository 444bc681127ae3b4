"""`serve` and `build`: MkDocs on the site around a folder, and a build that replaces a site only when it is whole."""

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from crumbcoat_site.command.site_files import SiteFiles, SiteFilesError, site_around
from crumbcoat_site.publishing.hosts import WRITTEN


class BuildError(Exception):
    """The site was not built; the text says what became of the old one."""


def serve(arguments: Sequence[str]) -> int:
    """Show the site around the current folder until it is stopped; gives the exit code of MkDocs.

    A page is rendered again when what it is made from has changed, not at each change of any file.
    """
    site = site_around(Path.cwd())
    chosen = {"--clean", "-c", "--dirty"} & set(arguments)
    command = [*_mkdocs(site), "serve", *([] if chosen else ["--dirty"]), "-f", str(site.config), *arguments]
    try:
        return subprocess.run(command, env=_environment(), check=False).returncode
    except KeyboardInterrupt:
        return 0


def build(folder: Path, site_dir: Path | None = None, strict: bool = False) -> Path:
    """Build the site around a folder; gives where it is.

    It is built beside the old one, and takes its place when it is whole. What is hidden in the old one, such as `.git`,
    stays there.

    Raises:
        BuildError: if there is no site, or it could not be built.
    """
    try:
        site = site_around(folder)
    except SiteFilesError as error:
        raise BuildError(str(error)) from None
    target = (site_dir or site.site).resolve()
    _check(target, site)
    target.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=target.parent, prefix=f".{target.name}-") as temporary:
        made, old = Path(temporary) / "made", Path(temporary) / "old"
        command = [*_mkdocs(site), "build", "-f", str(site.config), "-d", str(made), *(["--strict"] if strict else [])]
        if subprocess.run(command, env=_environment(), check=False).returncode:
            shown = os.path.relpath(target)
            kept = f"The site in {shown} is as it was." if target.exists() else f"There is nothing in {shown} yet."
            raise BuildError(f"The site was not built; see above. {kept}\n    Fix: run `crumbcoat check`.")
        _put(made, target, old)
    return target


def _put(made: Path, target: Path, aside: Path) -> None:
    """Put a new site in the place of the old one, with what is hidden there; at an error the old one goes back.

    What the build itself hides, such as `.htaccess`, is the new one or none.
    """
    found = target.glob(".*") if target.exists() else ()
    for hidden in (path for path in found if not (made / path.name).exists() and not _is_written(path)):
        if hidden.is_dir() and not hidden.is_symlink():
            shutil.copytree(hidden, made / hidden.name, symlinks=True)
        else:
            shutil.copy2(hidden, made / hidden.name, follow_symlinks=False)
    if target.exists():
        target.rename(aside)
    try:
        made.rename(target)
    finally:
        if aside.exists() and not target.exists():
            aside.rename(target)


def _is_written(path: Path) -> bool:
    return path.is_file() and path.read_bytes().startswith(WRITTEN.encode())


def _check(target: Path, site: SiteFiles) -> None:
    """Refuse a folder that holds anything but a site: a build puts a new folder in its place."""
    shown = os.path.relpath(target)
    remedy = "Fix: name another folder, such as `--site-dir public`."
    sources = (site.config.resolve(), site.docs.resolve())
    if any(source.is_relative_to(target) for source in sources) or target.is_relative_to(sources[1]):
        raise BuildError(f"{shown}: the sources of the site are here, or it would be among them.\n    {remedy}")
    if target.exists() and not target.is_dir():
        raise BuildError(f"{shown}: this is a file.\n    {remedy}")
    if (
        target.exists()
        and not (target / "404.html").is_file()
        and any(not path.name.startswith(".") for path in target.iterdir())
    ):
        raise BuildError(f"{shown}: this folder holds something else than a built site.\n    {remedy}")


def _mkdocs(site: SiteFiles) -> list[str]:
    """The command that reads such a configuration, run by this Python."""
    return [sys.executable, "-m", "properdocs" if site.config.name.startswith("properdocs") else "mkdocs"]


def _environment() -> dict[str, str]:
    return {"NO_MKDOCS_2_WARNING": "1", **os.environ}
