"""The report of what was brought in: for people, and as JSON for programs."""

import json
from collections.abc import Sequence
from dataclasses import dataclass, field

from crumbcoat_site.bring_in.findings import AS_TEXT, DOUBTFUL, SURE, Finding
from crumbcoat_site.bring_in.saved_pages import PageProblem

FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeReport:
    """A recipe: where its draft is, the page it is from, and what was found. `file` is empty if none was written."""

    title: str
    file: str
    page: str
    syntax: str
    measures: str
    findings: Sequence[Finding]
    moved_from: Sequence[str] = ()
    lost_addresses: Sequence[str] = ()
    pictures: Sequence[str] = ()
    remote_pictures: Sequence[str] = ()
    unusable_pictures: Sequence[tuple[str, str]] = ()

    def of(self, state: str) -> list[Finding]:
        """The findings of one state."""
        return [one for one in self.findings if one.state == state]


@dataclass(slots=True)
class Report:
    """All recipes, and every problem of the pages."""

    recipes: list[RecipeReport] = field(default_factory=list)
    problems: list[PageProblem] = field(default_factory=list)

    @property
    def written(self) -> list[RecipeReport]:
        """The recipes of which a draft is there."""
        return [one for one in self.recipes if one.file]


def text_report(report: Report) -> str:
    """The report for people."""
    lines: list[str] = []
    for one in report.written:
        counts = [len(one.of(state)) for state in (SURE, DOUBTFUL, AS_TEXT)]
        lines.append(f"{one.file}: {one.title}")
        lines.append(f"    from {one.page}, {one.syntax}; cups and spoons are {one.measures} ones")
        lines.append(f"    {counts[0]} sure, {counts[1]} doubtful, {counts[2]} left as text")
        lines += [f"    check: {_doubt(finding)}" for finding in one.of(DOUBTFUL)]
        lines += [f"    as text: {found.what}{f' ({found.why})' if found.why else ''}" for found in one.of(AS_TEXT)]
        lines += [f"    moved from: {path}" for path in one.moved_from]
        lines += [f"    old address that cannot be kept: {address}" for address in one.lost_addresses]
        lines += [f"    picture: {name}" for name in one.pictures]
        lines += [f"    picture not saved with the page: {address}" for address in one.remote_pictures]
        lines += [f"    picture left out: {address} ({why})" for address, why in one.unusable_pictures]
        lines.append("")
    lines += [f"{problem}\n" for problem in report.problems]
    drafts = "draft" if len(report.written) == 1 else "drafts"
    problems = "problem" if len(report.problems) == 1 else "problems"
    lines.append(f"{len(report.written)} {drafts}, {len(report.problems)} {problems}.")
    return "\n".join(lines)


def _doubt(finding: Finding) -> str:
    confidence = "" if finding.confidence is None else f" ({100 * finding.confidence:.0f} % sure)"
    return f"{finding.what}{confidence}: {finding.why}"


def json_report(report: Report) -> str:
    """The report for programs."""
    recipes = [
        {
            "title": one.title,
            "file": one.file,
            "page": one.page,
            "syntax": one.syntax,
            "measures": one.measures,
            **{state: [_fields(finding) for finding in one.of(state)] for state in (SURE, DOUBTFUL, AS_TEXT)},
            "moved_from": list(one.moved_from),
            "lost_addresses": list(one.lost_addresses),
            "pictures": list(one.pictures),
            "remote_pictures": list(one.remote_pictures),
            "unusable_pictures": [{"address": address, "why": why} for address, why in one.unusable_pictures],
        }
        for one in report.recipes
    ]
    problems = [{"place": one.place, "problem": one.problem, "remedy": one.remedy} for one in report.problems]
    return json.dumps({"format": FORMAT, "recipes": recipes, "problems": problems}, ensure_ascii=False, indent=2)


def _fields(finding: Finding) -> dict[str, object]:
    fields: dict[str, object] = {"what": finding.what}
    if finding.why:
        fields["why"] = finding.why
    if finding.confidence is not None:
        fields["confidence"] = round(finding.confidence, 2)
    if finding.others:
        fields["others"] = list(finding.others)
    return fields
