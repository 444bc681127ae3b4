"""What students predict before they mix: the answers follow from the figures of the cards."""

from collections.abc import Sequence
from decimal import Decimal

from crumbcoat_calc.lesson.card_figures import CardFigures
from crumbcoat_calc.lesson.choices import MOST_CHOICES, in_order
from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.exercise import TENTH, Exercise, bowl_of, g, plain, to
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.values.exact import exact_decimal

_MOST = 3
_CLEARLY_FATTER, _CLEARLY_WARMER_C = 1.0, 2.0
"""From which differences in fat, in g in 100 g, and in temperature a question has one answer (our choice)."""

_FATS = (2, 10, 20, 35, 50, 65, 80)
_GROWTHS = (0, 50, 75, 100, 150, 200, 300)
_FAT_APART, _GROWTH_APART, _GROWTH_SHARE = 12, 25, Decimal("0.4")
"""Wrong answers differ at least this much from the right one (our choice)."""

Known = tuple[Batch, CardFigures]


def predictions(known: Sequence[Known], seed: str) -> list[Exercise]:
    """Up to three questions about the recipes of a lesson.

    Source:
        definition (fat percentage, overrun); derivation (mass balance).
    """
    draws = Draws(f"{seed}/prediction")
    found = [_most_fat(known), _softens_first(known)] if len(known) > 1 else [_fat(known[0], draws)]
    airy = [one for one in known if one[1].air]
    if airy:
        found.append(_growth(draws.one_of(airy), draws))
    found.append(_mass(draws.one_of(known)))
    return [one for one in found if one][:_MOST]


def _most_fat(known: Sequence[Known]) -> Exercise | None:
    fats = [(card.fat_percent, batch.recipe.title) for batch, card in known if card.fat_percent is not None]
    ranked = sorted(fats, reverse=True)
    if len(fats) < len(known) or ranked[0][0] - ranked[1][0] < _CLEARLY_FATTER:
        return None
    lines = [f"{title}: {_tenths(fat)} g in 100 g" for fat, title in ranked]
    titles = [title for _, title in fats]
    return in_order("fat", "Which has the most fat in 100 g?", ranked[0][1], titles, *lines)


def _softens_first(known: Sequence[Known]) -> Exercise | None:
    found = [(card.slumps_c, batch.recipe.title) for batch, card in known if card.slumps_c is not None]
    ranked = sorted(found)
    if len(ranked) < 2 or ranked[1][0] - ranked[0][0] < _CLEARLY_WARMER_C:
        return None
    lines = [f"{title}: slumps from about {round(t_c)} °C, by its card" for t_c, title in ranked]
    titles = [title for _, title in found]
    return in_order("warm room", "Which slumps first as the room warms?", ranked[0][1], titles, *lines)


def _fat(known: Known, draws: Draws) -> Exercise | None:
    batch, card = known
    if card.fat_percent is None:
        return None
    right = round(card.fat_percent)
    wrong = [one for one in _FATS if abs(one - card.fat_percent) >= _FAT_APART]
    return in_order(
        "fat",
        f"How much fat is in 100 g of {batch.recipe.title}?",
        f"about {right} g",
        [f"about {one} g" for one in sorted([right, *draws.some_of(wrong, MOST_CHOICES - 1)])],
        f"by its card: {_tenths(card.fat_percent)} g in 100 g",
    )


def _growth(known: Known, draws: Draws) -> Exercise:
    batch, card = known
    mix, foam = [to(exact_decimal(density), Decimal("0.01")) for density in card.air or (1.0, 1.0)]
    overrun = to(100 * (mix - foam) / foam, TENTH)
    right = int(to(overrun / 5, Decimal(1))) * 5
    apart = max(Decimal(_GROWTH_APART), _GROWTH_SHARE * overrun)
    wrong = [one for one in _GROWTHS if abs(one - overrun) >= apart]
    stated = "expects" if card.worked_out else "says"
    return in_order(
        "volume",
        f"Air is beaten into {batch.recipe.title}. How much more room does it take than without air?",
        f"about {right} % more",
        [_more(one) for one in sorted([right, *draws.some_of(wrong, MOST_CHOICES - 1)])],
        f"its card {stated} {plain(foam)} g/mL, and without air {plain(mix)} g/mL",
        f"overrun: 100 × ({plain(mix)} − {plain(foam)}) / {plain(foam)} = {plain(overrun)} %",
    )


def _more(percent: int) -> str:
    return f"about {percent} % more" if percent else "no more"


def _mass(known: Known) -> Exercise:
    batch, _ = known
    bowl = bowl_of(batch)
    right = "less" if bowl.lost_g else "the same"
    line = (
        bowl.finished_line()
        if bowl.lost_g
        else f"nothing leaves the bowl, and air weighs hardly anything: {g(bowl.finished_g)}"
    )
    return in_order(
        "mass",
        f"The ingredients of {batch.recipe.title} weigh {g(bowl.weighed_g)}. If nothing sticks to the tools, "
        "does the finished batch weigh more, the same or less?",
        right,
        ["more", "the same", "less"],
        line,
    )


def _tenths(value: float) -> str:
    return plain(to(exact_decimal(value), TENTH))
