"""The cake calculator: closed formulas, the published icing chart as a sanity band, and every change to the form."""

import csv
import math
import re
from pathlib import Path

import pytest
from crumbcoat_calc.cakes.plan import CHOICES, LENGTH_UNITS, TIER_SHAPES, TIER_THICKNESSES
from crumbcoat_calc.cakes.tiers import STYLES
from crumbcoat_calc.calculators import run
from crumbcoat_calc.calculators.cake import calculate, form_state, read
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import Context, context_from
from crumbcoat_calc.values.units import number
from hypothesis import given
from hypothesis import strategies as st

RECIPE = {
    "title": "Whipped cream", "summary": "Cream and sugar.", "author": "Lantern Street teaching kitchen",
    "family": "whipped cream", "yield": {"portions": "8", "of": "servings"},
    "ingredients": {
        "cream": {"kind": "cream_heavy_whipping", "amount": "900 g"},
        "sugar": {"kind": "sugar_granulated", "amount": "100 g"},
    },
    "stages": [{"title": "Whip", "steps": [{"do": "Whip.", "add": ["cream", "sugar"]}]}],
}  # fmt: skip
CONTEXT = context_from({"recipe": RECIPE | {"measured": {"density": "0.8 g/mL"}}})
NO_DENSITY = context_from({"recipe": RECIPE})
CHART = Path(__file__).parents[2] / "reference" / "frosting_trade_chart.csv"
NOTHING_ELSE = {"loss": "0", "crumb": "0 mm", "filling": "0 mm"}


def after(
    *edits: dict[str, str], state: dict[str, str] | None = None, context: Context = CONTEXT
) -> tuple[dict[str, str], dict]:
    kept, texts = run("cake", context, state or {}, {})
    for edit in edits:
        kept, texts = run("cake", context, kept, edit)
    return kept, dict(texts)


def total_ml(*edits: dict[str, str]) -> float:
    return calculate(read(CONTEXT, after(*edits)[0])).total.total_ml


def test_a_round_cake_of_two_layers_to_start_with() -> None:
    """Closed formulas: filling pi r^2 t; a coat pi ((r + t)^2 (h + t) - r^2 h); 7 % of all that is made is lost."""
    under = math.pi * (101**2 * 101 - 100**2 * 100) / 1000
    outer = math.pi * (105.5**2 * 105.5 - 101**2 * 101) / 1000
    filling = math.pi * 100**2 * 6 / 1000
    made = (under + outer + filling) / 0.93
    state, texts = after()
    assert state == {}
    assert texts["cake.volume_needed"] == f"{made:.0f} mL"
    assert texts["cake.mass_needed"] == f"{made * 0.8:.0f} g"
    assert texts["cake.batches"] == f"{made * 0.8 / 1000:.2f}"
    assert [row[0] for row in texts["cake.by_use"]] == [
        "Filling", "Crumb coat", "Final coat", "Left in bowl and bag", "All of it",
    ]  # fmt: skip
    assert texts["cake.by_use"][0][1:] == [f"{filling:.0f} mL", f"{filling * 0.8:.0f} g"]


T = 5.0
SHELLS = [
    ("round", {"diameter": 200.0, "height": 100.0}, math.pi * (105**2 * 105 - 100**2 * 100)),
    ("square", {"width": 200.0, "height": 100.0}, 210**2 * 105 - 200**2 * 100),
    ("rectangle", {"length": 300.0, "width": 200.0, "height": 80.0}, 310 * 210 * 85 - 300 * 200 * 80),
    ("sheet", {"length": 400.0, "width": 300.0, "height": 40.0}, 410 * 310 * 45 - 400 * 300 * 40),
    (
        "ring", {"diameter": 250.0, "hole": 80.0, "height": 90.0},
        math.pi * ((130**2 - 35**2) * 95 - (125**2 - 40**2) * 90),
    ),
    (
        "loaf", {"length": 200.0, "width": 100.0, "bottom_length": 200.0, "bottom_width": 100.0, "height": 60.0},
        210 * 110 * 65 - 200 * 100 * 60,
    ),
]  # fmt: skip


