"""A picture that goes with a recipe: its file, the words around it, and what it must show."""

from dataclasses import dataclass

from crumbcoat_calc.values.fields import each, line, mapping, only, take_or

PHOTO_FIELDS = ("shows", "file", "alt", "caption", "credit")


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A picture, taken or still to be taken; a host finds one without a `file` by the name that it expects."""

    shows: str | None = None
    file: str | None = None
    alt: str | None = None
    caption: str | None = None
    credit: str | None = None


def photos_from(value: object) -> tuple[Photo, ...]:
    """Read one picture or several.

    >>> photos_from("a soft peak")
    (Photo(shows='a soft peak', file=None, alt=None, caption=None, credit=None),)
    """
    return each(photo_from, at_least=1)(value) if isinstance(value, list) else (photo_from(value),)


def photo_from(value: object) -> Photo:
    """Read one picture: a block of fields, or in one text what it must show."""
    if isinstance(value, str):
        return Photo(shows=line(value))
    fields = mapping(value)
    only(fields, PHOTO_FIELDS)
    return Photo(**{name: take_or(fields, name, line, None) for name in PHOTO_FIELDS})
