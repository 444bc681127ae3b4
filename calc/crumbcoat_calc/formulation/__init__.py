"""Formulation arithmetic: the amounts that give a wanted composition, on exact fractions.

The modules in order; each may import only those before it:

    pearson, bakers_percent, linear_program, simplex, formulate, exchange

From outside, this package imports only `crumbcoat_calc.foods.table` and `crumbcoat_calc.errors`.
"""
