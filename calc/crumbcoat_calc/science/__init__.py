"""Food science of a mixture: formulas on plain floats, the unit in each name, each estimate with its model and range.

The modules in order; each may import only those before it:

    estimate, constants, choi_okos, solubility, syrup_properties, milk_fat, emulsion, foam, more_sugar,
    constituents, dissolving, volumes, emulsifier, water_activity, keeping, heat, mixing, chilling,
    state, mixture_map, map_regions, change

`mixture_state` in `state` describes a mixture in one call; `mixture_map` maps two of its ingredients, and `map_regions`
finds the borders on the map; `change` compares two mixtures. From outside, this package imports only `tables` (for the
constants), `foods` and `errors`.
"""