@pytest.mark.parametrize(("shape", "lengths", "mm3"), SHELLS, ids=[shell[0] for shell in SHELLS])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_coat_of_each_shape_by_its_closed_formula(
    shape: str, lengths: dict[str, float], mm3: float, unit: str
) -> None:
    edits = [NOTHING_ELSE, {"final": "5 mm"}, {"tier.1.shape": shape}, {"tier.1.layers": "1"}]
    for name, mm in lengths.items():
        edits.append({f"tier.1.{name}": f"{mm} mm" if unit == "mm" else f"{mm / 25.4:.9f} in"})
    assert total_ml(*edits) == pytest.approx(mm3 / 1000, rel=1e-6)


@pytest.mark.parametrize(
    ("topping", "each_mm3"),
    [
        ("flat", math.pi * 32**2 * 9),
        ("domed", math.pi * 14 * (3 * 32**2 + 14**2) / 6),
        ("swirl", math.pi * 32**2 * 50 / 3),
    ],
)
def test_cupcakes_alone_by_their_closed_formula(topping: str, each_mm3: float) -> None:
    """Usual heights of calc/crumbcoat_calc/data/coating_thickness.csv: 9, 14 and 50 mm (common practice)."""
    edits = ({"loss": "0"}, {"cupcakes": "24"}, {"tier.1.shape": "none"}, {"topping": topping})
    assert total_ml(*edits) == pytest.approx(24 * each_mm3 / 1000)
    texts = after(*edits)[1]
    assert texts["picture.cake_section"] == ""
    assert texts["picture.cupcake_section"].startswith("<svg")


def chart() -> list[tuple[str, str, float]]:
    with CHART.open(encoding="utf-8", newline="") as file:
        rows = [(row[0].split(" ", 1), row[2]) for row in csv.reader(file)]
    return [(kind[0], kind[1].removesuffix(" in"), float(ml)) for kind, ml in rows if kind[0] in TIER_SHAPES]


def test_the_chart_has_all_its_rows() -> None:
    assert len(chart()) == 7


@pytest.mark.parametrize(("shape", "size", "published_ml"), chart())
def test_the_form_as_it_comes_stays_within_40_percent_of_the_published_chart(
    shape: str, size: str, published_ml: float
) -> None:
    """tests/reference/frosting_trade_chart.csv: cups of icing for two layers, 4 in tall; a sanity band only."""
    sides = size.split("x")
    names = {"round": ["diameter"], "square": ["width"], "sheet": ["width", "length"]}[shape]
    edits = [{"loss": "0"}, {"lengths": "in"}, {"tier.1.shape": shape}, {"tier.1.height": "4"}, {"tier.1.layers": "2"}]
    edits += [{f"tier.1.{name}": side} for name, side in zip(names, sides, strict=True)]
    assert total_ml(*edits) == pytest.approx(published_ml, rel=0.4)


def test_tiers_add_up_and_each_new_one_stands_on_the_last() -> None:
    edits = [{"tier.1.diameter": "40 cm"}, *[{f"tier.{n}.shape": "round"} for n in range(2, 8)]]
    state, texts = after(*edits)
    assert [state.get(f"tier.{n}.diameter", "200") for n in range(1, 8)] == [
        "400", "200", "150", "110", "80", "60", "40",
    ]  # fmt: skip
    grams = [float(row[2].removesuffix(" g")) for row in texts["cake.by_tier"]]
    assert math.fsum(grams) == pytest.approx(float(texts["cake.mass_needed"].removesuffix(" g")), abs=4)
    fewer, shown = after({"tier.2.shape": "none"}, state=state)
    assert len(shown["cake.by_tier"]) == 6
    assert "tier.7.shape" not in fewer
    assert shown["tier.7.shape"] == "none"


