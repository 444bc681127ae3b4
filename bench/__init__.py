"""Measurements, compared side by side in one run: `make bench` prints tables and writes JSON to bench/results/."""
