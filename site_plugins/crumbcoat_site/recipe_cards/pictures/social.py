"""The picture that shows a recipe where somebody shares its address: title, drawing or cover, and how fat it is."""

from collections.abc import Mapping, Sequence
from functools import cache
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont, ImageOps

from crumbcoat_site.recipe_cards.pictures.making import Made
from crumbcoat_site.recipe_cards.pictures.paths import Point, lines_of
from crumbcoat_site.recipe_cards.pictures.reading import opened, upright

WIDTH, HEIGHT = 1200, 630
"""What most services ask for: 1.91 to 1."""

_FACES = {"title": "Regular", "figure": "Light", "words": "Semibold"}
_EDGE, _PICTURE = 72, 500
_SCALE = 3
"""Lines are drawn three times as large, and made smaller, so that their edges are smooth."""


def social_picture(
    source: bytes,
    *,
    title: str,
    family: str,
    site: str,
    fat_percent: float | None,
    fat_text: str,
    drawing: Sequence[str],
    colours: Mapping[str, str],
) -> Made:
    """The social picture of a recipe, as JPEG.

    Args:
        source: its cover; empty if it has none.
        fat_text: as the card says it.
        drawing: the paths of its drawing: tint, spot and lines, on 200 × 160.
        colours: `paper`, `ink`, `quiet`, `accent`, `leaf`, `butter`, `blush`, `hairline`, each as `#rrggbb`.
    """
    picture = Image.new("RGB", (WIDTH, HEIGHT), colours["paper"])
    picture.paste(_side(source, drawing, colours), (WIDTH - _PICTURE, 0))
    draw = ImageDraw.Draw(picture)
    across = WIDTH - _PICTURE - 2 * _EDGE
    _spaced(draw, (_EDGE, 66), family.upper(), _face("words", 23), colours["accent"], across)
    font, lines = _title(draw, title, across)
    step = round(font.size * 1.12)
    for number, line in enumerate(lines):
        draw.text((_EDGE, 112 + number * step), line, font=font, fill=colours["ink"])
    _fat(draw, across, fat_percent, fat_text, colours)
    site = _cut(draw, site, _face("words", 24), across)
    draw.text((_EDGE, HEIGHT - 66), site, font=_face("words", 24), fill=colours["quiet"], anchor="ls")
    file = BytesIO()
    picture.save(file, format="JPEG", quality=88, optimize=True, progressive=True, subsampling=0)
    return {}, {"social.jpg": file.getvalue()}


def _side(source: bytes, drawing: Sequence[str], colours: Mapping[str, str]) -> Image.Image:
    """The right side: the cover, or the drawing on a leaf."""
    size = (_PICTURE, HEIGHT)
    if source:
        with opened(source) as cover:
            pixels = upright(cover, at_least=HEIGHT)
            ground = Image.new("RGB", pixels.size, colours["leaf"])
            ground.paste(pixels, mask=pixels.getchannel("A") if pixels.mode == "RGBA" else None)
            return ImageOps.fit(ground, size, Image.Resampling.LANCZOS)
    large = Image.new("RGB", (size[0] * _SCALE, size[1] * _SCALE), colours["leaf"])
    draw = ImageDraw.Draw(large)
    unit = 2.0 * _SCALE
    left, top = (large.width - 200 * unit) / 2, (large.height - 160 * unit) / 2
    tint, spot, lines = drawing
    for path, colour, dx, dy in ((tint, colours["butter"], -5, 4), (spot, colours["blush"], 4, -3)):
        for points in _placed(path, left + dx * unit, top + dy * unit, unit):
            if len(points) > 2:
                draw.polygon(points, fill=colour)
    thick = round(2.2 * unit)
    for points in _placed(lines, left, top, unit):
        draw.line(points, fill=colours["ink"], width=thick, joint="curve")
        for x, y in (points[0], points[-1]):
            draw.ellipse((x - thick / 2, y - thick / 2, x + thick / 2, y + thick / 2), fill=colours["ink"])
    return large.resize(size, Image.Resampling.LANCZOS)


def _placed(path: str, left: float, top: float, unit: float) -> list[list[Point]]:
    return [[(left + x * unit, top + y * unit) for x, y in points] for points in lines_of(path)]


def _fat(draw: ImageDraw.ImageDraw, across: int, percent: float | None, text: str, colours: Mapping[str, str]) -> None:
    """How fat it is: the figure, and a bar of a hundred per cent."""
    line = HEIGHT - 178
    figure = _face("figure", 78)
    draw.text((_EDGE, line), text, font=figure, fill=colours["accent"], anchor="ls")
    after = _EDGE + _length(draw, text, figure) + 16
    draw.text((after, line), "fat", font=_face("words", 30), fill=colours["quiet"], anchor="ls")
    top, thick = line + 24, 16
    draw.rectangle((_EDGE, top, _EDGE + across, top + thick), fill=colours["leaf"])
    if percent is not None:
        draw.rectangle((_EDGE, top, _EDGE + across * min(100.0, percent) / 100, top + thick), fill=colours["accent"])


def _title(draw: ImageDraw.ImageDraw, title: str, across: int) -> tuple[ImageFont.FreeTypeFont, list[str]]:
    """The largest type in which the title has room above the figure: two lines, or three of smaller type."""
    for size, most in ((84, 2), (72, 3), (64, 3), (56, 3)):
        font = _face("title", size)
        lines = _wrapped(draw, title, font, across)
        if len(lines) <= most and all(_length(draw, line, font) <= across for line in lines):
            return font, lines
    return font, [_cut(draw, line, font, across) for line in lines[:3]]


def _wrapped(draw: ImageDraw.ImageDraw, text: str, font: ImageFont.FreeTypeFont, across: int) -> list[str]:
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and _length(draw, longer, font) <= across:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _cut(draw: ImageDraw.ImageDraw, text: str, font: ImageFont.FreeTypeFont, across: int) -> str:
    """A text that fits into a line."""
    if _length(draw, text, font) <= across:
        return text
    while text and _length(draw, f"{text}…", font) > across:
        text = text[:-1]
    return f"{text.rstrip()}…"


def _spaced(
    draw: ImageDraw.ImageDraw, at: Point, text: str, font: ImageFont.FreeTypeFont, colour: str, across: int
) -> None:
    """Capitals with space between them."""
    x, y = at
    gap = min(2.6, max(0.0, (across - _length(draw, text, font)) / max(1, len(text))))
    for letter in text:
        draw.text((x, y), letter, font=font, fill=colour)
        x += _length(draw, letter, font) + gap


def _length(draw: ImageDraw.ImageDraw, text: str, font: ImageFont.FreeTypeFont) -> float:
    """How far a text reaches, to the end of its last letter or of the space around it."""
    return max(draw.textlength(text, font=font), draw.textbbox((0, 0), text, font=font)[2])


@cache
def _face(role: str, size: int) -> ImageFont.FreeTypeFont:
    """Source Serif Pro, which comes as a package: nothing is fetched, and every machine draws the same."""
    spec = find_spec("font_source_serif_pro")
    assert spec is not None
    assert spec.submodule_search_locations
    folder = Path(spec.submodule_search_locations[0], "files")
    file = folder / f"SourceSerifPro-{_FACES[role]}.ttf"
    return ImageFont.truetype(str(file), size, layout_engine=ImageFont.Layout.BASIC)
