"""What the files of a site are called where mkdocs.yml says nothing else."""

SUFFIX = ".yaml"
"""The ending of recipe files."""
PRICES = "prices.csv"
INGREDIENTS = "ingredients.yaml"
