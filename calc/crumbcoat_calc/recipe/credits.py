"""Who wrote a recipe, and a video that shows how it is made."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.dates import date
from crumbcoat_calc.values.fields import line, mapping, only, take, take_or
from crumbcoat_calc.values.written_times import seconds

AUTHOR_FIELDS = ("person", "organization", "url")
VIDEO_FIELDS = ("title", "url", "published", "length", "picture")

_ADDRESS = re.compile(r"https?://[^\s/?#]+\.?[^\s]*", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Author:
    """The person or organization that wrote the recipe; `url` is a page about it."""

    name: str
    is_person: bool = False
    url: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Video:
    """A video of the recipe: the address of its file or of its player, and of a still picture, if there is one."""

    title: str
    url: str
    published: str
    length_s: float | None = None
    picture: str | None = None


def author_from(value: object) -> Author:
    """Read an author: a name by itself is that of an organization, such as a kitchen; a block says which it is.

    >>> author_from({"person": "Mira Quill"})
    Author(name='Mira Quill', is_person=True, url=None)
    """
    if not isinstance(value, Mapping):
        return Author(name=line(value))
    fields = mapping(value)
    only(fields, AUTHOR_FIELDS)
    named = [kind for kind in AUTHOR_FIELDS[:2] if kind in fields]
    if len(named) != 1:
        raise InputError(
            "an author is either a person or an organization",
            "write one of the two, such as `{person: …}`, or the name alone for an organization",
        )
    return Author(
        name=take(fields, named[0], line), is_person=named == ["person"], url=take_or(fields, "url", address, None)
    )


def video_from(value: object) -> Video:
    """Read a video."""
    fields = mapping(value)
    only(fields, VIDEO_FIELDS)
    return Video(
        title=take(fields, "title", line),
        url=take(fields, "url", address),
        published=take(fields, "published", date),
        length_s=take_or(fields, "length", _length, None),
        picture=take_or(fields, "picture", address, None),
    )


def address(value: object) -> str:
    """Read the address of a page or a file on the web.

    >>> address("https://lantern.example/film")
    'https://lantern.example/film'
    """
    written = line(value)
    if not _ADDRESS.fullmatch(written):
        raise InputError(
            f"{written[:60]!r} is not an address on the web", "write all of it, from `https://` on, without a space"
        )
    return written


def _length(value: object) -> float:
    return seconds(value, example="3 min 20 s")
