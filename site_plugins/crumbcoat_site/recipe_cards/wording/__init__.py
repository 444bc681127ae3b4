"""What the law keeps words for: claims such as "low fat" in the texts of a recipe, and names such as "butter"."""
