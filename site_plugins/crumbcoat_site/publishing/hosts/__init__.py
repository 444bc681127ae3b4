"""The files that make a host send what the table says."""

WRITTEN = "# Written by crumbcoat build"
"""How a file begins that a build writes and the next one writes again."""
