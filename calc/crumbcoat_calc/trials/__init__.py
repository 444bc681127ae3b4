"""Trials: batches of a recipe as they were really made, what was read and seen, and what they show together."""
