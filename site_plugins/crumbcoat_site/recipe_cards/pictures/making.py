"""What is made of a picture file, as bytes: sizes for pages, shapes for other programs, a copy under its own name.

Each function gives plain facts and files by name. They run in processes of their own, so this room imports little.
"""

from collections.abc import Mapping
from io import BytesIO
from operator import mul
from typing import Any

from PIL import Image, ImageOps, ImageSequence
from PIL.JpegImagePlugin import JpegImageFile, get_sampling

from crumbcoat_site.recipe_cards.pictures.formats import SHOWN, WIDTHS
from crumbcoat_site.recipe_cards.pictures.reading import MOST_FRAME_PIXELS, PictureError, opened, upright
from crumbcoat_site.recipe_cards.pictures.ready import SHAPES

_SAVING: Mapping[str, dict[str, Any]] = {
    # One thread for each picture: more of them would give other bytes on another machine.
    "avif": {"format": "AVIF", "quality": 58, "speed": 8, "max_threads": 1},
    "webp": {"format": "WEBP", "quality": 76, "method": 4},
    "jpg": {"format": "JPEG", "quality": 78, "optimize": True, "progressive": True},
}
_COPYING: Mapping[str, dict[str, Any]] = {
    "JPEG": {"optimize": True, "progressive": True},
    "PNG": {"optimize": True},
    "GIF": {"optimize": True},
    "WEBP": {"quality": 90, "method": 4},
    "AVIF": {"quality": 75, "speed": 8, "max_threads": 1},
}
"""The formats in which a picture of a page may stay."""
_LARGEST_SHAPE = 1200
_LARGEST_COPY = 2400
"""The longer side of a photograph in a page, in pixels: more than a column of text is wide on a fine screen."""

_STEP = 16
_LINEAR = [x / 12.92 if x <= 0.04045 else ((x + 0.055) / 1.055) ** 2.4 for x in (code / 255 for code in range(256))]

Made = tuple[dict[str, Any], dict[str, bytes]]


def sizes(source: bytes, *, cover: bool = False) -> Made:
    """A picture of a recipe in each width and format, never larger than it is.

    Args:
        cover: whether other programs get it too, in several shapes.
    """
    with opened(source) as picture:
        whole = upright(picture, at_least=WIDTHS[-1])
        own = min(whole.width, WIDTHS[-1])
        widths = sorted({own, *(width for width in WIDTHS if width < own)})
        files: dict[str, bytes] = {}
        size = whole.size
        for width in reversed(widths):
            whole = _fitted(whole, (width, max(1, round(size[1] * width / size[0]))))
            if width == widths[-1]:
                full = whole
            files |= {f"{width}.{ending}": _saved(whole, ending) for ending in SHOWN}
        shapes = {}
        for shape, (across, down) in SHAPES.items() if cover else ():
            cut = _cut(full, across, down)
            shapes[shape] = cut.size
            files[f"{shape}.jpg"] = _saved(cut, "jpg")
        colour = None if full.mode == "RGBA" else average_colour(full)
    facts = {"width": full.width, "height": full.height, "colour": colour, "widths": widths, "shapes": shapes}
    return facts, files


def clean_copy(source: bytes) -> Made:
    """A picture of a page, upright and without metadata, in its own format; a JPEG not larger than a page needs.

    Raises:
        PictureError: if it cannot be read, or has a format that browsers do not show.
    """
    with opened(source) as picture:
        kind = "JPEG" if picture.format in ("JPEG", "MPO") else str(picture.format)
        if kind not in _COPYING:
            raise PictureError(f"a browser does not show a picture of the format {kind}", "save it as a JPEG")
        if getattr(picture, "n_frames", 1) > 1 and picture.format != "MPO":
            return {}, {"copy": _moving(picture, kind)}
        tables = _tables(picture) if kind == "JPEG" else {}
        pixels = upright(picture)
        if kind == "JPEG":
            pixels.thumbnail((_LARGEST_COPY, _LARGEST_COPY), Image.Resampling.LANCZOS, reducing_gap=3)
        if len(tables.get("qtables", "..")) == 1:
            pixels = pixels.convert("L")
        file = BytesIO()
        pixels.save(file, format=kind, **_COPYING[kind], **tables)
        return {}, {"copy": file.getvalue()}


