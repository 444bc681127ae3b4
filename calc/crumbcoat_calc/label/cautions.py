"""The cautions that a recipe calls for. They warn and name their source; none of them is ever a clearance."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from crumbcoat_calc.label.caution_facts import CautionFacts
from crumbcoat_calc.label.caution_table import READERS, Caution, Readers, cautions_of, limits
from crumbcoat_calc.values.display import celsius_text, duration_text, list_text, number_text
from crumbcoat_calc.values.region import words_in


def cautions_for(facts: CautionFacts, readers: Readers = READERS) -> tuple[Caution, ...]:
    """The cautions that the facts call for, by the law and guidance of a region, in the order of printing.

    If it is not known whether children take part, the cautions for them are included.

    Source:
        that of each caution, see cautions.csv.

    >>> [caution.key for caution in cautions_for(CautionFacts(moist=False, machines=("mixer",)))]
    ['machines']
    """
    chosen = facts_of_cautions(facts, readers)
    return tuple(
        replace(row, words=row.words.format_map(chosen[row.key])) for row in cautions_of(readers) if row.key in chosen
    )


def facts_of_cautions(facts: CautionFacts, readers: Readers = READERS) -> Mapping[str, Mapping[str, str]]:
    """By the key of each caution that the facts call for, what fills the gaps in its words.

    >>> facts_of_cautions(CautionFacts(moist=False, machines=("mixer",)))
    {'machines': {'tools': 'mixer'}}
    """
    limit = limits(readers.region)
    egg_c = limit["egg_mixture_c"]
    raw = [name for name, t_c in facts.eggs if t_c is None]
    light = [(name, t_c) for name, t_c in facts.eggs if t_c is not None and t_c < egg_c]
    heated = [(name, t_c) for name, t_c in facts.eggs if t_c is not None and t_c >= egg_c]
    flours = [name for name, t_c in facts.flours if t_c is None or t_c < egg_c]
    hot_c = facts.hottest_c if facts.hottest_c is not None else 0.0
    kept_s = facts.refrigerated_s
    most_days = limit.get("days_with_preparation")
    children = facts.young is not False
    hot = celsius_text(hot_c)
    chosen: dict[str, Mapping[str, str] | None] = {
        "allergens": _allergens(facts.allergens, readers.region),
        "allergens_by_accident": _allergens(facts.allergens_by_accident, readers.region),
        "allergens_unknown": _names(facts.allergens_unknown),
        "of_slaughter": _names(facts.of_slaughter),
        "raw_egg": _names(raw),
        "lightly_heated_egg": _heated(light),
        "heated_egg": _heated(heated),
        "raw_flour": _names(flours),
        "time_and_temperature": {} if facts.moist else None,
        "cooling": {"slow": _slow(facts, limit)} if facts.moist and hot_c >= limit["hot_holding_c"] else None,
        "out_of_the_cold": _names(facts.out_of_the_cold, "where") if facts.moist else None,
        "date": {} if facts.moist and kept_s is not None else None,
        "date_passed": (
            {"days": duration_text(kept_s)}
            if facts.moist and kept_s is not None and most_days is not None and kept_s > 86400 * (most_days - 1)
            else None
        ),
        "water_activity_and_ph": {} if facts.moist else None,
        "hot_syrup": {"temperature": hot} if hot_c > limit["syrup_from_c"] else None,
        "hot_liquid": {"temperature": hot} if limit["scalds_from_c"] <= hot_c <= limit["syrup_from_c"] else None,
        "machines": _names(facts.machines, "tools"),
        "choking": _names(facts.choking) if children else None,
        "honey": {} if facts.honey and children else None,
        "alcohol": _alcohol(facts),
        "hard_or_sharp": _names(facts.hard_or_sharp),
        "decorations": _names(facts.decorations),
        "flowers": _names(facts.flowers),
    }
    return {key: values for key, values in chosen.items() if values is not None}


def _names(names: Sequence[str], gap: str = "names") -> Mapping[str, str] | None:
    return {gap: list_text(list(names))} if names else None


def _allergens(words: Sequence[str], region: str) -> Mapping[str, str] | None:
    return _names(words_in(region, list(words)), "allergens")


def _heated(eggs: Sequence[tuple[str, float]]) -> Mapping[str, str] | None:
    if not eggs:
        return None
    return {
        "names": list_text([name for name, _ in eggs]),
        "temperature": celsius_text(min(t_c for _, t_c in eggs)),
    }


def _slow(facts: CautionFacts, limit: Mapping[str, float]) -> str:
    """What the recipe's own time for cooling calls for, if it is longer than the region's codes allow at first."""
    if facts.cooled is None or facts.cooled[1] <= 60 * limit["cooling_min"]:
        return ""
    shortest_s, longest_s, to_c = facts.cooled
    times = duration_text(shortest_s, longest_s)
    return f" The recipe gives {times} for cooling to {celsius_text(to_c)}: measure when it gets there."


def _alcohol(facts: CautionFacts) -> Mapping[str, str] | None:
    if not facts.alcohol:
        return None
    percent = facts.alcohol_percent
    if percent is None:
        shown = "an unknown part"
    else:
        shown = f"about {number_text(percent, 1)} %" if percent >= 0.1 else "less than 0.1 %"
    return {"names": list_text(list(facts.alcohol)), "percent": shown}
