"""How much frosting a cake needs: solids, tiers, cupcakes, and common thicknesses."""