def _tables(picture: Image.Image) -> dict[str, Any]:
    """What a camera's JPEG was written with, by which a copy hardly differs; a quality if it has other channels."""
    if not isinstance(picture, JpegImageFile) or picture.mode not in ("L", "RGB"):
        return {"quality": 90}
    sampling = get_sampling(picture)
    return {"qtables": picture.quantization, **({"subsampling": sampling} if sampling >= 0 else {})}


def _moving(picture: Image.Image, kind: str) -> bytes:
    frames = int(getattr(picture, "n_frames", 1))
    if picture.width * picture.height * frames > MOST_FRAME_PIXELS:
        problem = f"it has {frames} frames of {picture.width} × {picture.height} pixels"
        raise PictureError(problem, "save it smaller or shorter")
    shown, times = [], []
    for frame in ImageSequence.Iterator(picture):
        times.append(int(frame.info.get("duration", 100)) or 100)
        shown.append(ImageOps.exif_transpose(frame).convert("RGBA"))
    for frame in shown:
        frame.info = {}
    file = BytesIO()
    loop = int(picture.info.get("loop", 0 if kind != "GIF" else 1))
    shown[0].save(file, format=kind, save_all=True, append_images=shown[1:], duration=times, loop=loop)
    return file.getvalue()


def _fitted(picture: Image.Image, size: tuple[int, int]) -> Image.Image:
    return picture if picture.size == size else picture.resize(size, Image.Resampling.LANCZOS, reducing_gap=3)


def _cut(picture: Image.Image, across: int, down: int) -> Image.Image:
    """The middle of a picture in another shape, not larger than it is."""
    width = min(picture.width, picture.height * across // down, _LARGEST_SHAPE)
    return ImageOps.fit(picture, (max(1, width), max(1, round(width * down / across))), Image.Resampling.LANCZOS)


def average_colour(picture: Image.Image) -> str:
    """The average of all pixels in light, not in code values, as `#rrggbb`, in coarse steps that keep grey grey.

    sRGB (IEC 61966-2-1) is made linear, averaged, and encoded again; then luma and colour differences (ITU-R BT.601)
    are rounded to multiples of 16. A site's security policy has a digest for each colour that is in a page.

    >>> average_colour(Image.new("RGB", (4, 4), (231, 228, 230)))
    '#e0e0e0'
    """
    counts = picture.histogram()
    pixels = picture.width * picture.height
    light = [sum(map(mul, counts[start : start + 256], _LINEAR)) / pixels for start in (0, 256, 512)]
    red, green, blue = (255 * (12.92 * x if x <= 0.0031308 else 1.055 * x ** (1 / 2.4) - 0.055) for x in light)
    luma = 0.299 * red + 0.587 * green + 0.114 * blue
    luma, to_blue, to_red = (_STEP * round(x / _STEP) for x in (luma, (blue - luma) / 1.772, (red - luma) / 1.402))
    shown = (luma + 1.402 * to_red, luma - 0.344 * to_blue - 0.714 * to_red, luma + 1.772 * to_blue)
    return "#" + "".join(f"{min(255, max(0, round(channel))):02x}" for channel in shown)


def _saved(picture: Image.Image, ending: str) -> bytes:
    """The bytes of a picture in one format; JPEG, which nothing shows through, is on white."""
    if ending == "jpg" and picture.mode == "RGBA":
        on_white = Image.new("RGB", picture.size, "white")
        on_white.paste(picture, mask=picture.getchannel("A"))
        picture = on_white
    file = BytesIO()
    picture.save(file, **_SAVING[ending])
    return file.getvalue()
