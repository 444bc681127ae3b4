"""Replaces importlib.resources, which a parser could read definitions from; ours come from a file by its path."""
