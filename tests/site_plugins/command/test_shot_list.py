"""`crumbcoat shot-list`: what is still to be photographed, and what each picture must show."""

from pathlib import Path

from PIL import Image

from tests.site_plugins.command.conftest import GOOD, run
from tests.site_plugins.recipe_cards.conftest import read_html


def test_what_recipes_ask_for_is_listed_with_its_file(folder: Path) -> None:
    done = run("shot-list", "--wanted")
    assert done.exit_code == 0
    lines = [line.strip() for line in done.output.splitlines()]
    assert lines[0] == "Everyday milk frosting  (docs/milk.yaml)"
    assert [line for line in lines if line.startswith("[ ]")] == [
        "[ ] cover: Everyday milk frosting, finished: slices of a 20 cm cake, filled and coated",
        "[ ] step 1.3: The whisk drawn through the pan, its trail still open, one thick bubble rising",
        "[ ] step 2.1: The butter before and after beating, side by side, to show how much paler it has become",
        "[ ] step 3.2: The finished bowl from above with the tracks of the whisk, satin rather than shiny",
    ]
    assert [line for line in lines if line.startswith("save as")] == [
        "save as milk.jpg", "save as milk.1-3.jpg", "save as milk.2-1.jpg", "save as milk.3-2.jpg",
    ]  # fmt: skip
    assert "look for: Satin and light; the whisk leaves tracks that do not close." in lines
    assert lines[-1] == "4 pictures to take, none there."


def test_a_picture_that_is_there_is_not_listed_and_other_steps_are_if_there_is_something_to_see(folder: Path) -> None:
    for name in ("milk.PNG", "milk.1-3.jpg", "milk.1-1.jpg"):
        Image.new("RGB", (4, 3)).save(folder / "docs" / name)
    output = run("shot-list", "docs/milk.yaml").output
    assert "cover" not in output
    assert "step 1.3" not in output
    assert "step 1.1" not in output
    assert "[ ] step 1.4, if you like: Shiny and even, the colour of pale custard." in output
    assert "all is well: It falls from the whisk in a ribbon that stays on top for a moment. A cooled" in output
    assert "also useful, if it goes wrong: Lumps, Thin as cream, Brown flecks" in output
    assert output.endswith("2 pictures to take, 3 there; 3 more steps have something to see.\n")


def test_the_page_to_print_has_a_box_for_each_picture(folder: Path) -> None:
    (folder / "docs" / "milk.yaml").write_text(GOOD.replace("The whisk drawn", "The <b>whisk</b> drawn"))
    assert run("shot-list", "--wanted", "--page", "shots.html").output == "The list is in shots.html.\n"
    written = (folder / "shots.html").read_text(encoding="utf-8")
    page = read_html(written.partition("</style>")[2].replace("</html>", ""))
    assert len(page.all("input", type="checkbox")) == 4
    assert page.all("li")[1].text.startswith("step 1.3: The <b>whisk</b> drawn through the pan")
    assert [code.text for code in page.all("code")][1] == "milk.1-3.jpg"


def test_a_file_with_problems_is_left_out_and_says_so(folder: Path) -> None:
    (folder / "docs" / "other.yaml").write_text("title: Nothing")
    done = run("shot-list")
    assert "docs/other.yaml: it has problems, and is left out.\n    Fix: crumbcoat check" in done.output
    assert "Everyday milk frosting" in done.output
