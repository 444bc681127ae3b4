"""Recipes: `model` defines them, `reading` reads them from outside data, `batch` computes a batch of one."""
