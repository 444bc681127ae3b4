"""Which files beside a recipe are its pictures, which of them its steps show, and which nothing shows."""

import pytest
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_site.recipe_cards.source.photo_names import beside, photo_name, unused_photos
from crumbcoat_site.recipe_cards.source.photos import ShownPhoto, lost_photos, photos_of


def recipe(*photos: object, cover: object = None) -> Recipe:
    """A recipe of one stage, with a step for each of the photos; a step with None says nothing of a picture."""
    steps = [{"do": "Whip.", **({} if photo is None else {"photo": photo})} for photo in photos]
    steps[0]["add"] = "cream"
    return recipe_from(
        {
            "title": "Cream", "summary": "Cream.", "author": "A kitchen", "family": "whipped cream",
            "yield": {"portions": "4", "of": "cups"},
            "ingredients": {"cream": {"kind": "cream_heavy_whipping", "amount": "100 g"}},
            "stages": [{"title": "Whip", "steps": steps}],
            **({} if cover is None else {"cover": cover}),
        }
    )  # fmt: skip


def shown(found: tuple[ShownPhoto, ...]) -> list[tuple[str, str | None]]:
    return [(photo.slot, photo.file) for photo in found]


def test_a_picture_is_found_under_the_name_that_its_step_asks_for() -> None:
    slots = [f"{stage}-{step}" for stage in (1, 9, 10, 12) for step in (1, 9, 10, 25)]
    media = [f"{photo_name('milk-emulsions/veil', slot)}.jpg" for slot in slots]
    assert beside("milk-emulsions/veil", media) == {slot: [f"veil.{slot}.jpg"] for slot in sorted(slots)}


def test_more_pictures_of_a_step_than_there_are_letters_are_found_in_their_order() -> None:
    names = [f"{photo_name('veil', '2-1', number)}.jpg" for number in range(60)]
    assert names[25:28] == ["veil.2-1z.jpg", "veil.2-1za.jpg", "veil.2-1zb.jpg"]
    assert beside("veil", reversed(names)) == {"2-1": names}


def test_a_name_without_such_numbers_is_a_cover() -> None:
    for name in ("veil.0-1", "veil.1-0", "veil.01-2", "veil.1-", "veil.1-2-3", "veil.1-2B", "veil.first"):
        assert beside(name, [f"{name}.jpg"]) == {"cover": [f"{name}.jpg"]}


@pytest.mark.parametrize("ending", ["JPG", "jpeg", "JPEG", "Png", "WEBP", "tif", "TIFF", "gif", "HEIC", "avif"])
def test_the_endings_that_cameras_write_are_known_in_any_case(ending: str) -> None:
    assert beside("veil", [f"veil.{ending}", "veil.svg", "veil.pdf"]) == {"cover": [f"veil.{ending}"]}


def test_a_step_shows_what_is_called_after_it_though_its_recipe_says_nothing_of_it() -> None:
    files = ["cream.1-1.jpg", "cream.1-1b.jpg", "cream.1-1c.JPG", "cream.2-1.jpg", "other.jpg"]
    assert shown(photos_of(recipe(None, "a peak"), "cream", files)) == [
        ("cover", None),
        ("1-1", "cream.1-1.jpg"),
        ("1-1", "cream.1-1b.jpg"),
        ("1-1", "cream.1-1c.JPG"),
        ("1-2", None),
    ]


def test_a_step_shows_the_files_that_it_names() -> None:
    several = [{"file": "IMG_2.jpg", "caption": "Now"}, {"file": "./phone/IMG_1.HEIC"}, "a peak, close"]
    files = ["IMG_2.jpg", "phone/IMG_1.HEIC", "cream.1-1.jpg", "cream.jpg", "IMG_9.jpg"]
    found = photos_of(recipe(several, cover={"file": "IMG_9.jpg"}), "creams/cream", files)
    assert shown(found) == [
        ("cover", "IMG_9.jpg"),
        ("1-1", "IMG_2.jpg"),
        ("1-1", "phone/IMG_1.HEIC"),
        ("1-1", "cream.1-1.jpg"),
    ]
    assert found[1].photo.caption == "Now"


@pytest.mark.parametrize(
    ("file", "problem", "remedy"),
    [
        ("IMG_2042.jpg", "there is no picture 'IMG_2042.jpg' beside the recipe", "did you mean 'IMG_2041.jpg'?"),
        ("swirl.jpg", "there is no picture 'swirl.jpg' beside the recipe", "save it there, or take `file` out"),
        ("notes.txt", "'notes.txt' is not the name of a picture", "write its ending too, such as `.jpg`"),
    ],
)
def test_a_file_that_is_not_there_is_an_error(file: str, problem: str, remedy: str) -> None:
    (error,) = lost_photos(recipe({"file": file}), ["IMG_1.png"], ["IMG_2041.jpg"])
    assert (error.problem, error.remedy) == (problem, remedy)
    assert error.path == ("stages", 0, "steps", 0, "photo", "file")
    several = recipe(["a peak", {"file": file}, {"file": "IMG_1.png"}], cover={"file": file})
    assert [error.path for error in lost_photos(several, ["IMG_1.png"])] == [
        ("cover", "file"),
        ("stages", 0, "steps", 0, "photo", 1, "file"),
    ]
    assert shown(photos_of(several, "cream", ["IMG_1.png"]))[-1] == ("1-1", "IMG_1.png")


@pytest.mark.parametrize(
    ("path", "problem", "remedy"),
    [
        pytest.param("a/veil.3-1.jpg", "veil has no step 3-1", "`veil.1-1.jpg`", id="no such step"),
        pytest.param("a/viel.1-1.jpg", "no recipe and no page shows this picture", "'veil.1-1.jpg'", id="misspelt"),
        pytest.param(
            "a/IMG_7.JPG", "no recipe and no page shows this picture", "name it after a recipe", id="any name"
        ),
        pytest.param("a/veil.png", "the recipe shows another picture as its cover", "delete", id="a second cover"),
    ],
)
def test_a_picture_that_nothing_shows_is_named(path: str, problem: str, remedy: str) -> None:
    ((found, said, fix),) = unused_photos([path, "b/any.jpg"], {"a/veil": ["cover", "1-1"]}, [], "")
    assert (found, said) == (path, problem)
    assert remedy in fix


def test_a_picture_of_another_page_is_left_alone() -> None:
    media = ["a/my kitchen.jpg", "a/veil.jpg", "assets/stove.jpg"]
    pages = "![](a/my%20kitchen.jpg)"
    assert unused_photos(media, {"a/veil": ["cover"]}, ["a/veil.jpg"], pages) == []
