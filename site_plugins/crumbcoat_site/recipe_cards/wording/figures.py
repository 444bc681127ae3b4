"""The figures of a batch that claims are judged by, each as the least and the most that it can be."""

from collections.abc import Callable
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.foods.composition import Mixture, energy_ranges
from crumbcoat_calc.label.nutrients import us_energy_kcal
from crumbcoat_calc.label.us import serving_of
from crumbcoat_calc.values.display import plain_number_text

Range = tuple[float, float]

WORDS = {
    "energy_kcal": ("kcal", "energy"), "fat_g": ("g", "fat"), "saturated_fat_g": ("g", "saturated fat"),
    "sugars_g": ("g", "sugars"), "added_sugars_g": ("g", "added sugars"), "sodium_mg": ("mg", "sodium"),
    "fibre_g": ("g", "fibre"), "protein_g": ("g", "protein"), "cholesterol_mg": ("mg", "cholesterol"),
    "trans_fat_g": ("g", "trans fat"), "calcium_mg": ("mg", "calcium"), "iron_mg": ("mg", "iron"),
    "potassium_mg": ("mg", "potassium"),
    "protein_energy": ("%", "its energy from protein"),
}  # fmt: skip
"""The unit and the name of each figure."""


@dataclass(frozen=True, slots=True)
class Figures:
    """The figures of a mixture; `density_g_per_ml` makes two tablespoons of it a mass."""

    mixture: Mixture
    density_g_per_ml: float | None

    def in_part(self, figure: str, per: str, market: str) -> Range:
        """The least and the most of a figure in `100 g`, `50 g` or `2 tbsp`, or in % where `per` is `-`."""
        if figure == "protein_energy":
            return self._protein_energy()
        share = self._mass_g(per) / self.mixture.mass_g
        low, high = self._whole(figure, market)
        return share * low, share * high

    def text(self, figure: str, per: str, market: str) -> str:
        """The figure for people, such as `25.1 g`, or `not known`."""
        low, high = self.in_part(figure, per, market)
        unit = WORDS[figure][0]
        if high == float("inf"):
            return "not known"
        ends = [plain_number_text(end, 0 if end >= 100 else 1) for end in (low, high)]
        return f"{ends[0] if ends[0] == ends[1] else ' to '.join(ends)} {unit}"

    def part_text(self, per: str) -> str:
        """The part of the food, with what two tablespoons are taken to weigh where nobody weighed them."""
        assumed = per == "2 tbsp" and self.density_g_per_ml is None
        return serving_of(None).text if assumed else per

    def _mass_g(self, per: str) -> float:
        if per == "2 tbsp":
            return serving_of(self.density_g_per_ml).mass_g
        return float(per.removesuffix(" g"))

    def _whole(self, figure: str, market: str) -> Range:
        if figure == "energy_kcal":
            energy: Callable[[Mixture], Range] = us_energy_kcal if market == "US" else _eu_kcal
            return energy(self.mixture)
        trans = market != "US" and figure == "saturated_fat_g"
        parts = (figure, "trans_fat_g") if trans else (figure,)
        return fsum(map(self.mixture.at_least, parts)), fsum(map(self.mixture.at_most, parts))

    def _protein_energy(self) -> Range:
        low, high = _eu_kcal(self.mixture)
        protein = self.mixture.at_least("protein_g"), self.mixture.at_most("protein_g")
        return 400 * protein[0] / high if high else 0.0, 400 * protein[1] / low if low else 0.0


def _eu_kcal(mixture: Mixture) -> Range:
    return energy_ranges(mixture)[0]
