"""Formulation arithmetic: what to weigh so that the balances come out, exact to the last fraction.

The modules in order; each may import only those before it:

    pearson, bakers_percent, linear_program, formulate, replace

From outside the package they import only `crumbcoat_calc.foods.table` and `crumbcoat_calc.errors`.
"""
