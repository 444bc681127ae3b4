"""Runs in an ordinary Pyodide: `packed()` gives Zstandard frames of many kinds of data, with their lengths.

The decoder has several functions for the same, and takes one or the other by what is in a frame: a memory image of
other calculations may need one that today's does not.
"""

import random
from collections.abc import Iterator

CHANCE = random.Random(1)
LEVELS = (-7, -1, 1, 3, 6, 9, 13, 19, 22)
LENGTHS = (0, 1, 3, 50, 300, 5_000, 70_000, 300_000)
PIECES = [bytes(CHANCE.choices(range(256), k=CHANCE.randint(3, 400))) for _ in range(50)]


def samples() -> Iterator[bytes]:
    """Data that is packed in different ways: by runs, by repeats near and far, by letters, or not at all."""
    for length in LENGTHS:
        yield bytes(length)
        yield (b"cream and butter, " * (length // 18 + 1))[:length]
        yield CHANCE.randbytes(length)
        for letters in (2, 3, 5, 17, 60, 130, 256):
            weights = [1 / (rank + 1) ** CHANCE.choice((0, 0.5, 1, 2)) for rank in range(letters)]
            yield bytes(CHANCE.choices(range(letters), weights, k=length))
        words = b"".join(number.to_bytes(4, "little") for number in range(0, length, 4))
        yield words + CHANCE.randbytes(length // 9) + words
        yield b"".join(CHANCE.choices(PIECES, k=length // 200))
        yield b"".join(CHANCE.choices(PIECES, k=length // 400)) + bytes(length) + CHANCE.randbytes(length // 7)


def packed() -> list[tuple[bytes, int]]:
    """Each frame, and the length of what is in it."""
    from compression.zstd import CompressionParameter, compress  # type: ignore[import-not-found]  # It is in Python 3.14.

    found = []
    for sample in samples():
        for level in LEVELS:
            options = {CompressionParameter.compression_level: level, CompressionParameter.checksum_flag: True}
            found.append((compress(sample, options=options), len(sample)))
    return found
