"""Numbers drawn from a seed: the same on every machine and in every version of Python; only good for worksheets."""

from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")

_BITS = 0xFFFFFFFFFFFFFFFF


def hash_of(words: str) -> int:
    """The 64-bit FNV-1a hash of a text in UTF-8.

    Source:
        fnv-1a.

    >>> f"{hash_of('a'):x}"
    'af63dc4c8601ec8c'
    """
    value = 0xCBF29CE484222325
    for byte in words.encode():
        value = (value ^ byte) * 0x100000001B3 & _BITS
    return value


class Draws:
    """A sequence of numbers drawn from a seed, by SplitMix64.

    Source:
        splitmix64.

    >>> Draws("group 1").whole_number(1, 6) == Draws("group 1").whole_number(1, 6)
    True
    """

    def __init__(self, seed: str | int) -> None:
        self._state = (seed if isinstance(seed, int) else hash_of(seed)) & _BITS

    def next_bits(self) -> int:
        """The next 64 bits of the sequence."""
        self._state = (self._state + 0x9E3779B97F4A7C15) & _BITS
        mixed = self._state
        mixed = (mixed ^ mixed >> 30) * 0xBF58476D1CE4E5B9 & _BITS
        mixed = (mixed ^ mixed >> 27) * 0x94D049BB133111EB & _BITS
        return mixed ^ mixed >> 31

    def whole_number(self, lowest: int, highest: int) -> int:
        """A whole number from `lowest` to `highest`, both included; in a wide range, low ones are slightly likelier."""
        return lowest + self.next_bits() % (highest - lowest + 1)

    def one_of(self, choices: Sequence[T]) -> T:
        """One of the choices."""
        return choices[self.whole_number(0, len(choices) - 1)]

    def some_of(self, choices: Sequence[T], most: int) -> list[T]:
        """Up to this many of the choices, each once, in a drawn order."""
        left = list(choices)
        drawn: list[T] = []
        while left and len(drawn) < most:
            drawn.append(left.pop(self.whole_number(0, len(left) - 1)))
        return drawn
