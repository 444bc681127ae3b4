"""Food science of a mixture: pure formulas on floats, the unit in each name, every answer with its model and its range.

The modules in order; each may import only those before it:

    estimate, constants, choi_okos, sugar_solution, milk_fat, emulsion, foam,
    constituents, dissolving, volumes, emulsifier, water_activity, keeping, heat, chilling, state

`state` alone knows all of them: one call describes a mixture. From outside the package `science` imports only
`calc.tables` (the constants), `calc.foods` and `calc.errors`.
"""
