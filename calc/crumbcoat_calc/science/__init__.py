"""Food science of a mixture: pure formulas on floats, the unit in each name, every answer with its model and its range.

The modules in order; each may import only those before it:

    estimate, constants, choi_okos, sugar_solution, milk_fat, emulsion, foam,
    constituents, dissolving, volumes, emulsifier, water_activity, keeping, heat, chilling,
    state, plane, change

`state_of` in `state` describes a mixture in one call; `plane` maps two of its ingredients; `change` compares two
states. From outside the package they import only `tables` (the constants), `foods` and `errors`.
"""
