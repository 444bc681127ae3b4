"""A US label as schema.org's NutritionInformation."""

from crumbcoat_calc.label.nutrients import LabelLine
from crumbcoat_calc.label.us import UsLabel
from crumbcoat_calc.values.display import plain_number_text


def nutrition_information(label: UsLabel) -> dict[str, str]:
    """The declared amounts of one serving; a property whose value is not known exactly is left out.

    Each is a number and a unit, as schema.org defines Mass and Energy: where a label has words, such as "less than
    1 g", it is the amount to one decimal. schema.org has no property for added sugars, vitamins or minerals.

    Source:
        schema-org, NutritionInformation.

    >>> from crumbcoat_calc.foods.composition import mixture_of
    >>> from crumbcoat_calc.foods.table import food
    >>> from crumbcoat_calc.label.us import Serving, us_label
    >>> label = us_label(mixture_of(food("butter_salted"), 500), Serving(words="1 tbsp", mass_g=14))
    >>> found = nutrition_information(label)
    >>> found["calories"], found["fatContent"], found["servingSize"]
    ('100 kcal', '11 g', '1 tbsp (14 g)')
    """
    found = {"@type": "NutritionInformation", "servingSize": label.serving.text}
    for line in label.per_serving:
        amount = _number(line)
        if line.nutrient.property is not None and amount is not None:
            found[line.nutrient.property] = f"{amount} {line.nutrient.unit}"
    return found


def _number(line: LabelLine) -> str | None:
    if line.declared is None or " to " in line.declared:
        return None
    if line.declared.startswith("less than"):
        return None if line.amount is None else plain_number_text(line.amount, 1)
    return line.declared
