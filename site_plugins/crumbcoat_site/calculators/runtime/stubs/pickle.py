"""Replaces pickle, in which pint's parser could cache what it parsed; it is never given a cache folder."""

HIGHEST_PROTOCOL = 5
