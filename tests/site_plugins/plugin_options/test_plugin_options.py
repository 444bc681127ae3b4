"""An option that does not exist, or has a value that it cannot have: place, problem and fix, for each plug-in."""

from pathlib import Path

import pytest
from crumbcoat_site.reference.options import PLUGINS
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from tests.site_plugins.command.conftest import run


@pytest.fixture(autouse=True)
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "index.md").write_text("# Kitchen\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(plugin: str, option: str, value: str = "yes") -> None:
    text = f"site_name: Kitchen\nx: !ENV [HOME, 1]\nplugins:\n  - search\n  - {plugin}:\n      {option}: {value}\n"
    Path("mkdocs.yml").write_text(text, encoding="utf-8")


@pytest.mark.parametrize("plugin", [name for name, *_ in PLUGINS])
def test_an_option_that_does_not_exist_has_its_place_and_the_nearest_one(
    plugin: str, caplog: pytest.LogCaptureFixture
) -> None:
    (first, *_) = [name for name, _ in next(config for name, _, config in PLUGINS if name == plugin)()._schema]
    write(plugin, first + "d")
    problem = f"mkdocs.yml:6: the plug-in '{plugin}' has no option '{first}d'.\n    Fix: did you mean '{first}'?"
    done = run("check")
    assert done.exit_code == 1
    assert problem in done.output
    assert "recipes/reference/options.md of Crumbcoat describes them." in done.output
    with pytest.raises(Abort):
        load_config("mkdocs.yml")
    assert f"\n{problem}" in caplog.text


@pytest.mark.parametrize(
    "plugins", ["{recipe_cards: {region: UK, embedd: yes}}", "[{recipe_cards: {embedd: yes}}]"], ids=["map", "list"]
)
def test_however_the_plugins_are_written(plugins: str) -> None:
    Path("mkdocs.yml").write_text(f"site_name: Kitchen\nplugins:\n  {plugins}\n", encoding="utf-8")
    assert "mkdocs.yml:3: the plug-in 'recipe_cards' has no option 'embedd'." in run("check").output


def test_an_option_that_is_inherited_from_another_file_has_no_line(caplog: pytest.LogCaptureFixture) -> None:
    write("recipe_cards", "embedd")
    Path("mkdocs.yml").rename("site.yml")
    Path("mkdocs.yml").write_text("INHERIT: site.yml\n", encoding="utf-8")
    with pytest.raises(Abort):
        load_config("mkdocs.yml")
    assert "\nmkdocs.yml: the plug-in 'recipe_cards' has no option 'embedd'." in caplog.text


def test_a_value_that_an_option_cannot_have_has_its_place(caplog: pytest.LogCaptureFixture) -> None:
    write("recipe_cards", "region", "GB")
    with pytest.raises(Abort):
        load_config("mkdocs.yml")
    assert "\nmkdocs.yml:6: region: Expected one of: ('EU', 'UK', 'US') but received: 'GB'\n    Fix: " in caplog.text


def test_options_that_exist_are_read() -> None:
    write("recipe_cards", "region", "UK")
    assert load_config("mkdocs.yml").plugins["recipe_cards"].config.region == "UK"
    assert "1 problem" not in run("check").output
