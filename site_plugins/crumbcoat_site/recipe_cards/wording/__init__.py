"""Words that the law regulates: claims such as "low fat" in the texts of a recipe, and names such as "butter"."""
