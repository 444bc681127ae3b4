"""The words of a trial file, which the card's form uses as well."""

PUBLISH = "publish"
VERDICTS = ("go on from here", "drop", PUBLISH)

OUTCOMES = ("held", "too soft", "too stiff", "slumped", "wept", "split", "grainy", "cracked")
"""What a batch, or a test of it, did: words of the trade (common practice, no source)."""

TESTS = ("keeping", "piping", "holding", "freezing", "smoothing", "colouring")
"""What a finished batch is put through; holding is in a warm room or in the sun (common practice, no source)."""

NOT_MADE = "left out"
"""What is written in the place of an ingredient or a step that a trial left out."""

MOST_TRIALS = 9999

SCALES = (5, 9)
"""A scale of five marks, and the nine-point hedonic scale.

Source:
    common practice, no source (5); peryam-pilgrim-1957 (9).
"""
