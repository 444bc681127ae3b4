"""Picture files as cameras and programs write them, made here."""

from io import BytesIO
from typing import Any

from PIL import Image, ImageCms, PngImagePlugin

SECRETS = (b"Ana Example", b"51.5007", b"Quiet Street", b"secret note", b"GPS")
"""What must not reach a site."""
_XMP = (
    b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    b'<rdf:Description xmlns:dc="http://purl.org/dc/elements/1.1/" dc:creator="Ana Example"/></rdf:RDF></x:xmpmeta>'
)
CORNERS = ((230, 30, 30), (30, 200, 30), (30, 30, 230), (240, 240, 240))
"""The colours of a scene as it is: top left, top right, bottom left, bottom right."""


def scene(width: int = 90, height: int = 60) -> Image.Image:
    """What the camera saw, upright: a colour in each corner."""
    picture = Image.new("RGB", (width, height))
    for number, colour in enumerate(CORNERS):
        left, top = (number % 2) * width // 2, (number // 2) * height // 2
        picture.paste(colour, (left, top, left + width - width // 2, top + height - height // 2))
    return picture


def corners(picture: Image.Image) -> list[tuple[int, int, int]]:
    """The colours of a picture near its corners."""
    pixels = picture.convert("RGB")
    places = [
        (x, y) for y in (pixels.height // 8, pixels.height * 7 // 8) for x in (pixels.width // 8, pixels.width * 7 // 8)
    ]
    found = []
    for place in places:
        pixel = pixels.getpixel(place)
        assert isinstance(pixel, tuple)
        found.append((int(pixel[0]), int(pixel[1]), int(pixel[2])))
    return found


def exif(orientation: int = 1) -> Image.Exif:
    """What a telephone writes: who, where and which way up."""
    written = Image.Exif()
    written[0x0112] = orientation
    written[0x013B] = "Ana Example"
    written[0x010E] = "Quiet Street 7"
    written.get_ifd(0x8825).update(
        {1: "N", 2: (51.0, 30.0, 2.5), 3: "W", 4: (0.0, 7.0, 28.0), 27: b"ASCII\0\0\0GPS 51.5007"}
    )
    return written


_STORED = {
    2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180, 4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE, 6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}  # fmt: skip
"""How the sensor stores a scene for each orientation (Exif 2.32, 4.6.4: 0112)."""


def photograph(orientation: int = 1, kind: str = "JPEG", picture: Image.Image | None = None) -> bytes:
    """A scene as a camera that was held in some way stores it, with all that it writes beside it."""
    picture = picture or scene()
    turn = _STORED.get(orientation)
    stored = picture.transpose(turn) if turn is not None else picture
    saving: dict[str, Any] = {"exif": exif(orientation)}
    if kind in ("JPEG", "WEBP", "AVIF", "PNG", "TIFF"):
        saving["icc_profile"] = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    if kind == "JPEG":
        saving |= {"comment": b"secret note", "xmp": _XMP, "quality": 95, "subsampling": 0}
    elif kind in ("WEBP", "AVIF"):
        saving |= {"xmp": _XMP, "quality": 90}
    elif kind == "PNG":
        texts = PngImagePlugin.PngInfo()
        texts.add_text("Author", "Ana Example")
        texts.add_itxt("Comment", "secret note")
        saving["pnginfo"] = texts
    elif kind == "GIF":
        saving = {"comment": b"secret note"}
    return written(stored, kind, **saving)


def written(picture: Image.Image, kind: str, **saving: Any) -> bytes:
    """A picture as a file of one kind."""
    file = BytesIO()
    picture.save(file, kind, **saving)
    return file.getvalue()


def read(content: bytes) -> Image.Image:
    """A picture from its file, with its pixels."""
    picture = Image.open(BytesIO(content))
    picture.load()
    return picture


def metadata(content: bytes) -> list[str]:
    """What is in a picture file beside its pixels, and what of the secrets its bytes hold."""
    picture = read(content)
    plain = {
        "jfif", "jfif_version", "jfif_unit", "jfif_density", "progressive", "progression", "adobe", "adobe_transform",
        "transparency", "background", "loop", "duration", "timestamp", "version", "extension", "bbox", "blend",
        "default_image", "disposal",
    }  # fmt: skip
    found = sorted(set(map(str, picture.info)) - plain)
    found += [str(tag) for tag in picture.getexif()]
    return found + [secret.decode() for secret in SECRETS if secret in content]