def test_a_tier_may_have_thicknesses_of_its_own_and_the_others_follow_the_cake() -> None:
    """Closed formulas: tiers of 200 and 100 mm across, 100 mm high, two layers; pi ((r + t)^2 (h + t) - r^2 h)."""

    def shell(radius: float, high: float, mm: float) -> float:
        return math.pi * ((radius + mm) ** 2 * (high + mm) - radius**2 * high) / 1000

    def tiers(*edits: dict[str, str]) -> list[tuple[float, float, float]]:
        start = ({"loss": "0"}, {"tier.1.height": "10 cm"}, {"tier.2.shape": "round"}, {"tier.2.diameter": "10 cm"})
        answer = calculate(read(CONTEXT, after(*start, *edits)[0]))
        return [(one.filling_ml, one.crumb_coat_ml, one.final_coat_ml) for one in answer.tiers]

    def one(radius: float, filling: float, crumb: float, final: float) -> tuple[float, float, float]:
        inside = math.pi * radius**2 * filling / 1000
        return inside, shell(radius, 100, crumb), shell(radius + crumb, 100 + crumb, final)

    as_the_cake = [one(100, 6, 1, 4.5), one(50, 6, 1, 4.5)]
    for found, wanted in zip(tiers(), as_the_cake, strict=True):
        assert found == pytest.approx(wanted)
    own = ({"tier.2.filling": "10 mm"}, {"tier.2.crumb": "2"}, {"tier.2.final": "8 mm"})
    for found, wanted in zip(tiers(*own), [as_the_cake[0], one(50, 10, 2, 8)], strict=True):
        assert found == pytest.approx(wanted)
    # The cake's thickness moves those that follow it, and no other; an emptied field follows again.
    for found, wanted in zip(tiers(*own, {"final": "6 mm"}), [one(100, 6, 1, 6), one(50, 10, 2, 8)], strict=True):
        assert found == pytest.approx(wanted)
    emptied = tuple({name: ""} for edit in own for name in edit)
    for found, wanted in zip(tiers(*own, *emptied), as_the_cake, strict=True):
        assert found == pytest.approx(wanted)


def test_a_dam_of_its_own_is_the_outer_ring_of_the_filling() -> None:
    """Closed formula: pi (r^2 - (r - w)^2) t."""
    state, _ = after({"loss": "0"}, {"tier.1.dam": "12 mm"})
    answer = calculate(read(CONTEXT, state))
    assert answer.total.dam_ml == pytest.approx(math.pi * (100**2 - 88**2) * 6 / 1000)
    assert answer.total.filling_ml == pytest.approx(math.pi * 88**2 * 6 / 1000)


def test_a_tier_shows_what_it_follows_and_what_is_its_own() -> None:
    state, texts = after({"tier.2.shape": "round"}, {"final": "6 mm"}, {"tier.2.final": "1/4 in"})
    assert state["tier.2.final"] == "6.35"
    assert (texts["tier.1.own"], texts["tier.2.own"]) == ("as the cake", "final coat 6.35 mm")
    assert (texts["tier.1.final"], texts["tier.2.final"], texts["follows.final"]) == ("", "6.35 mm", "the cake: 6 mm")
    # Another shape keeps them, no tier has none.
    assert after({"tier.2.shape": "square"}, state=state)[0]["tier.2.final"] == "6.35"
    assert "tier.2.final" not in after({"tier.2.shape": "none"}, state=state)[0]


def test_filled_with_something_else_takes_no_filling() -> None:
    rows = {row[0] for row in after({"filled_with": "other"})[1]["cake.by_use"]}
    assert "Filling" not in rows
    assert "Final coat" in rows


