"""A picture file -> its pixels: upright, in sRGB, without metadata; or a problem with its remedy."""

import struct
import warnings
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import cast

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

MOST_PIXELS = 120_000_000
"""A camera's largest picture has about 108 megapixels; decoded, 120 take 360 MB."""

MOST_FRAME_PIXELS = 400_000_000
"""All frames of a moving picture together."""

_UNREADABLE = (
    OSError, SyntaxError, ValueError, TypeError, KeyError, IndexError, EOFError, RuntimeError, MemoryError,
    OverflowError, AssertionError, struct.error, zlib.error,
)  # fmt: skip
"""What Pillow and its plug-ins raise at files that are not what their first bytes say."""


class PictureError(ValueError):
    """A picture cannot be used: what is wrong, and what to do."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(problem, remedy)
        self.problem = problem
        self.remedy = remedy


@contextmanager
def opened(source: bytes) -> Iterator[Image.Image]:
    """A picture whose size is known and bounded, and whose pixels are not read yet.

    Raises:
        PictureError: if it is none, or too large; also for what goes wrong with its pixels inside the context.
    """
    _know_heic()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(BytesIO(source)) as picture:
                _bounded(picture)
                yield picture
    except PictureError:
        raise
    except Image.DecompressionBombError:
        raise PictureError("it has more pixels than any camera takes", _SMALLER) from None
    except UnidentifiedImageError:
        raise PictureError("it is not a picture", "save it again from the camera or the photo program") from None
    except _UNREADABLE as error:
        words = " ".join(str(error).split())[:80] or type(error).__name__
        raise PictureError(
            f"it is damaged ({words})", "copy it from the camera again, or save it again as a JPEG"
        ) from None


def upright(picture: Image.Image, at_least: int | None = None) -> Image.Image:
    """The pixels as the camera was held, in sRGB: mode RGB, or RGBA where something shows through.

    Args:
        picture: as `opened` gives it.
        at_least: how many pixels each side needs; a JPEG with more is decoded at a half, a quarter or an eighth.
    """
    if at_least is not None:
        picture.draft(None, (at_least, at_least))
    profile = picture.info.get("icc_profile")
    turned = ImageOps.exif_transpose(picture)
    flat = _in_srgb(_eight_bits(turned), profile)
    if flat.mode == "RGBA" and cast("tuple[int, int]", flat.getchannel("A").getextrema())[0] == 255:
        flat = flat.convert("RGB")
    flat.info = {}
    return flat


def problem_of(source: bytes) -> tuple[str, str] | None:
    """What is wrong with a picture, and what to do; None if its pixels can be read."""
    try:
        with opened(source) as picture:
            upright(picture, at_least=1)
    except PictureError as error:
        return error.problem, error.remedy
    return None


_SMALLER = f"save it smaller, with at most {MOST_PIXELS // 1_000_000} megapixels"


def _bounded(picture: Image.Image) -> None:
    width, height = picture.size
    if width * height > MOST_PIXELS:
        raise PictureError(f"it is {width} × {height} pixels large", _SMALLER)


def _eight_bits(picture: Image.Image) -> Image.Image:
    """16 bits of grey, and numbers with a fraction, as 8 bits; everything else as it is."""
    if picture.mode == "F":
        low, high = cast("tuple[float, float]", picture.getextrema())
        scale = 255 / (high - low) if high > low else 1.0
        return picture.point(lambda value: value * scale - low * scale).convert("L")
    if picture.mode.startswith("I"):
        whole = picture.convert("I")
        return whole.point(lambda value: value * (1 / 256)).convert("L")
    return picture


def _in_srgb(picture: Image.Image, profile: bytes | None) -> Image.Image:
    see_through = picture.has_transparency_data
    if picture.mode not in ("L", "RGB", "RGBA", "CMYK", "LAB"):
        picture = picture.convert("RGBA" if see_through else "RGB")
    wanted = "RGBA" if picture.mode == "RGBA" else "RGB"
    if profile:
        try:
            inside = ImageCms.ImageCmsProfile(BytesIO(profile))
            changed = ImageCms.profileToProfile(
                picture, inside, ImageCms.createProfile("sRGB"), ImageCms.Intent.RELATIVE_COLORIMETRIC, wanted
            )
        except (ImageCms.PyCMSError, OSError, ValueError):
            changed = None  # A profile that is damaged, or for another kind of picture, says nothing.
        if changed is not None:
            return changed
    return picture.convert("RGBA" if see_through else "RGB")


def _know_heic() -> None:
    # Imported here because only a process that reads pictures needs it.
    import pi_heif

    pi_heif.register_heif_opener()
