"""A small site with one calculator on its pages, built once; the runtime comes from the project's own cache."""

import html
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from crumbcoat_calc.bridge import Session
from crumbcoat_site.calculators.artefacts import Artefacts
from mkdocs.commands.build import build
from mkdocs.config import load_config

CACHE = Path(__file__).parents[3] / ".cache" / "crumbcoat"
CONTENT = {
    "recipe": {
        "title": "Plain cream",
        "summary": "Sweetened cream, whipped.",
        "author": "Lantern Street teaching kitchen",
        "family": "whipped cream",
        "yield": {"portions": "8", "of": "cupcakes"},
        "ingredients": {
            "cream": {"kind": "cream_heavy_whipping", "amount": "500 g"},
            "sugar": {"kind": "sugar_powdered", "amount": "50 g"},
        },
        "stages": [{"title": "Whip", "steps": [{"do": "Whip until soft.", "add": ["cream", "sugar"]}]}],
    }
}
PAGE = """# {title}

<div>
<recipe-calculator name="batch" context="{context}" data-digest="recipe:plain" data-state="printed"><form id="batch">
<label>Batches <input name="factor" value="1"></label>
<p data-problem="factor"></p><p data-problem=""></p><p data-progress></p>
</form></recipe-calculator>
<label>Cream <input name="amount.cream" form="batch" value="500 g"></label>
<p>Fat: <span data-text="fat.percent">printed</span>, sugar: <span data-text="amount.sugar">50 g</span></p>
</div>

[other]({other})
"""


@pytest.fixture(scope="session")
def content() -> dict[str, object]:
    """The context of the small site's calculator."""
    return dict(CONTENT)


@pytest.fixture(scope="session")
def answered() -> Callable[..., dict[str, object]]:
    """The bridge's reply under CPython to an edit of the small site's calculator."""

    def ask(state: dict[str, str] | None = None, **edit: str) -> dict[str, object]:
        named = {name.replace("_", "."): value for name, value in edit.items()}
        request = {"calculator": "batch", "context": "plain", "content": CONTENT, "state": state or {}, "edit": named}
        reply: dict[str, object] = json.loads(Session().answer(json.dumps(request)))
        return reply

    return ask


@pytest.fixture(scope="session")
def small_site(
    runtime: Artefacts, serve: Callable[[Path], str], tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, str]:
    """The folder of a built site of two pages, and the address that it is built for and served at."""
    folder = tmp_path_factory.mktemp("small")
    address = serve(folder / "site")
    (folder / "docs").mkdir()
    for name in ("index", "other"):
        other = "other.md" if name == "index" else "index.md"
        page = PAGE.format(title=name, context=html.escape(json.dumps(CONTENT)), other=other)
        (folder / "docs" / f"{name}.md").write_text(page)
    (folder / "mkdocs.yml").write_text(
        json.dumps(
            {
                "site_name": "Small",
                "strict": True,
                "theme": {"name": "material", "font": False, "features": ["navigation.instant"]},
                "plugins": [{"calculators": {"cache": str(CACHE)}}],
                "markdown_extensions": ["md_in_html"],
            }
        )
    )
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"), site_url=address)
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    return folder / "site", address