def test_without_a_density_only_volumes_are_shown_with_the_reason() -> None:
    _, texts = after(context=NO_DENSITY)
    assert texts["cake.mass_needed"] == ""
    assert texts["cake.by_use"][0][2] == ""
    assert "weigh a level cup" in texts["status"]
    state, weighed = after({"cup": "metric_cup"}, {"cup_weighs": "200 g"}, context=NO_DENSITY)
    assert state == {"cup": "metric_cup", "cup_weighs": "200"}
    volume = calculate(read(NO_DENSITY, state)).total.total_ml
    assert weighed["cake.mass_needed"] == f"{volume * 0.8:.0f} g"  # 200 g / 250 mL
    assert weighed["cake.batches"] == f"{volume * 0.8 / 1000:.2f}"  # of 1000 g


def test_the_mass_needed_is_one_that_a_batch_takes() -> None:
    """The batch calculator reads the mass from the cake as it is."""
    recipe = {
        "title": "Cream", "summary": "Cream.", "author": "Lantern Street teaching kitchen", "family": "whipped cream",
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {"cream": {"kind": "cream_heavy_whipping", "amount": "500 g"}},
        "stages": [{"title": "Whip", "steps": [{"do": "Whip.", "add": ["cream"]}]}],
    }  # fmt: skip
    needed = after({"tier.2.shape": "round"})[1]["cake.mass_needed"]
    texts = run("batch", context_from({"recipe": recipe}), {}, {"finished_mass": needed})[1]
    assert texts["finished_mass"] == needed


def test_the_stated_density_is_not_kept() -> None:
    assert after({"density": "0.7"}, {"density": "0.8 g/mL"})[0] == {}
    assert after({"density": "0.7 g/mL"})[0] == {"density": "0.7"}
    assert after({"density": "0.7"}, {"density": ""})[0] == {}


@pytest.mark.parametrize("density", ["0.1", "2"])
def test_the_bounds_of_the_density_are_allowed(density: str) -> None:
    assert after({"density": density})[0] == {"density": density}


@pytest.mark.parametrize(
    ("edit", "path", "problem"),
    [
        (
            {"tier.1.diameter": "0 cm"},
            ("tier", "1", "shape"),
            "a tier must be 1 to 200 cm across and 0.5 to 100 cm high",
        ),
        ({"tier.1.diameter": "30 g"}, ("tier", "1", "diameter"), "'g' is not a unit of length"),
        ({"tier.1.diameter": "-3"}, ("tier", "1", "diameter"), "'-3' is negative"),
        ({"tier.1.layers": "0"}, ("tier", "1", "layers"), "'0' is not a whole number from 1 to 30"),
        ({"tier.1.shape": "heart"}, ("tier", "1", "shape"), "unknown shape 'heart'"),
        ({"tier.1.shape": "none"}, ("tier", "1", "shape"), "the cake has neither tiers nor cupcakes"),
        ({"tier.13.shape": "round"}, ("tier.13.shape",), "there is no room for tier 13"),
        ({"tier.1.colour": "1"}, ("tier.1.colour",), "unknown field 'tier.1.colour'"),
        ({"filling": "61 mm"}, ("filling",), "61 mm is not a possible thickness here"),
        ({"tier.1.height": "6 mm"}, ("filling",), "1 filling of 6 mm in a tier 6 mm high leaves no room for cake"),
        ({"final": "61 mm"}, ("final",), "61 mm is not a possible thickness here"),
        ({"tier.1.final": "61 mm"}, ("tier", "1", "final"), "61 mm is not a possible thickness here"),
        ({"tier.1.crumb": "thin"}, ("tier", "1", "crumb"), "'thin' does not start with a number"),
        ({"tier.1.filling": "99 mm"}, ("tier", "1", "filling"), "99 mm is not a possible thickness here"),
        ({"dam": "5 cm"}, ("dam",), "a dam of 50 mm leaves no room for the filling"),
        ({"loss": "60 %"}, ("loss",), "a loss of 60 % is too high"),
        ({"piping": "110"}, ("piping",), "'110 %' is more than 100 %"),
        ({"style": "upside down"}, ("style",), "unknown style 'upside down'"),
        ({"cupcakes": "1.5"}, ("cupcakes",), "'1.5' is not a whole number from 0 to 10000"),
        ({"cupcakes": "6", "cupcake_top": "1 m"}, ("cupcake_top",), "1000 mm is outside 10 to 200 mm"),
        ({"density": "3"}, ("density",), "a density of 3 g/mL is outside 0.1 to 2"),
        ({"density": "3 lb"}, ("density",), "'lb' does not measure a density"),
        (
            {"cup_weighs": "5 g"},
            ("cup_weighs",),
            "a US cup that weighs 5 g means 0.0211 g/mL, not a possible density for a frosting",
        ),
    ],
)
def test_what_cannot_be_used_is_refused(edit: dict[str, str], path: tuple[str, ...], problem: str) -> None:
    with pytest.raises(InputError) as caught:
        after(edit)
    assert caught.value.path == path
    assert caught.value.problem == problem
    assert caught.value.remedy


