"""Texts about the cost of a batch."""

from crumbcoat_calc.purchasing.cost import Cost, CostLine, money_text
from crumbcoat_calc.purchasing.prices import Price
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.portions import one_portion_text
from crumbcoat_calc.values.display import list_text, mass_text

NO_PRICES = "There is no file of prices."


def cost_texts(batch: Batch, cost: Cost | None, cake_g: float | None = None) -> Texts:
    """`cost.lines` of each ingredient and `cost.sums`: rows; `cost.missing` and `cost.dates`; `cost.short`: this batch.

    `cost.kept` is what has to be bought as well and is not in the batch.

    Args:
        cost: None if the site has no prices.
        cake_g: the amount for one cake, in g; None if that is not asked for.
    """
    cake = "" if cake_g is None else mass_text(cake_g)
    if cost is None:
        return {
            "cost.lines": [],
            "cost.sums": [],
            "cost.missing": "",
            "cost.kept": "",
            "cost.dates": NO_PRICES,
            "cost.short": "",
            "cost.cake": cake,
        }
    sums = _sums(batch, cost, cake)
    return {
        "cost.lines": [_line(line, cost.currency) for line in cost.lines],
        "cost.sums": sums,
        "cost.short": f"{sums[0][1]} for this batch, {sums[2][1]} for {sums[2][0]}",
        "cost.missing": f"No price is known for {list_text(cost.missing)}." if cost.missing else "",
        "cost.kept": _kept_text(batch),
        "cost.dates": _dates_text(cost),
        "cost.cake": cake,
    }


def _kept_text(batch: Batch) -> str:
    kept = [(weighed.needed_g - weighed.inside_g, weighed.name) for weighed in batch.weighed]
    parts = [f"{mass_text(mass_g)} {name}" for mass_g, name in kept if mass_g > 1e-9]
    return f"Not counted, since not in this batch: {list_text(parts)}, kept back." if parts else ""


def _line(line: CostLine, currency: str) -> list[str]:
    if line.cost is None or line.price is None:
        return [line.name, mass_text(line.mass_g), "no price", "not known"]
    return [line.name, mass_text(line.mass_g), _price_text(line.price), money_text(line.cost, currency)]


def _price_text(price: Price) -> str:
    return f"{money_text(price.price, price.currency)} for {price.pack}"


def _sums(batch: Batch, cost: Cost, cake: str) -> list[list[str]]:
    least = "at least " if cost.missing else ""
    sums = [
        ("This batch", cost.batch),
        ("1 kg", cost.per_kg),
        (one_portion_text(batch), cost.per_portion),
    ]
    if cost.per_cake is not None:
        sums.append((f"A cake with {cake}", cost.per_cake))
    return [[name, least + money_text(amount, cost.currency)] for name, amount in sums]


def _dates_text(cost: Cost) -> str:
    if cost.oldest is None or cost.newest is None:
        return ""
    when = f"of {cost.oldest}" if cost.oldest == cost.newest else f"from {cost.oldest} to {cost.newest}"
    return f"Prices {when}. Counts the ingredients used, but not work, power, or what is left in a pack."
