"""What was found of a recipe, and how sure it is: for the draft's comments and for the report."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from crumbcoat_calc.errors import Path

SURE, DOUBTFUL, AS_TEXT = "sure", "doubtful", "text"
CHECK = "check"
"""The word that begins a comment beside what somebody should look at."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing: `state` is SURE, DOUBTFUL or AS_TEXT; `confidence` is that of a kind."""

    state: str
    what: str
    why: str = ""
    confidence: float | None = None
    others: tuple[str, ...] = ()


@dataclass(slots=True)
class Findings:
    """The findings of a recipe; comments of its draft by the path of a field: above its line, and beside it."""

    listed: list[Finding] = field(default_factory=list)
    above: dict[Path, list[str]] = field(default_factory=dict)
    beside: dict[Path, list[str]] = field(default_factory=dict)

    def sure(self, what: str, confidence: float | None = None) -> None:
        """Something that needs no second look."""
        self.listed.append(Finding(SURE, what, confidence=confidence))

    def doubtful(
        self, path: Path, what: str, why: str, confidence: float | None = None, others: tuple[str, ...] = ()
    ) -> None:
        """Something that somebody should look at; the comment beside it says why."""
        self.listed.append(Finding(DOUBTFUL, what, why, confidence, others))
        self.beside.setdefault(path, []).append(why)

    def as_text(self, what: str, why: str = "") -> None:
        """Something that no field is for, and that is in the draft as text."""
        self.listed.append(Finding(AS_TEXT, what, why))

    def comment(self, path: Path, lines: Iterable[str]) -> None:
        """Comments above a field."""
        self.above.setdefault(path, []).extend(lines)
