"""What a kitchen knows: sugar thins an emulsion until its syrup is saturated, and stiffens everything else."""

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.emulsion import InnerPhase, Packing
from crumbcoat_calc.science.more_sugar import SugarEffect
from crumbcoat_calc.science.state import mixture_state


def stage(*parts, t_c=20.0, **more):
    return mixture_state([(food(key), mass) for key, mass in parts], t_c, **more)


def test_a_plain_butter_and_sugar_frosting_only_gets_stiffer():
    state = stage(("butter_unsalted", 227), ("sugar_powdered", 340))
    assert state.inner_phase is InnerPhase.EITHER
    assert state.sugar_effect() is SugarEffect.STIFFENS


def test_crowded_droplets_get_runnier_while_sugar_dissolves():
    """Common practice. Where it is not known which phase is inside, nothing is said to get runnier."""
    state = stage(("butter_unsalted", 300), ("milk_whole", 100), ("sugar_powdered", 130), ("buttermilk_powder", 15))
    assert state.saturated is False
    assert state.headroom_g.low > 0
    assert state.packing is Packing.LOOSE
    assert state.fat_volume_percent.low > 50
    assert state.sugar_effect(emulsified=True) is SugarEffect.DISSOLVES_AND_THINS
    assert state.sugar_effect() is SugarEffect.UNKNOWN
    assert state.sugar_effect(emulsified=False) is SugarEffect.STIFFENS
    more = stage(("butter_unsalted", 300), ("milk_whole", 100), ("sugar_powdered", 150), ("buttermilk_powder", 15))
    assert more.fat_volume_percent.value < state.fat_volume_percent.value


@pytest.mark.parametrize(
    ("parts", "emulsified", "behaviour"),
    [
        pytest.param([("butter_unsalted", 100)], None, SugarEffect.STIFFENS, id="water inside fat"),
        pytest.param([("milk_whole", 100)], None, SugarEffect.UNKNOWN, id="hardly any fat"),
        pytest.param([("milk_whole", 100)], True, SugarEffect.UNKNOWN, id="droplets far from each other"),
        pytest.param([("milk_whole", 100)], False, SugarEffect.UNKNOWN, id="too little fat to be outside"),
        pytest.param([("butter_unsalted", 300), ("milk_whole", 50)], None, SugarEffect.UNKNOWN, id="between the marks"),
        pytest.param([("honey", 100), ("sugar_granulated", 100)], None, SugarEffect.STIFFENS, id="saturated honey"),
        pytest.param([("chocolate_semisweet_chips", 200), ("water_tap", 30)], None, SugarEffect.UNKNOWN, id="unlisted"),
    ],
)
def test_what_more_sugar_does(parts, emulsified, behaviour):
    assert stage(*parts).sugar_effect(emulsified) is behaviour
