"""The path of a drawing (SVG 2, chapter 9: M, L, H, V, C, S, A and Z) -> lines that Pillow draws."""

import re
from math import acos, copysign, cos, degrees, hypot, pi, radians, sin, sqrt

Point = tuple[float, float]

_TOKEN = re.compile(r"[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)")
_STEPS = 16
_COUNT = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "A": 7, "Z": 0}


def lines_of(path: str) -> list[list[Point]]:
    """Each part of a path as points, a curve as 16 of them; a part that is closed ends where it begins.

    >>> lines_of("M1 2h3v4zm5 0L6 7")
    [[(1.0, 2.0), (4.0, 2.0), (4.0, 6.0), (1.0, 2.0)], [(6.0, 2.0), (6.0, 7.0)]]
    """
    lines: list[list[Point]] = []
    here, control, command = (0.0, 0.0), (0.0, 0.0), ""
    tokens = _TOKEN.findall(path)
    while tokens:
        if tokens[0].isalpha():
            command = tokens.pop(0)
        kind = command.upper()
        numbers = [float(tokens.pop(0)) for _ in range(_COUNT[kind])]
        x, y = here if command.islower() else (0.0, 0.0)
        smooth = (2 * here[0] - control[0], 2 * here[1] - control[1])
        if kind == "Z":
            here = control = lines[-1][0]
            lines[-1].append(here)
            continue
        if kind == "M":
            here = control = (x + numbers[0], y + numbers[1])
            lines.append([here])
            command = "l" if command == "m" else "L"
            continue
        if lines[-1][0] == lines[-1][-1] and len(lines[-1]) > 1:
            lines.append([here])
        start, control = here, (0.0, 0.0)
        if kind == "H":
            here = (x + numbers[0], here[1])
            lines[-1].append(here)
        elif kind == "V":
            here = (here[0], y + numbers[0])
            lines[-1].append(here)
        elif kind == "A":
            here = (x + numbers[5], y + numbers[6])
            lines[-1] += _arc(start, numbers, here)
        else:
            points = [(x + across, y + down) for across, down in zip(numbers[::2], numbers[1::2], strict=True)]
            here = points[-1]
            if kind == "L":
                lines[-1].append(here)
            else:
                control = points[-2]
                lines[-1] += _curve(start, *([smooth, *points] if kind == "S" else points))
        if kind not in "CS":
            control = here
    return lines


def _curve(start: Point, first: Point, second: Point, end: Point) -> list[Point]:
    points = []
    for step in range(1, _STEPS + 1):
        t = step / _STEPS
        parts = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        corners = (start, first, second, end)
        x, y = (sum(part * corner[axis] for part, corner in zip(parts, corners, strict=True)) for axis in (0, 1))
        points.append((x, y))
    return points


def _arc(start: Point, numbers: list[float], end: Point) -> list[Point]:
    """An arc by its ends (SVG 2, B.2.4), whose ellipse is not turned."""
    rx, ry, large, sweep = abs(numbers[0]), abs(numbers[1]), bool(numbers[3]), bool(numbers[4])
    dx, dy = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    too_small = hypot(dx / rx, dy / ry)
    if too_small > 1:
        rx, ry = rx * too_small, ry * too_small
    square = (rx * ry) ** 2 / ((rx * dy) ** 2 + (ry * dx) ** 2) - 1
    root = copysign(sqrt(max(0.0, square)), 1 if large != sweep else -1)
    cx, cy = root * rx * dy / ry, -root * ry * dx / rx
    begin = _angle((dx - cx) / rx, (dy - cy) / ry)
    turn = _angle((-dx - cx) / rx, (-dy - cy) / ry) - begin
    turn = turn % (2 * pi) if sweep else -(-turn % (2 * pi))
    middle = ((start[0] + end[0]) / 2 + cx, (start[1] + end[1]) / 2 + cy)
    steps = max(4, round(abs(degrees(turn)) / 8))
    angles = [begin + turn * step / steps for step in range(1, steps + 1)]
    return [(middle[0] + rx * cos(angle), middle[1] + ry * sin(angle)) for angle in angles]


def _angle(x: float, y: float) -> float:
    return copysign(acos(max(-1.0, min(1.0, x / (hypot(x, y) or 1.0)))), y) if (x or y) else radians(0)
