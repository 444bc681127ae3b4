"""The pictures of a recipe that were saved with its page: which file goes where. Nothing is fetched."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_site.bring_in.addresses import file_name_in, is_remote, local_file

LARGEST = 40_000_000
"""Bytes of a picture; larger files are left where they are."""


@dataclass(frozen=True, slots=True)
class Pictures:
    """`files` by the name that each gets; `remote` addresses, and `unusable` ones with the reason."""

    files: Mapping[str, Path]
    remote: tuple[str, ...]
    unusable: tuple[tuple[str, str], ...]


def pictures_of(
    name: str, cover: Sequence[str], steps: Mapping[str, str], page: Path, on_page: Sequence[str]
) -> Pictures:
    """The files for a draft.

    Args:
        name: that of the draft's file, without its ending.
        cover: addresses of pictures of the whole; the first one that was saved is used, the others are reported.
        steps: an address for a stage and step, such as `2-1`.
        page: the saved page.
        on_page: the addresses that the page itself names: a browser has saved those beside it.
    """
    files: dict[str, Path] = {}
    remote: list[str] = []
    unusable: list[tuple[str, str]] = []
    by_name = {file_name_in(address): address for address in on_page if not is_remote(address)}
    for slot, address in [*(("", address) for address in cover), *steps.items()]:
        path = local_file(by_name.get(file_name_in(address), address), page)
        if path is None:
            if is_remote(address):
                remote.append(address)
            else:
                unusable.append((address, "not there"))
            continue
        ending, problem = _ending_of(path)
        target = f"{name}{f'.{slot}' if slot else ''}{ending}"
        if problem:
            unusable.append((address, problem))
        elif slot == "" and any(_is_cover(other, name) for other in files):
            unusable.append((address, "a card has one cover"))
        else:
            files[target] = path
    return Pictures(files, tuple(dict.fromkeys(remote)), tuple(unusable))


def _is_cover(target: str, name: str) -> bool:
    return target.rpartition(".")[0] == name


def _ending_of(path: Path) -> tuple[str, str]:
    """The ending for what is in a file, by its first bytes; or why it cannot be used."""
    if path.stat().st_size > LARGEST:
        return "", f"larger than {LARGEST // 1_000_000} MB"
    with path.open("rb") as file:
        first = file.read(16)
    if first.startswith(b"\xff\xd8\xff"):
        return ".jpg", ""
    if first.startswith(b"\x89PNG\r\n\x1a\n"):
        return ".png", ""
    if first[:4] == b"RIFF" and first[8:12] == b"WEBP":
        return ".webp", ""
    if first[4:12] in (b"ftypavif", b"ftypavis"):
        return ".avif", ""
    return "", "not a JPEG, PNG, WebP or AVIF picture"
