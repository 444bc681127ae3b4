"""Stands in for importlib.resources, from which a parser could read definitions; ours come from a file by its path."""
