"""The errors that a writer's files cause; in a module of their own, so that an unchanged build need not load calc."""

from collections.abc import Sequence


class SourceError(Exception):
    """A file of the site cannot be used; the text gives the file and line, the problem and the fix."""

    def __init__(self, file: str, line: int, problem: str, remedy: str) -> None:
        super().__init__(file, line, problem, remedy)
        self.file = file
        self.line = line
        self.problem = problem
        self.remedy = remedy

    @property
    def problem_sentence(self) -> str:
        """What is wrong, with a full stop."""
        return _sentence(self.problem)

    @property
    def remedy_sentence(self) -> str:
        """What to do, with a full stop or question mark."""
        return _sentence(self.remedy)

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.problem_sentence}\n    Fix: {self.remedy_sentence}"


class SourceErrors(Exception):
    """Several files of the site cannot be used; the text gives every error."""

    def __init__(self, errors: Sequence[SourceError]) -> None:
        super().__init__(errors)
        self.errors = tuple(errors)

    def __str__(self) -> str:
        return "\n".join(str(error) for error in self.errors)


def _sentence(words: str) -> str:
    return words if words.endswith(("?", ".")) else f"{words}."
