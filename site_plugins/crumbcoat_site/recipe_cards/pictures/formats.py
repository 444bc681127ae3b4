"""The files that are pictures, by their names, and the formats that pages show."""

from collections.abc import Mapping

ENDINGS = (".avif", ".webp", ".jpg", ".jpeg", ".jfif", ".png", ".heic", ".heif", ".tif", ".tiff", ".gif")
"""The endings of pictures, in small letters. Of two files for one place, that whose ending comes first is shown."""

BROWSER_ENDINGS = (".avif", ".webp", ".jpg", ".jpeg", ".jfif", ".png", ".gif")
"""Those that every browser shows as they are."""

SHOWN: Mapping[str, str] = {"avif": "image/avif", "webp": "image/webp", "jpg": "image/jpeg"}
"""The formats that a picture of a recipe is published in, the smallest first, and the media type of each."""

WIDTHS = (240, 480, 720, 1080, 1600)
"""The widths in pixels; a narrower picture is published at its own width too, and never wider."""

THUMBNAIL = 720
"""The largest width that is offered where a picture is small."""


def ending_of(path: str) -> str:
    """The ending of a file's name in small letters, with the dot.

    >>> ending_of("creams/Veil.2-1.JPG"), ending_of("veil")
    ('.jpg', '')
    """
    _, dot, ending = path.rpartition("/")[2].rpartition(".")
    return f"{dot}{ending.lower()}" if dot else ""


def is_picture(path: str) -> bool:
    """Whether a file is a picture, by its ending."""
    return ending_of(path) in ENDINGS


def rank(path: str) -> int:
    """How far back an ending is in `ENDINGS`."""
    return ENDINGS.index(ending_of(path))
