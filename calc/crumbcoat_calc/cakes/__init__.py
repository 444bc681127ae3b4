"""How much frosting a cake takes: solids, tiers and cupcakes, and the thicknesses that are common."""
