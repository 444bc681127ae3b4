"""Checks: McDowall et al. (J Dairy Res), Srinivasan et al., arithmetic of surfaces."""

import pytest
from crumbcoat_calc.foods.table import food, foods
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.emulsifier import (
    droplet_sizes_um,
    emulsifiers,
    finest_droplet_um,
    phospholipid_g,
    surface_loads_mg_per_m2,
)
from crumbcoat_calc.science.estimate import Estimate, Model, Withheld
from crumbcoat_calc.science.fat_density import fat_ml
from crumbcoat_calc.science.fat_sorts import fats_of
from hypothesis import given
from hypothesis import strategies as st

MODEL = Model("m", "v", "definition")


def batch(*parts, droplets=(1.0, 1.0)):
    weighed = [(food(key), mass) for key, mass in parts]
    made = constituents_of(weighed)
    volume = fat_ml(fats_of(weighed), 20)[0]
    return emulsifiers(weighed, made, Estimate(volume, volume, volume, MODEL), droplets, egg_protein(weighed))


def egg_protein(weighed):
    protein_g = sum(mass * one.content("protein_g") / 100 for one, mass in weighed if one.group == "egg")
    return protein_g, protein_g


@pytest.mark.parametrize(
    ("key", "percent", "low", "high"),
    [
        ("milk_whole", 0.038, 0.031, 0.050),
        ("milk_skim", 0.018, 0.014, 0.023),
        ("butter_unsalted", 0.133, 0.099, 0.181),
        ("cream_heavy_whipping", 0.153, 0.126, 0.184),
        ("buttermilk_powder", 1.5, 1.0, 2.0),
        ("milk_powder_skim", 0.19, 0.15, 0.24),
    ],
)
def test_phospholipid_of_milk_products(key, percent, low, high):
    """McDowall et al.; powders by their solids: 0.156 x 96.5 / 9.7 and 0.018 x 96.5 / 9.1."""
    answer = phospholipid_g([(food(key), 100)])
    assert (answer.value, answer.low, answer.high) == pytest.approx((percent, low, high), abs=0.0006)
    assert pytest.approx(1.55, abs=0.01) == 0.156 * 96.5 / 9.7


def test_cultured_buttermilk_is_not_churned_buttermilk():
    """Churned buttermilk has 0.156 %; the fermented milk sold as buttermilk has no more than milk."""
    cultured = phospholipid_g([(food("buttermilk_lowfat_cultured"), 100)])
    assert cultured.high < 0.103
    assert cultured.value < 0.04


def test_yolk_is_recognised():
    """31 % of the 4.5 g of lipid of a large yolk is 1.40 g of phospholipid; a yolk weighs about 17 g."""
    answer = batch(("egg_yolk_raw", 17), ("butter_unsalted", 100))
    assert answer.egg_yolk_phospholipid_g == pytest.approx(1.40, rel=0.2)
    assert answer.phospholipid_g.value > answer.egg_yolk_phospholipid_g


def test_an_ingredient_without_a_figure_is_named():
    answer = batch(("butter_unsalted", 100), ("cocoa_powder_natural", 50), ("milk_whole", 20))
    assert (
        answer.phospholipid_g.reason == f"the phospholipid content of {food('cocoa_powder_natural').name} is not known"
    )
    assert isinstance(answer.finest_droplet_um, Withheld)
    assert isinstance(answer.milk_protein_mg_per_m2, Estimate)


def test_no_food_has_more_phospholipid_than_fat():
    for key, one in foods().items():
        answer = phospholipid_g([(one, 100)])
        if isinstance(answer, Estimate):
            assert answer.high <= one.content("fat_g") + 0.051, key
            assert answer.low <= answer.value <= answer.high


def test_milligrams_per_square_metre():
    """100 mL of fat in droplets of 6 µm has 100 m2: 1 g of protein is 10 mg/m2 (arithmetic)."""
    fat = Estimate(100.0, 100.0, 100.0, MODEL)
    made = constituents_of([(food("milk_powder_skim"), 100 / 36.16)])
    answer = emulsifiers([(food("milk_powder_skim"), 100 / 36.16)], made, fat, (1.0, 1.0), (0.0, 0.0))
    fine, coarse = droplet_sizes_um()
    assert answer.milk_protein_g.value == pytest.approx(1, abs=0.001)
    assert answer.milk_protein_mg_per_m2.low == pytest.approx(10 * fine / 6, rel=0.001)
    assert answer.milk_protein_mg_per_m2.high == pytest.approx(10 * coarse / 6, rel=0.001)


