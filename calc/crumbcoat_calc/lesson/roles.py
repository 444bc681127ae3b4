"""Roles in a group, which go round from stage to stage."""

from collections.abc import Mapping

from crumbcoat_calc.lesson.lesson import Lesson

ROLES: Mapping[int, tuple[str, ...]] = {
    2: ("cook and timekeeper", "weigher and recorder"),
    3: ("weigher", "cook", "timekeeper and recorder"),
    4: ("weigher", "cook", "timekeeper", "recorder"),
    5: ("weigher", "cook", "timekeeper", "recorder", "reader"),
    6: ("weigher", "cook", "timekeeper", "recorder", "reader", "washer-up"),
}
"""The roles in a group of each size (common practice, no source)."""

SMALLEST, LARGEST = min(ROLES), max(ROLES)


def roles_in(size: int, stage: int) -> tuple[str, ...]:
    """The role of each student of a group in a stage, counted from 0: everybody takes the next one at each stage.

    >>> roles_in(3, 0), roles_in(3, 1)
    (('weigher', 'cook', 'timekeeper and recorder'), ('cook', 'timekeeper and recorder', 'weigher'))
    """
    roles = ROLES[size]
    return tuple([roles[(student + stage) % size] for student in range(size)])


def fitting_groups(students: int, most: int) -> tuple[int, int] | None:
    """The least and the most groups, up to `most`, in which all have 2 to 6 students; None if there are none.

    >>> fitting_groups(18, 40), fitting_groups(1, 40), fitting_groups(300, 40)
    ((3, 9), None, None)
    """
    least, largest = -(-students // LARGEST), min(students // SMALLEST, most)
    return (least, largest) if least <= largest else None


def sizes_with_roles(lesson: Lesson) -> tuple[int, ...]:
    """The sizes of groups in use for which there are roles, the largest first."""
    return tuple([size for size in dict.fromkeys(lesson.group_sizes) if size in ROLES])
