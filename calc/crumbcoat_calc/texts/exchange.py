"""Texts of an exchange: what replaces an ingredient, and what could not be kept."""

from collections.abc import Sequence

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.formulation.exchange import Exchange
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import list_text, mass_text

_SHOWN_G = 0.005


def exchange_texts(name: str, mass_g: float, others: Sequence[Food], exchange: Exchange | InputError) -> Texts:
    """`exchange`, `not_kept`, `rows.exchange` of components, `rows.incoming` of the ingredients that come in.

    Args:
        name, mass_g: of the ingredient that goes out.
    """
    texts: Texts = {"out": f"{mass_text(mass_g)} of {name}", "not_kept": "", "rows.exchange": [], "rows.incoming": []}
    if isinstance(exchange, InputError):
        texts["exchange"] = f"not given: {exchange.problem}; {exchange.remedy}"
        return texts
    parts = [
        f"{mass_text(part_g)} of {other.name}"
        for other, part_g in zip(others, exchange.masses_g, strict=True)
        if part_g >= _SHOWN_G
    ]
    texts["exchange"] = list_text(parts) or "nothing"
    texts["rows.incoming"] = [
        [other.name, mass_text(part_g)] for other, part_g in zip(others, exchange.masses_g, strict=True)
    ]
    texts["rows.exchange"] = [
        [component.word, mass_text(component.before_g), mass_text(component.after_g), _change_text(component.change_g)]
        for component in exchange.changes
    ]
    lost = [
        f"{mass_text(abs(component.change_g))} {'more' if component.change_g > 0 else 'less'} {component.word}"
        for component in exchange.not_kept
        if abs(component.change_g) >= _SHOWN_G
    ]
    change = exchange.mass_change_g
    if abs(change) >= _SHOWN_G:
        lost.append(f"{mass_text(abs(change))} {'more' if change > 0 else 'less'} in all")
    texts["not_kept"] = f"Not kept: {list_text(lost)}." if lost else "Fat, water and sugar are all kept."
    return texts


def _change_text(change_g: float) -> str:
    if abs(change_g) < _SHOWN_G:
        return "kept"
    return f"{mass_text(abs(change_g))} {'more' if change_g > 0 else 'less'}"
