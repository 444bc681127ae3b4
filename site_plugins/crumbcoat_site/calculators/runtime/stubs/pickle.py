"""Stands in for pickle, in which pint's parser could keep what it parsed; nobody gives it a cache folder."""

HIGHEST_PROTOCOL = 5
