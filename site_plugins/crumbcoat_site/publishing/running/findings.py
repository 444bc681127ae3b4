"""What was found on a site, as text for people or as JSON for programs."""

import json
from collections.abc import Sequence
from dataclasses import dataclass

_MOST_PLACES = 10


@dataclass(frozen=True, slots=True)
class Finding:
    """Something about a file of a site: where, what, and what to do. A warning keeps nothing from working."""

    place: str
    problem: str
    remedy: str
    is_warning: bool = False


def text_of(findings: Sequence[Finding], files: int) -> str:
    """Problems first, then warnings, each once with all of its places, then how many there are."""
    parts = []
    for is_warning in (False, True):
        alike: dict[tuple[str, str], list[str]] = {}
        for found in findings:
            if found.is_warning == is_warning:
                alike.setdefault((found.problem, found.remedy), []).append(found.place)
        if alike and is_warning:
            parts.append("Warnings:")
        parts += [_one(problem, remedy, places) for (problem, remedy), places in alike.items()]
    warnings = sum(found.is_warning for found in findings)
    counts = [_count(files, "file"), _count(len(findings) - warnings, "problem"), _count(warnings, "warning")]
    return "\n".join([*parts, ", ".join(counts) + ". Links to other sites are not followed."])


def json_of(findings: Sequence[Finding]) -> str:
    """One object for programs: `problems` and `warnings`, each with `place`, `problem` and `fix`."""
    listed = {
        name: [
            {"place": found.place, "problem": found.problem, "fix": found.remedy}
            for found in findings
            if found.is_warning == is_warning
        ]
        for name, is_warning in (("problems", False), ("warnings", True))
    }
    return json.dumps(listed, ensure_ascii=False, indent=1)


def _one(problem: str, remedy: str, places: Sequence[str]) -> str:
    if len(places) == 1:
        return f"{places[0]}: {problem}.\n    Fix: {remedy}."
    more = len(places) - _MOST_PLACES
    listed = [f"    - {place}" for place in places[:_MOST_PLACES]] + ([f"    - {more} more"] if more > 0 else [])
    return "\n".join([f"{len(places)} places: {problem}.", f"    Fix: {remedy}.", *listed])


def _count(number: int, what: str) -> str:
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"
