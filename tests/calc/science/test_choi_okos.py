"""Checks: values evaluated apart with a general-purpose library, and water by IAPWS."""

import pytest
from crumbcoat_calc.science.choi_okos import component_properties, density_g_per_ml

DENSITIES = {
    "water": (997.102, 995.740, 991.294), "protein": (1327.308, 1319.532, 1309.164), "fat": (923.502, 917.239, 908.887),
    "carbohydrate": (1597.548, 1592.891, 1586.682),
    "ash": (2422.397, 2418.187, 2412.575),
}  # fmt: skip
SPECIFIC_HEATS = {
    "water": (4.1286, 4.1293, 4.1340), "protein": (2.0142, 2.0319, 2.0545), "fat": (1.9914, 2.0117, 2.0355),
    "carbohydrate": (1.5585, 1.5857, 1.6178), "ash": (1.1020, 1.1289, 1.1623),
}  # fmt: skip


def specific_heat_j_per_g_k(component, t_c):
    a, b, c = component_properties()[component].specific_heat
    return a + b * t_c + c * t_c**2


@pytest.mark.parametrize("component", sorted(DENSITIES))
def test_components_at_5_20_and_40_degrees(component):
    for t_c, density, heat in zip((5, 20, 40), DENSITIES[component], SPECIFIC_HEATS[component], strict=True):
        assert density_g_per_ml(component, t_c) * 1000 == pytest.approx(density, abs=0.0006)
        assert specific_heat_j_per_g_k(component, t_c) == pytest.approx(heat, abs=0.00006)


def test_every_component_of_the_table_is_checked():
    assert component_properties().keys() == DENSITIES.keys()


def test_water_is_as_much_too_low_as_the_model_says():
    """IAPWS: 998.207 kg/m3 and 4.184 kJ/(kg K) at 20 °C."""
    from CoolProp.CoolProp import PropsSI

    assert density_g_per_ml("water", 20) / (PropsSI("D", "T", 293.15, "P", 101325, "Water") / 1000) == pytest.approx(
        1 - 0.0025, abs=0.0002
    )
    iapws = PropsSI("C", "T", 293.15, "P", 101325, "Water") / 1000
    assert specific_heat_j_per_g_k("water", 20) / iapws == pytest.approx(1 - 0.013, abs=0.0005)


def test_milk_comes_out_a_little_thin():
    """Whole milk weighs about 1.030 g/mL; by components 1.023: within the 1 % that mixtures are given."""
    shares = {"water": 0.8813, "protein": 0.0315, "fat": 0.0325, "carbohydrate": 0.0480, "ash": 0.0067}
    density = sum(shares.values()) / sum(share / density_g_per_ml(name, 20) for name, share in shares.items())
    assert density == pytest.approx(1.023, abs=0.002)
    assert density == pytest.approx(1.030, rel=0.01)