@pytest.mark.parametrize("data", ["", [], {}, {"recipe": RECIPE | {"measured": {"density": "x"}}}])
def test_what_a_page_cannot_give_is_refused(data: object) -> None:
    with pytest.raises(InputError):
        run("cake", context_from(data))


SIZES = st.sampled_from(["30 cm", "8 in", "7", "120 mm"])
PLACES = st.integers(1, 4)
EDITS = st.one_of(
    st.tuples(PLACES, st.sampled_from([*TIER_SHAPES, "none"])).map(lambda edit: {f"tier.{edit[0]}.shape": edit[1]}),
    st.tuples(PLACES, st.sampled_from(["diameter", "width", "height"]), SIZES).map(
        lambda edit: {f"tier.{edit[0]}.{edit[1]}": edit[2]}
    ),
    st.tuples(PLACES, st.integers(1, 4)).map(lambda edit: {f"tier.{edit[0]}.layers": str(edit[1])}),
    st.tuples(PLACES, st.sampled_from(TIER_THICKNESSES), st.sampled_from(["", "0", "3 mm", "1/4 in"])).map(
        lambda edit: {f"tier.{edit[0]}.{edit[1]}": edit[2]}
    ),
    st.sampled_from(LENGTH_UNITS).map(lambda word: {"lengths": word}),
    st.sampled_from(STYLES).map(lambda word: {"style": word}),
    st.sampled_from(CHOICES["topping"]).map(lambda word: {"topping": word}),
    st.sampled_from(["yes", ""]).map(lambda word: {"under": word}),
    st.sampled_from(["3 mm", "1/4 in", "4.5 mm", "0"]).map(lambda length: {"final": length, "topping_height": length}),
    st.sampled_from(["0", "12"]).map(lambda count: {"cupcakes": count}),
    st.sampled_from(["0", "25 %", "7"]).map(lambda part: {"loss": part, "piping": part}),
    st.sampled_from(["", "0.9 g/mL", "0.8"]).map(lambda density: {"density": density}),
)  # fmt: skip


@given(st.lists(EDITS, max_size=6))
def test_the_state_is_in_one_form_and_parts_add_up(edits: list[dict[str, str]]) -> None:
    state: dict[str, str] = {}
    for edit in edits:
        try:
            state, texts = run("cake", CONTEXT, state, edit)
        except InputError:
            continue  # an edit that cannot be used leaves the state as it was
        assert form_state(read(CONTEXT, state)) == state
        assert form_state(read(CONTEXT, dict(reversed(state.items())))) == state
        assert run("cake", CONTEXT, state, {}) == (state, texts)
        answer = calculate(read(CONTEXT, state))
        parts = [*answer.tiers, *([answer.cupcakes] if answer.cupcakes else [])]
        assert answer.total.total_ml == pytest.approx(math.fsum(part.total_ml for part in parts))
        assert answer.total.total_ml == pytest.approx(math.fsum(answer.total.by_use().values()))


