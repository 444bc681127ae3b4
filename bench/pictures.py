"""Bytes of pictures that a visitor's browser fetches for a card with six of them, and for a list that shows its cover.

`as the camera wrote them` is what a page fetched that showed the files themselves. The pictures are made here, as sharp
and as noisy as those of a telephone with 12 megapixels. The page is scrolled to its end; a telephone has three pixels
in each of the page's, a desk two."""

import json
import random
import subprocess
import sys
import time
from pathlib import Path
from urllib.parse import urlsplit

from PIL import Image, ImageFilter
from playwright.sync_api import Browser, Response

from bench.host import FOLDER, ROOT

SCREENS = {"telephone": (390, 844, 3), "desk": (1280, 900, 2)}
SOURCE = ROOT / "recipes" / "milk-emulsions" / "silk-milk-frosting.yaml"
STEPS = ("1-3", "1-5", "2-1", "3-1", "4-2")
SIZE = (4032, 3024)


def measure(browser: Browser, address: str) -> dict[str, dict[str, float]]:
    """Bytes on a telephone and on a desk, and the seconds of processors that the pictures take once."""
    folder = FOLDER / "pictures"
    docs = folder / "docs"
    docs.mkdir(parents=True, exist_ok=True)
    names = ["silk.jpg", *(f"silk.{step}.jpg" for step in STEPS)]
    for number, name in enumerate(names):
        if not (docs / name).is_file():
            photograph(number).save(docs / name, quality=93)
    (docs / "silk.yaml").write_text(SOURCE.read_text(encoding="utf-8"), encoding="utf-8")
    (docs / "index.md").write_text("# Home\n\n<!-- crumbcoat: recipe list -->\n", encoding="utf-8")
    first, again = _built(folder), _built(folder)
    before = sum((docs / name).stat().st_size for name in names)
    table: dict[str, dict[str, float]] = {
        "as the camera wrote them": {},
        "as published": {},
        "ratio": {},
        "in the list": {},
    }
    for screen in SCREENS:
        after = _fetched(browser, f"{address}pictures/site/silk/", screen)
        table["as the camera wrote them"][screen] = before
        table["as published"][screen] = after
        table["ratio"][screen] = round(after / before, 4)
        table["in the list"][screen] = _fetched(browser, f"{address}pictures/site/", screen)
    return {**table, "build, s": {"first": first, "again": again}}


def photograph(number: int) -> Image.Image:
    """A picture with coarse and fine parts, and the noise of a sensor."""
    chance = random.Random(number)
    picture = Image.new("RGB", SIZE, "gray")
    for size, strength in ((6, 1.0), (30, 0.5), (150, 0.3), (700, 0.12)):
        small = Image.frombytes("RGB", (size, size * 3 // 4), chance.randbytes(size * (size * 3 // 4) * 3))
        large = small.resize(SIZE, Image.Resampling.BICUBIC)
        picture = Image.blend(picture, large, strength)
    noise = Image.merge("RGB", [Image.effect_noise(SIZE, 14) for _ in range(3)])
    return Image.blend(picture.filter(ImageFilter.GaussianBlur(0.7)), noise, 0.08)


def _built(folder: Path) -> float:
    config = {
        "site_name": "Six pictures",
        "theme": {"name": "material", "font": False},
        "plugins": [{"recipe_cards": {"handouts": False}}],
    }
    (folder / "mkdocs.yml").write_text(json.dumps(config), encoding="utf-8")
    begin = time.perf_counter()
    subprocess.run([sys.executable, "-m", "mkdocs", "build", "--quiet"], cwd=folder, check=True)
    return round(time.perf_counter() - begin, 1)


def _fetched(browser: Browser, url: str, screen: str) -> int:
    """The bytes of all pictures of a page that is scrolled to its end."""
    width, height, pixels = SCREENS[screen]
    context = browser.new_context(viewport={"width": width, "height": height}, device_scale_factor=pixels)
    seen: set[str] = set()

    def look(response: Response) -> None:
        if "/assets/pictures/" in response.url:
            seen.add(urlsplit(response.url).path)

    context.on("response", look)
    page = context.new_page()
    page.goto(url, wait_until="networkidle")
    for place in range(0, int(page.evaluate("document.documentElement.scrollHeight")), height // 2):
        page.evaluate("place => scrollTo(0, place)", place)
        page.wait_for_timeout(60)
    page.wait_for_load_state("networkidle")
    context.close()
    return sum((FOLDER / path.lstrip("/")).stat().st_size for path in seen)
