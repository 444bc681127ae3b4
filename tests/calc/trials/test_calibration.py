"""What a kitchen's own readings calibrate: known parameters come back within their bands."""

import math
import random
from collections.abc import Sequence
from dataclasses import replace

import pytest
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.heat import HeatPart, combined, heat_content
from crumbcoat_calc.science.mixing import mixing_temperature_c
from crumbcoat_calc.trials.calibration import Calibrated, calibrated, for_the_card, warming_j
from crumbcoat_calc.trials.model import Chilling, Place, Reading, Warming
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.reading import trial_from
from crumbcoat_calc.trials.vessels import vessel_at

from tests.calc.trials.test_notebook import RECIPE, book, trial

KITCHENS = 300
"""How many kitchens are simulated: of 300, 95 % are 285, with a standard deviation of 3.8."""


def only(found: Sequence[Calibrated], what: str) -> Calibrated:
    (one,) = [one for one in found if one.what == what]
    return one


@pytest.fixture(scope="module")
def made() -> MadeTrial:
    (one,) = book(trial(1)).made
    return one


def hits(kitchens: Sequence[Sequence[MadeTrial]], what: str, true: float) -> int:
    bands = [only(calibrated(trials), what).band for trials in kitchens]
    return sum(1 for band in bands if band and band[0] <= true <= band[1])


def kitchen(made: MadeTrial, batches: Sequence[dict[str, object]]) -> list[MadeTrial]:
    """Trials of one recipe that differ in what was read only."""
    return [
        replace(made, trial=replace(made.trial, number=number, **fields))  # type: ignore[arg-type]
        for number, fields in enumerate(batches, 1)
    ]


def warmed(made: MadeTrial, watts: float, seconds: float) -> float:
    """The temperature that a batch of 19 °C reaches, by the heat balance that the card uses."""
    parts = vessel_at(made.recipe, Place(stage=1)).parts
    content = combined([heat_content(part.food, part.mass_g) for part in parts])
    found = mixing_temperature_c([HeatPart(content, 19.0)], watts * seconds)
    assert isinstance(found, Estimate)
    return found.value


def test_the_mixer_that_the_card_would_assume_comes_back_exactly(made: MadeTrial) -> None:
    batches: list[dict[str, object]] = [
        {"mixing": (Warming(at=None, from_c=19, to_c=warmed(made, 63, seconds), time_s=seconds),)}
        for seconds in (200.0, 420.0, 600.0)
    ]
    found = only(calibrated(kitchen(made, batches)), "mixer")
    assert (found.stage, found.batches, found.value) == (1, 3, pytest.approx(63, abs=0.01))
    assert found.band == pytest.approx((63, 63), abs=0.05)


def test_what_takes_no_melting_is_specific_heat_times_mass(made: MadeTrial) -> None:
    vessel = vessel_at(made.recipe, Place(stage=0, step=0))
    heat_j = warming_j(vessel, Warming(at=None, from_c=50, to_c=60, time_s=60))
    mass_g = vessel.mixture.mass_g
    assert 3.7 < heat_j / 10 / mass_g < 4.0  # whole milk: 3.77 to 3.93 J/(g K) in tables of food engineering (memory)


def test_a_kitchen_s_mixer_is_within_its_band(made: MadeTrial) -> None:
    """Thermometers that are off by 0.3 °C at each end; the true power is in the band of 95 % as often as that says."""
    chance = random.Random(1)
    true_c = {seconds: warmed(made, 63, seconds) for seconds in (240.0, 360.0, 480.0, 600.0)}
    kitchens = [
        kitchen(
            made,
            [
                {
                    "mixing": (
                        Warming(at=None, from_c=19 + chance.gauss(0, 0.3), to_c=t_c + chance.gauss(0, 0.3), time_s=s),
                    )
                }
                for s, t_c in true_c.items()
            ],
        )
        for _ in range(KITCHENS)
    ]
    assert 273 <= hits(kitchens, "mixer", 63) <= 297


def test_a_kitchen_s_refrigerator_is_within_its_band(made: MadeTrial) -> None:
    chance = random.Random(2)
    kitchens = [
        kitchen(
            made,
            [
                {
                    "chilling": (
                        Chilling(
                            from_c=30, to_c=4 + 26 * math.exp(-m / 40) + chance.gauss(0, 0.3), time_s=60 * m, cold_c=4
                        ),
                    )
                }
                for m in (15.0, 20.0, 25.0, 30.0, 20.0)
            ],
        )
        for _ in range(KITCHENS)
    ]
    assert 273 <= hits(kitchens, "chilling", 40) <= 297


