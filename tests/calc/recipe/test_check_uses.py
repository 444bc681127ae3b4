"""Everything listed is used exactly once, and nothing else. More texts of errors are in tests/golden."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given
from hypothesis import strategies as st

MILK = {"kind": "milk_whole", "amount": "100 g", "portions": {"a": "60 g", "b": "40 g"}}
BUTTER = {"kind": "butter_unsalted", "amount": "50 g"}
DIVIDED = {"milk": MILK, "butter": BUTTER}


def recipe(stages: list[dict[str, object]], ingredients: dict[str, object] | None = None) -> Recipe:
    return recipe_from(
        {
            "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": "other",
            "yield": {"portions": "1", "of": "piece"}, "ingredients": ingredients or DIVIDED,
            "stages": [{"title": f"Stage {number}", **stage} for number, stage in enumerate(stages, 1)],
        }
    )  # fmt: skip


def add(*uses: str, **fields: object) -> dict[str, object]:
    """A stage with one step that adds these uses."""
    return {"steps": [{"do": "Mix.", "add": list(uses)}], **fields}


@pytest.mark.parametrize(
    "stages",
    [
        pytest.param([add("milk/a", "butter", "milk/b")], id="all at once"),
        pytest.param([add("milk/b"), add("butter"), add("milk/a")], id="one per stage, in any order"),
        pytest.param([add("milk/a", makes="base"), add("base", "butter", "milk/b")], id="through a base"),
        pytest.param(
            [add("milk/a", makes="one"), add("one", "milk/b", makes="two"), add("two", "butter")],
            id="a base made of a base",
        ),
        pytest.param(
            [
                add("milk/a", makes="base", shares={"x": "1/3", "y": "2/3"}),
                add("butter", "base/y"),
                add("base/x", "milk/b"),
            ],
            id="a divided base",
        ),
        pytest.param(
            [add("milk/a", "milk/b", "butter"), {"steps": [{"do": "Rest."}]}], id="a last stage that adds nothing"
        ),
    ],
)  # fmt: skip
def test_a_complete_recipe_is_accepted(stages: list[dict[str, object]]) -> None:
    assert len(recipe(stages).stages) == len(stages)


@pytest.mark.parametrize(
    ("stages", "path", "problem", "remedy"),
    [
        pytest.param(
            [add("milk/a", "butter")], ("ingredients", "milk", "portions", "b"),
            "no step uses 'milk/b'", "add `- milk/b` under `add` of a step", id="a portion left over",
        ),
        pytest.param(
            [add("milk/a", "milk/b")], ("ingredients", "butter"),
            "no step uses 'butter'", "add `- butter` under `add` of a step", id="an ingredient left over",
        ),
        pytest.param(
            [add("milk/a", "milk/b", "butter", "butter")], ("stages", 0, "steps", 0, "add", 3),
            "'butter' was already added in stage 1, step 1",
            "divide it into `portions` if it goes in at two places, or remove it here", id="twice in one step",
        ),
        pytest.param(
            [add("milk/a", makes="base"), add("base", "milk/b"), add("butter", "base")],
            ("stages", 2, "steps", 0, "add", 1), "'base' was already added in stage 2, step 1",
            "divide it into `portions` if it goes in at two places, or remove it here", id="a base twice",
        ),
        pytest.param(
            [add("milk/a", makes="base", shares={"x": "1/2", "y": "1/2"}), add("base/x", "milk/b", "butter")],
            ("stages", 0, "shares", "y"), "no later step uses 'base/y'", "add `- base/y` to a step",
            id="half a base left over",
        ),
        pytest.param(
            [add("milk/a", makes="base", shares={"x": "1/2", "y": "1/2"}), add("base", "milk/b", "butter")],
            ("stages", 1, "steps", 0, "add", 0), "'base' is divided into portions",
            "name the portion: base/x, base/y", id="a divided base, undivided",
        ),
        pytest.param(
            [add("base", "milk/a", makes="base"), add("milk/b", "butter")], ("stages", 0, "steps", 0, "add", 0),
            "'base' is not made yet", "move its stage before this step", id="a base that goes into itself",
        ),
        pytest.param(
            [add("milk/a", makes="base"), add("milk/b", makes="base"), add("base", "butter")],
            ("stages", 1, "makes"), "the name 'base' is already taken", "choose another name",
            id="two bases with the same name",
        ),
        pytest.param(
            [add("milk/a", "milk/b", "butter", makes="all")], ("stages", 0, "makes"),
            "the last stage sets 'all' aside, so nothing is finished", "remove `makes` from the last stage",
            id="nothing is finished",
        ),
    ],
)  # fmt: skip
def test_a_wrong_use_is_refused(
    stages: list[dict[str, object]], path: tuple[str | int, ...], problem: str, remedy: str
) -> None:
    with pytest.raises(InputError) as caught:
        recipe(stages)
    assert (caught.value.path, caught.value.problem, caught.value.remedy) == (path, problem, remedy)


USES = [f"i{number}" for number in range(6)]


@given(
    order=st.permutations(USES),
    cut=st.integers(1, 5),
    index=st.integers(0, 5),
    change=st.sampled_from(["drop", "double"]),
)
def test_every_use_counts(order: list[str], cut: int, index: int, change: str) -> None:
    """Any order of the six is a recipe; with one use fewer or one more it is not."""
    ingredients: dict[str, object] = dict.fromkeys(USES, BUTTER)

    def stages(uses: list[str]) -> list[dict[str, object]]:
        return [add(*part) for part in (uses[:cut], uses[cut:]) if part]

    assert recipe(stages(order), ingredients)
    other = order[:index] + order[index + 1 :] if change == "drop" else [*order, order[index]]
    with pytest.raises(InputError):
        recipe(stages(other), ingredients)
