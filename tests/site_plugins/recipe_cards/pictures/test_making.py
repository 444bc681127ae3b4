"""What is made of picture files: upright, in sRGB, without metadata, and never larger than the picture."""

import random
from io import BytesIO
from pathlib import Path

import pytest
from crumbcoat_site.recipe_cards.pictures.formats import WIDTHS
from crumbcoat_site.recipe_cards.pictures.making import clean_copy, sizes
from crumbcoat_site.recipe_cards.pictures.reading import MOST_PIXELS, PictureError, problem_of
from PIL import Image, ImageCms

from tests.site_plugins.recipe_cards.pictures.camera import (
    CORNERS,
    corners,
    metadata,
    photograph,
    read,
    scene,
    written,
)

ROOT = Path(__file__).parents[4]
FORMATS = {"avif": "AVIF", "webp": "WEBP", "jpg": "JPEG"}


def is_near(
    found: list[tuple[int, int, int]], wanted: tuple[tuple[int, int, int], ...] = CORNERS, by: int = 12
) -> bool:
    return all(
        abs(a - b) <= by for pixel, other in zip(found, wanted, strict=True) for a, b in zip(pixel, other, strict=True)
    )


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF", "TIFF"])
def test_a_picture_is_upright_and_says_nothing_of_its_camera(orientation: int, kind: str) -> None:
    source = photograph(orientation, kind)
    assert metadata(source) != []
    facts, files = sizes(source, cover=True)
    assert (facts["width"], facts["height"], facts["widths"]) == (90, 60, [90])
    assert files.keys() == {"90.avif", "90.webp", "90.jpg", "1x1.jpg", "4x3.jpg", "16x9.jpg"}
    for name, content in files.items():
        picture = read(content)
        assert picture.format == FORMATS[name.rpartition(".")[2]]
        assert metadata(content) == [], name
        assert is_near(corners(picture)), name


@pytest.mark.parametrize(("kind", "size"), [("JPEG", (1800, 2400)), ("PNG", (2700, 3600))])
def test_a_photograph_of_a_page_is_not_larger_than_a_page_needs(kind: str, size: tuple[int, int]) -> None:
    file, exif = BytesIO(), Image.Exif()
    exif[0x0112] = 6  # Orientation (Exif 2.3): the first row is the right side of the picture.
    Image.new("RGB", (3600, 2700)).save(file, kind, exif=exif)
    _, files = clean_copy(file.getvalue())
    assert Image.open(BytesIO(files["copy"])).size == size


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF"])
def test_a_copy_is_upright_in_its_own_format_and_says_nothing_of_its_camera(orientation: int, kind: str) -> None:
    _, files = clean_copy(photograph(orientation, kind))
    copy = read(files["copy"])
    assert (copy.format, copy.size) == (kind, (90, 60))
    assert metadata(files["copy"]) == []
    assert is_near(corners(copy))


def test_a_telephone_s_heic_is_a_picture_like_any_other_and_stays_out_of_a_page() -> None:
    """Written by libheif with x265, of the scene that the other files have, by a telephone on its side."""
    source = (ROOT / "tests" / "reference" / "telephone.heic").read_bytes()
    assert all(secret in source for secret in (b"Ana Example", b"Quiet Street", b"51.5007"))
    facts, files = sizes(source)
    assert (facts["width"], facts["height"]) == (90, 60)
    for content in files.values():
        assert metadata(content) == []
        assert is_near(corners(read(content)), by=20)
    with pytest.raises(PictureError, match="a browser does not show a picture of the format HEIF"):
        clean_copy(source)
    with pytest.raises(PictureError, match="it is not a picture"):
        sizes(source[:-200])


def test_a_copy_of_a_moving_picture_moves() -> None:
    frames = [scene(), scene().rotate(180), Image.new("RGB", (90, 60), "white")]
    for kind in ("GIF", "WEBP", "PNG"):
        source = written(frames[0], kind, save_all=True, append_images=frames[1:], duration=[100, 200, 300], loop=0)
        _, files = clean_copy(source)
        copy = read(files["copy"])
        assert (copy.format, copy.n_frames) == (kind, 3)  # type: ignore[attr-defined]
        assert metadata(files["copy"]) == []
        assert is_near(corners(copy))


def test_a_copy_of_a_camera_s_jpeg_hardly_differs() -> None:
    noise = random.Random(7)
    picture = Image.frombytes("RGB", (64, 48), noise.randbytes(64 * 48 * 3)).resize(
        (640, 480), Image.Resampling.BICUBIC
    )
    source = written(picture, "JPEG", quality=85)
    _, files = clean_copy(source)
    before, after = read(source), read(files["copy"])
    assert max(abs(a - b) for a, b in zip(before.tobytes(), after.tobytes(), strict=True)) <= 20
    assert len(files["copy"]) <= 1.02 * len(source)


