"""Three public food tables, whole, for a recipe's `kind: usda 01139`. NOTICE.txt has their licences.

The build reads them; a browser never loads them, since the data of a recipe carry the figures of its foods.
"""
