"""A small site with an address: recipes, of which some are drafts, a public notebook, and pages with dates."""

import json
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

ROOT = Path(__file__).parents[3]
URL = "https://lantern.example/"
FULL = (ROOT / "tests" / "golden" / "good-every-field" / "recipe.yaml").read_text(encoding="utf-8")
SMALL = (ROOT / "tests" / "golden" / "good-smallest" / "recipe.yaml").read_text(encoding="utf-8")
TRIAL = "number: 1\ndate: 2026-03-01\n"


def png() -> bytes:
    """A white picture of 8 by 8 points (W3C, PNG)."""

    def part(kind: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))

    head = struct.pack(">IIBBBBB", 8, 8, 8, 2, 0, 0, 0)
    rows = zlib.compress((b"\0" + b"\xff" * 24) * 8)
    return b"\x89PNG\r\n\x1a\n" + part(b"IHDR", head) + part(b"IDAT", rows) + part(b"IEND", b"")


def built(folder: Path, command: str = "build", **settings: object) -> Path:
    """The site of a folder, without the runtime of the calculators."""
    options = {
        "site_name": "Lantern & Sons",
        "site_description": "Frostings for <tall> cakes",
        "site_author": "Lantern Street",
        "site_url": URL,
        "docs_dir": "docs",
        "strict": True,
        "theme": {"name": "material", "font": False},
        "plugins": ["findable_pages", "recipe_cards"],
    } | settings
    (folder / "mkdocs.yml").write_text(json.dumps(options), encoding="utf-8")
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"))
    config.plugins.on_startup(command=command, dirty=False)
    build(config)
    return folder / "site"


def cover(site: Path) -> str:
    """The address of the only cover, as it is for other programs."""
    (file,) = site.glob("assets/pictures/*/two-milks-16x9.jpg")
    return URL + file.relative_to(site).as_posix()


def write(folder: Path, files: dict[str, str | bytes]) -> None:
    """Files below `docs`."""
    for name, content in files.items():
        path = folder / "docs" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())


@pytest.fixture
def site(tmp_path: Path) -> Callable[..., Path]:
    """Build a site of these files below `docs`, with these settings."""

    def made(files: dict[str, str | bytes], command: str = "build", **settings: object) -> Path:
        write(tmp_path, files)
        return built(tmp_path, command, **settings)

    return made


@pytest.fixture(scope="session")
def kitchen(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of every kind of page."""
    folder = tmp_path_factory.mktemp("kitchen")
    small = SMALL.replace("title: ", "title: Salt & ", 1)
    write(
        folder,
        {
            "index.md": "# Home\n",
            "creams/index.md": "# All creams\n",
            "creams/two milks.yaml": FULL.replace("show: private", "show: public")
            .replace("light butter", "a spread")
            .replace("IMG_2041.jpg", "two milks.png")
            .replace("creams/whipped", "creams/salt"),
            "creams/two milks.trials/1.yaml": TRIAL,
            "creams/two milks.png": png(),
            "creams/salt.yaml": f"{small}\npublished: 2026-04-05\n",
            "creams/secret.yaml": f"{small}\ndraft: yes\npublished: 2026-01-01\n",
            "creams/later.yaml": f"{small}\npublished: 2999-01-01\n",
            "story.md": "---\npublished: 2026-04-03\nupdated: 2026-04-07\ndescription: A & B\n---\n# Tea & *story*\n",
            "private.md": "---\npublished: 2026-04-04\nrobots: noindex\n---\n# For us\n",
        },
    )
    return built(folder)
