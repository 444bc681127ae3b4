"""The error that a writer's file causes; apart from what reads files, which a build that computes nothing leaves be."""


class RecipeFileError(Exception):
    """A recipe file cannot be used; as a text it is the file and line, the problem, and what mends it."""

    def __init__(self, file: str, line: int, problem: str, remedy: str) -> None:
        super().__init__(file, line, problem, remedy)
        self.file = file
        self.line = line
        self.problem = problem
        self.remedy = remedy

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {_sentence(self.problem)}\n    Fix: {_sentence(self.remedy)}"


def _sentence(words: str) -> str:
    return words if words.endswith(("?", ".")) else f"{words}."
