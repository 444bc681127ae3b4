"""What was found in files, as text for people or as JSON for programs."""

import json
from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_site.command.recipe_warnings import RecipeWarning
from crumbcoat_site.recipe_cards.source.source_errors import SourceError


@dataclass(frozen=True, slots=True)
class Report:
    """What was found in one file, by line."""

    file: str
    problems: tuple[SourceError, ...]
    warnings: tuple[RecipeWarning, ...]


def text_report(reports: Sequence[Report]) -> str:
    """Problems first, then warnings, then how many there are."""
    parts = [str(problem) for report in reports for problem in report.problems]
    alike: dict[str, list[tuple[str, RecipeWarning]]] = {}
    for report in reports:
        for warning in report.warnings:
            alike.setdefault(warning.text, []).append((f"{report.file}:{warning.line}", warning))
    if alike:
        parts.append("Warnings:")
        parts += [_warning(found) for found in alike.values()]
    problems = sum(len(report.problems) for report in reports)
    warnings = [warning for report in reports for warning in report.warnings]
    counts = [count_text(len(reports), "file"), count_text(problems, "problem"), count_text(len(warnings), "warning")]
    return "\n".join([*parts, ", ".join(counts) + "."])


def _warning(found: Sequence[tuple[str, RecipeWarning]]) -> str:
    """A warning with its place, or one of several files with all places; each has its remedy where they differ."""
    text, hint = found[0][1].text, found[0][1].hint
    if len(found) == 1:
        return f"{found[0][0]}: {text}\n    Fix: {hint}"
    lines = [f"{len(found)} places: {text}"]
    if all(warning.hint == hint for _, warning in found):
        lines += [f"    Fix: {hint}", *[f"    - {place}" for place, _ in found]]
    else:
        lines += [f"    - {place}\n      Fix: {warning.hint}" for place, warning in found]
    return "\n".join(lines)


def json_report(reports: Sequence[Report]) -> str:
    """One object for programs: `files`, each with `file`, `problems` and `warnings`."""
    files = [
        {
            "file": report.file,
            "problems": [
                {"line": problem.line, "problem": problem.problem, "fix": problem.remedy} for problem in report.problems
            ],
            "warnings": [
                {"line": warning.line, "kind": warning.kind, "warning": warning.text, "hint": warning.hint}
                for warning in report.warnings
            ],
        }
        for report in reports
    ]
    return json.dumps({"files": files}, ensure_ascii=False, indent=1)


def count_text(number: int, what: str) -> str:
    """How many there are: `no files`, `1 file`, `2 files`."""
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"
