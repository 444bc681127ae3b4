"""The demo's pictures, rendered from the figures of each recipe by the code in this folder: nothing of anybody else's.

python -m illustrations        writes them beside each recipe of the demo; takes some minutes
"""