@pytest.mark.parametrize(
    ("width", "height", "widths"),
    [
        (239, 100, [239]),
        (240, 100, [240]),
        (500, 900, [240, 480, 500]),
        (1600, 40, list(WIDTHS)),
        (2500, 50, list(WIDTHS)),
    ],
)
def test_a_picture_has_the_widths_below_its_own_and_never_a_larger_one(
    width: int, height: int, widths: list[int]
) -> None:
    facts, files = sizes(written(scene(width, height), "PNG"))
    assert facts["widths"] == widths
    assert (facts["width"], facts["height"]) == (widths[-1], max(1, round(height * widths[-1] / width)))
    for name, content in files.items():
        picture = read(content)
        assert picture.width == int(name.partition(".")[0])
        assert abs(picture.height - height * picture.width / width) <= 1


def test_a_cover_is_cut_from_its_middle_into_three_shapes() -> None:
    facts, files = sizes(written(scene(2000, 1000), "JPEG", quality=95), cover=True)
    assert facts["shapes"] == {"1x1": (800, 800), "4x3": (1066, 800), "16x9": (1200, 675)}
    for shape, size in facts["shapes"].items():
        assert read(files[f"{shape}.jpg"]).size == size
        assert is_near(corners(read(files[f"{shape}.jpg"])))


def placeholder(picture: Image.Image) -> tuple[int, ...]:
    facts, _ = sizes(written(picture, "PNG"))
    return tuple(bytes.fromhex(facts["colour"][1:]))


@pytest.mark.parametrize("colour", [(200, 100, 50), (231, 228, 230), (225, 231, 229), (90, 40, 20), (250, 240, 215)])
def test_the_place_of_a_picture_has_nearly_its_colour(colour: tuple[int, int, int]) -> None:
    """Steps of 16 in luma and colour difference: by ITU-R BT.601 at most 8 + 8 * 1.772 of 255 away, plus rounding."""
    shown = placeholder(Image.new("RGB", (40, 40), colour))
    assert max(abs(a - b) for a, b in zip(shown, colour, strict=True)) <= 23


def test_the_place_of_a_pale_picture_is_pale_and_not_pink() -> None:
    """The covers of the demo, against an average of light by IEC 61966-2-1 with the exponent 2.2 that it is near to."""
    for file in sorted((ROOT / "recipes").glob("*/*.webp")):
        with Image.open(file) as picture:
            codes = picture.convert("RGB").resize((96, 72), Image.Resampling.NEAREST).tobytes()
        light = [sum((code / 255) ** 2.2 for code in codes[channel::3]) / (96 * 72) for channel in range(3)]
        average = [255 * channel ** (1 / 2.2) for channel in light]
        facts, _ = sizes(file.read_bytes())
        shown = bytes.fromhex(facts["colour"][1:])
        assert max(abs(a - b) for a, b in zip(shown, average, strict=True)) <= 24, file.name


def test_every_grey_keeps_a_grey_place() -> None:
    for grey in range(0, 256, 5):
        red, green, blue = placeholder(Image.new("RGB", (8, 8), (grey, grey, grey)))
        assert red == green == blue
        assert abs(red - grey) <= 8


def test_the_average_is_that_of_light() -> None:
    """Half black, half white is half the light: 188 of 255 in sRGB (IEC 61966-2-1), to the nearest step of 16."""
    checks = Image.new("RGB", (40, 40))
    checks.paste((255, 255, 255), (0, 0, 20, 40))
    assert placeholder(checks) == (192, 192, 192)


def test_what_shows_through_stays_so_and_is_white_as_jpeg() -> None:
    picture = scene()
    picture.putalpha(Image.linear_gradient("L").resize(picture.size))
    facts, files = sizes(written(picture, "PNG"))
    assert facts["colour"] is None
    for ending in ("avif", "webp"):
        assert read(files[f"90.{ending}"]).mode == "RGBA"
    top = read(files["90.jpg"]).getpixel((1, 0))
    assert isinstance(top, tuple)
    assert min(top) > 240


def test_an_opaque_picture_with_an_alpha_channel_is_an_ordinary_one() -> None:
    picture = scene()
    picture.putalpha(255)
    facts, files = sizes(written(picture, "PNG"))
    assert facts["colour"] is not None
    assert read(files["90.webp"]).mode == "RGB"


def test_grey_of_16_bits_is_not_burnt_out() -> None:
    grey = Image.new("I;16", (40, 20), 128 * 257)
    _, files = sizes(written(grey, "PNG"))
    pixel = read(files["40.webp"]).convert("RGB").getpixel((20, 10))
    assert isinstance(pixel, tuple)
    assert all(abs(part - 128) <= 3 for part in pixel)


