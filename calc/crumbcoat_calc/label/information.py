"""A US label as schema.org's NutritionInformation."""

from crumbcoat_calc.label.us import UsLabel


def nutrition_information(label: UsLabel) -> dict[str, str]:
    """The declared amounts of one serving; a property whose value is not known exactly is left out.

    schema.org has no property for added sugars, vitamins or minerals.

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
        if line.nutrient.property is not None and line.declared is not None and " to " not in line.declared:
            found[line.nutrient.property] = line.text
    return found
