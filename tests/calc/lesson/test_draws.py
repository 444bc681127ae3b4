"""The generator, checked against its published test values."""

import pytest
from crumbcoat_calc.lesson.draws import Draws, hash_of


@pytest.mark.parametrize(
    ("words", "value"),
    [  # fnv-1a: the algorithm's published test vectors, 64 bits
        ("", 0xCBF29CE484222325),
        ("a", 0xAF63DC4C8601EC8C),
        ("foobar", 0x85944171F73967E8),
    ],
)
def test_hash(words, value):
    assert hash_of(words) == value


def test_numbers_of_seed_zero():
    """splitmix64: the first values from state 0, as published with the reference implementation (from memory)."""
    draws = Draws(0)
    assert [draws.next_bits() for _ in range(3)] == [0xE220A8397B1DCDAF, 0x6E789E6AA1B965F4, 0x06C45D188009454F]


def test_every_face_of_a_die_comes_up_equally_often():
    draws = Draws("die")
    faces = [draws.whole_number(1, 6) for _ in range(6000)]
    assert set(faces) == {1, 2, 3, 4, 5, 6}
    # Chi-squared with 5 degrees of freedom: one seed in a thousand exceeds 20.5; this seed is fixed.
    assert sum((faces.count(face) - 1000) ** 2 / 1000 for face in range(1, 7)) < 20.5