@given(st.lists(EDITS, max_size=4))
def test_every_field_typed_in_again_as_shown_changes_nothing_to_speak_of(edits: list[dict[str, str]]) -> None:
    """Fields are shown to 0.1 mm or 1/16 in and the like; what they hold is a text that the form takes."""
    state: dict[str, str] = {}
    for edit in edits:
        try:
            state, _ = run("cake", CONTEXT, state, edit)
        except InputError:
            continue
    texts = run("cake", CONTEXT, state, {})[1]
    before = calculate(read(CONTEXT, state)).total.total_ml
    for name in (
        "final",
        "crumb",
        "filling",
        "loss",
        "piping",
        "tier.1.height",
        "tier.1.layers",
        "density",
        "cupcakes",
    ):
        if texts[name]:
            again, _ = run("cake", CONTEXT, state, {name: str(texts[name])})
            assert calculate(read(CONTEXT, again)).total.total_ml == pytest.approx(before, rel=0.02, abs=1e-6)


def test_a_site_for_the_us_starts_in_whole_inches():
    context = context_from({"recipe": RECIPE, "region": "US"})
    state, shown = run("cake", context)
    assert (state, shown["lengths"], shown["tier.1.diameter"], shown["tier.1.height"]) == ({}, "in", "8 in", "4 in")
    assert run("cake", context, {}, {"tier.1.diameter": "10"})[0] == {"tier.1.diameter": "254"}
    state, shown = run("cake", context, {}, {"lengths": "cm"})
    assert (state, shown["tier.1.diameter"]) == ({"lengths": "cm"}, "20.32 cm")
    assert run("cake", context, state, {"lengths": "in"})[0] == {}
    assert run("cake", context, {}, {"tier.2.shape": "round"})[1]["tier.2.diameter"] == "6 in"


def test_a_cake_in_inches_takes_cups_with_ml_behind() -> None:
    """A cup of 236.588 mL: nist-hb44."""
    _, texts = run("cake", context_from({"recipe": RECIPE, "region": "US"}), {}, {})
    first = str(texts["cake.by_use"][-1][1])
    cups, ml = first.removesuffix(" mL)").split(" cups (")
    assert float(number(cups)) * 236.588 == pytest.approx(float(ml.replace("\u202f", "")), abs=236.588 / 8 + 1)
    assert str(texts["status"]).startswith(f"{first} of frosting")
    assert "cup" not in str(run("cake", CONTEXT, {}, {})[1]["cake.by_use"])


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("¼ in", "¼ in"),
        ("1⅞ in", "1⅞ in"),
        ("3/16", "3/16 in"),
        ("1 3/16 in", "1 3/16 in"),
        ("6 mm", "¼ in"),
        ("0", "0 in"),
    ],
)
def test_inches_are_shown_to_a_sixteenth_and_fractions_are_read_as_they_are_typed(typed: str, shown: str) -> None:
    context = context_from({"recipe": RECIPE, "region": "US"})
    state, texts = run("cake", context, {}, {"topping_height": "2 in", "filling": typed})
    assert texts["filling"] == shown
    assert run("cake", context, state, {"filling": shown})[0] == state
    assert not re.search(r"[0-9]\.[0-9]+ in\b", " ".join(str(text) for text in texts.values()))


@pytest.mark.parametrize(("region", "crumb_mm"), [("US", 25.4 / 16), ("EU", 1.0)])
def test_what_a_usual_coat_is_shown_as_is_what_is_counted(region: str, crumb_mm: float) -> None:
    """On a site for the US the usual coats are of whole sixteenths, so a reader who types one changes nothing."""
    context = context_from({"recipe": RECIPE, "region": region})
    _, texts = run("cake", context, {}, {})
    typed = {name: str(texts[name]) for name in ("filling", "crumb", "final")}
    assert run("cake", context, {}, typed)[0] == {}
    state, again = run("cake", context, {}, {"crumb": f"{crumb_mm} mm"})
    assert (state, again["status"]) == ({}, texts["status"])
    assert texts["usual.crumb"] == ("usual: 1/16 in" if region == "US" else "usual: 1 to 2 mm")