def test_the_finest_droplet_of_a_caseinate_emulsion():
    """Srinivasan et al.: 1.36 mg/m2 at the plateau. 100 mL of fat and 1.36 g of it cover 1000 m2: 0.6 µm at best."""
    fat, protein = Estimate(100.0, 100.0, 100.0, MODEL), Estimate(1.36, 1.36, 1.36, MODEL)
    answer = finest_droplet_um(fat, protein, Estimate(0.0, 0.0, 0.0, MODEL))
    assert answer.low == pytest.approx(0.6, rel=0.001)
    assert answer.high == pytest.approx(0.6 * 15 / 1.36, rel=0.001)


def test_surface_loads_cover_what_was_measured():
    """Caseinate 1.36 to 3.7 mg/m2 (Srinivasan et al.); phospholipid 770 g/mol on 0.65 nm2 is 1.97 mg/m2."""
    loads = surface_loads_mg_per_m2()
    assert loads["milk_protein"][0] <= 1.36
    assert loads["milk_protein"][1] >= 3.7
    monolayer = 770 / 6.02214076e23 / 0.65e-18 * 1000
    assert loads["phospholipid"][0] <= monolayer <= loads["phospholipid"][1]


def test_no_fat_no_surface():
    answer = batch(("milk_skim", 0), ("sugar_granulated", 100))
    assert isinstance(answer.finest_droplet_um, Withheld)
    assert isinstance(answer.milk_protein_mg_per_m2, Withheld)


def test_egg_white_covers_fat_as_well():
    """10.9 g of protein in 100 g of white (usda-sr28) at 1.5 to 3 mg/m2 (memory): 100 mL of lard, 0.08 to 0.17 µm."""
    fat = Estimate(100.0, 100.0, 100.0, MODEL)
    nothing = Estimate(0.0, 0.0, 0.0, MODEL)
    assert isinstance(finest_droplet_um(fat, nothing, nothing), Withheld)
    answer = finest_droplet_um(fat, nothing, nothing, (1.09, 1.09))
    assert answer.high == pytest.approx(6 * 100 / (1090 / 3), rel=0.001)
    assert answer.low == pytest.approx(6 * 100 / (1090 / 1.5), rel=0.001)


def test_no_droplet_is_smaller_than_a_casein_micelle():
    """Hristov et al. 2016 found micelles of 50 to 600 nm, 150 in the mean: they cannot cover what is smaller."""
    plenty = Estimate(100.0, 100.0, 100.0, MODEL)
    answer = finest_droplet_um(Estimate(1.0, 1.0, 1.0, MODEL), plenty, plenty)
    assert (answer.value, answer.low, answer.high) == (0.15, 0.15, 0.15)


def test_only_fat_in_droplets_is_covered():
    parts = (("butter_unsalted", 300), ("milk_whole", 100))
    everything, half, open_ = [batch(*parts, droplets=share) for share in ((1.0, 1.0), (0.5, 0.5), (0.0, 1.0))]
    assert half.finest_droplet_um.high == pytest.approx(everything.finest_droplet_um.high / 2)
    assert half.fat_surface_m2.high == pytest.approx(everything.fat_surface_m2.high / 2)
    assert open_.finest_droplet_um.low == 0.15
    assert open_.finest_droplet_um.high == pytest.approx(everything.finest_droplet_um.high)
    assert "leaves open" in open_.milk_protein_mg_per_m2.reason
    assert "no fat in droplets" in batch(*parts, droplets=(0.0, 0.0)).finest_droplet_um.reason


@given(st.floats(1, 500), st.floats(1, 300), st.floats(1, 50), st.floats(0.1, 20))
def test_more_powder_allows_finer_droplets_and_scaling_changes_nothing(butter, milk, powder, factor):
    one = batch(("butter_unsalted", butter), ("milk_whole", milk), ("buttermilk_powder", powder))
    more = batch(("butter_unsalted", butter), ("milk_whole", milk), ("buttermilk_powder", 2 * powder))
    finest, coarser = more.finest_droplet_um.value, one.finest_droplet_um.value
    assert finest < coarser or finest == coarser == 0.15, "only a casein micelle is the limit"
    bigger = batch(
        ("butter_unsalted", factor * butter), ("milk_whole", factor * milk), ("buttermilk_powder", factor * powder)
    )
    assert bigger.finest_droplet_um.value == pytest.approx(one.finest_droplet_um.value)
    assert bigger.milk_protein_mg_per_m2.value == pytest.approx(one.milk_protein_mg_per_m2.value)