@pytest.mark.parametrize("mode", ["P", "L", "1", "LA", "CMYK", "YCbCr"])
def test_every_kind_of_pixel_becomes_red_green_and_blue(mode: str) -> None:
    kind = {"CMYK": "JPEG", "YCbCr": "TIFF"}.get(mode, "PNG")
    picture = scene().convert(mode, palette=Image.Palette.ADAPTIVE)
    _, files = sizes(written(picture, kind))
    expected = picture.convert("RGB")
    assert is_near(corners(read(files["90.webp"])), tuple(corners(expected)), by=20)
    _, copy = clean_copy(written(picture, kind)) if kind != "TIFF" else ({}, {"copy": files["90.jpg"]})
    assert is_near(corners(read(copy["copy"])), tuple(corners(expected)), by=20)


def test_colours_of_another_profile_become_those_of_srgb() -> None:
    """A profile whose green is red, and the other way round: the picture looks as its author saw it."""
    picture = scene()
    plain = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    red, green = plain.index(b"rXYZ"), plain.index(b"gXYZ")
    swapped = bytearray(plain)
    swapped[red : red + 4], swapped[green : green + 4] = b"gXYZ", b"rXYZ"
    for make in (sizes, clean_copy):
        _, files = make(written(picture, "PNG", icc_profile=bytes(swapped)))
        content = files.get("copy") or files["90.webp"]
        seen = corners(read(content))
        assert seen[0][1] > 200 > seen[0][0]
        assert metadata(content) == []


def test_a_damaged_profile_is_passed_over() -> None:
    _, files = sizes(written(scene(), "PNG", icc_profile=b"no profile" * 20))
    assert is_near(corners(read(files["90.webp"])))


WHOLE = photograph(picture=scene(600, 400))


@pytest.mark.parametrize(
    ("source", "problem"),
    [
        pytest.param(b"This is a text.", "it is not a picture", id="a text"),
        pytest.param(b"", "it is not a picture", id="an empty file"),
        pytest.param(b"<svg xmlns='http://www.w3.org/2000/svg'/>", "it is not a picture", id="a drawing"),
        pytest.param(WHOLE[: len(WHOLE) // 2], "it is damaged", id="half of a JPEG"),
        pytest.param(written(scene(300, 200), "PNG")[:-60], "it is damaged", id="a PNG without its end"),
        pytest.param(written(scene(300, 200), "WEBP")[:-60], "", id="a WebP without its end"),
        pytest.param(written(scene(300, 200), "AVIF")[:-60], "", id="an AVIF without its end"),
    ],
)  # fmt: skip
def test_what_only_looks_like_a_picture_is_named(source: bytes, problem: str) -> None:
    for make in (sizes, clean_copy):
        with pytest.raises(PictureError) as caught:
            make(source)
        assert caught.value.problem.startswith(problem)
        assert caught.value.remedy
    assert problem_of(source) == (caught.value.problem, caught.value.remedy)


def huge_png(width: int, height: int) -> bytes:
    """A PNG of some hundred bytes that says it is huge (PNG, 3rd edition, 11.2.1: IHDR)."""
    import struct
    import zlib

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("side", [11_000, 14_000, 60_000])
def test_a_picture_with_too_many_pixels_is_refused_before_they_are_read(side: int) -> None:
    assert side * side > MOST_PIXELS
    for make in (sizes, clean_copy):
        with pytest.raises(PictureError, match="pixels") as caught:
            make(huge_png(side, side))
        assert caught.value.remedy == "save it smaller, with at most 120 megapixels"


def test_a_moving_picture_with_too_many_frames_is_refused() -> None:
    frames = [Image.new("1", (4000, 4000), number % 2) for number in range(26)]
    source = written(frames[0], "GIF", save_all=True, append_images=frames[1:], duration=50)
    with pytest.raises(PictureError, match="it has 26 frames"):
        clean_copy(source)
    assert sizes(source)[0]["width"] == 1600


def test_a_tiff_stays_out_of_a_page() -> None:
    with pytest.raises(PictureError, match="a browser does not show a picture of the format TIFF"):
        clean_copy(photograph(kind="TIFF"))


def test_the_same_picture_gives_the_same_bytes() -> None:
    source = photograph(6, picture=scene(700, 500))
    assert sizes(source, cover=True) == sizes(source, cover=True)
    assert clean_copy(source) == clean_copy(source)


def test_the_pixels_of_a_large_jpeg_are_those_of_the_whole_one() -> None:
    """It is decoded at a half, which must neither move nor shrink what is shown."""
    file = BytesIO()
    scene(4000, 3200).save(file, "JPEG", quality=90)
    facts, files = sizes(file.getvalue())
    assert (facts["width"], facts["height"]) == (1600, 1280)
    assert is_near(corners(read(files["1600.jpg"])))
