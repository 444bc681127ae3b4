"""Which files beside a recipe are its pictures."""

from crumbcoat_site.recipe_cards.source.photos import photo_name, photos_by_recipe


def test_a_picture_is_found_under_the_name_that_its_step_asks_for() -> None:
    slots = [(stage, step) for stage in (1, 9, 10, 12) for step in (1, 9, 10, 25)]
    media = [f"{photo_name('milk-emulsions/veil', stage, step)}.jpg" for stage, step in slots]
    expected = {f"{stage}-{step}": f"veil.{stage}-{step}.jpg" for stage, step in slots}
    assert photos_by_recipe(media) == {"milk-emulsions/veil": expected}


def test_a_name_without_such_numbers_is_a_cover() -> None:
    for name in ("veil.0-1", "veil.1-0", "veil.01-2", "veil.1-", "veil.1-2-3", "veil.first"):
        assert photos_by_recipe([f"{name}.jpg"]) == {name: {"cover": f"{name}.jpg"}}