def test_the_water_that_boils_off_and_the_air_are_within_their_bands(made: MadeTrial) -> None:
    chance = random.Random(3)
    heated = RECIPE | {"stages": [dict(RECIPE["stages"][0]), RECIPE["stages"][1]]}  # type: ignore[index]
    heated["stages"][0]["steps"] = [  # type: ignore[index]
        {"do": "Heat.", "add": ["milk", "salt"], "heat_to": "85 °C"}, {"do": "Stir.", "add": "sugar"},
    ]  # fmt: skip
    (hot,) = book(trial(1), recipe=heated).made
    without_air = vessel_at(hot.recipe, Place(stage=1)).mixture.mass_g
    assert without_air == 471
    kitchens = [
        kitchen(
            hot, [{"readings": (Reading(at=Place(stage=0), mass_g=271 - 18 + chance.gauss(0, 2)),)} for _ in range(4)]
        )
        for _ in range(KITCHENS)
    ]
    assert 273 <= hits(kitchens, "boiled off", 18) <= 297
    found = only(calibrated(kitchen(hot, [{"readings": (Reading(at=None, density_g_per_ml=0.8),)}])), "overrun")
    mix = found.value / 100 * 0.8 + 0.8
    kitchens = [
        kitchen(
            hot,
            [{"readings": (Reading(at=None, density_g_per_ml=mix / (1.3 + chance.gauss(0, 0.02))),)} for _ in range(5)],
        )
        for _ in range(KITCHENS)
    ]
    assert 273 <= hits(kitchens, "overrun", 30) <= 297


def test_a_step_has_only_what_went_in_up_to_it() -> None:
    (one,) = book(trial(1)).made
    held = [
        {part.key: part.mass_g for part in vessel_at(one.recipe, Place(stage=stage, step=step)).parts}
        for stage, step in ((0, 0), (0, None), (1, 0))
    ]
    assert held == [
        {"milk": 120, "salt": 1},
        {"milk": 120, "salt": 1, "sugar": 150},
        {"milk": 120, "salt": 1, "sugar": 150, "butter": 150},
    ]


def test_what_can_hardly_be_and_what_did_not_hold_do_not_count(made: MadeTrial) -> None:
    dense = Reading(at=None, density_g_per_ml=2.0)
    foam = Reading(at=None, density_g_per_ml=0.8)
    assert calibrated(kitchen(made, [{"readings": (dense,)}])) == ()
    assert calibrated(kitchen(made, [{"readings": (foam,), "did": "split"}])) == ()
    assert calibrated(kitchen(made, [{"readings": (Reading(at=Place(stage=0), mass_g=250),)}])) == ()  # not heated
    frozen = Warming(at=None, from_c=-5, to_c=3, time_s=60)
    assert calibrated(kitchen(made, [{"mixing": (frozen,)}])) == ()
    kept = calibrated(kitchen(made, [{"readings": (dense, foam)}, {"readings": (foam,), "did": "held"}]))
    assert only(kept, "overrun").batches == 2


def test_one_reading_has_no_band_and_scattered_ones_no_band_of_a_time(made: MadeTrial) -> None:
    one = Chilling(from_c=30, to_c=20, cold_c=4, time_s=1500)
    slow = Chilling(from_c=30, to_c=29.9, cold_c=4, time_s=1500)
    found = only(calibrated(kitchen(made, [{"chilling": (one,)}])), "chilling")
    assert (found.band, found.value) == (None, pytest.approx(25 / math.log(26 / 16)))
    assert only(calibrated(kitchen(made, [{"chilling": (one,)}, {"chilling": (slow,)}])), "chilling").band is None


def test_the_readings_of_a_file_are_used() -> None:
    written = {
        "number": "1",
        "date": "2026-11-24",
        "chilling": [{"from": "30 °C", "to": "20 °C", "cold": "4 °C", "time": "25 min"}],
    }
    assert only(calibrated(book(("1.yaml", trial_from(written))).made), "chilling").values == (
        (1, pytest.approx(51.49, abs=0.01)),
    )


def test_a_card_gets_the_figures_of_its_last_stage_as_text(made: MadeTrial) -> None:
    first = Warming(at=Place(stage=0, step=1), from_c=20, to_c=22, time_s=300)
    chilling = (Chilling(from_c=30, to_c=20, cold_c=4, time_s=1500),)
    trials = kitchen(made, [{"mixing": (first, replace(first, at=None)), "chilling": chilling}])
    found = calibrated(trials)
    assert [(one.what, one.stage) for one in found] == [("mixer", 0), ("mixer", 1), ("chilling", None)]
    assert for_the_card(trials, 1) == {"mixer": [f"{found[1].value:.1f}", "1"], "chilling": ["51.5", "1"]}
    earlier = kitchen(made, [{"mixing": (first,)}])
    assert for_the_card(earlier, 1) == {"mixer": [f"{found[0].value:.1f}", "1"], "mixer_stage": "1"}
    cooled = Warming(at=None, from_c=22, to_c=20, time_s=300)
    assert for_the_card(kitchen(made, [{"mixing": (cooled,)}]), 1) == {}
    wide = [{"mixing": (replace(first, at=None, to_c=to_c),)} for to_c in (20.1, 24.0)]
    assert for_the_card(kitchen(made, wide), 1) == {}
