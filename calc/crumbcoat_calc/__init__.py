"""Crumbcoat's calculation package: pure functions on frozen data, the same in the build and in the browser."""
