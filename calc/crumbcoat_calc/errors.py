"""The one error written for people to read."""

Path = tuple[str | int, ...]

_LONGEST_PROBLEM = 400
"""In letters; of a longer one, which quotes all of a long text, the beginning and the end are shown."""


class InputError(ValueError):
    """A value from outside cannot be used. Each host turns `path` into its own kind of place.

    Args:
        problem: what is wrong, quoting what was written; no full stop. A long quotation is cut in its middle.
        remedy: what to do about it; no full stop.
        path: keys and list positions (from 0) that lead to the value, outermost first.
        choices: what may be written instead of the whole value, with what each would be, where it is one of a few.

    >>> str(InputError("unknown unit 'gramm'", "did you mean 'gram'?", ("amount",)).within("ingredients", "milk"))
    "ingredients.milk.amount: unknown unit 'gramm': did you mean 'gram'?"
    """

    def __init__(self, problem: str, remedy: str, path: Path = (), choices: tuple[tuple[str, str], ...] = ()) -> None:
        if len(problem) > _LONGEST_PROBLEM:
            problem = f"{problem[:200]}…{problem[-100:]}"
        super().__init__(problem, remedy, path, choices)
        self.problem = problem
        self.remedy = remedy
        self.path = path
        self.choices = choices

    def within(self, *outer: str | int) -> "InputError":
        """The same error, with the path extended outwards."""
        return self.at((*outer, *self.path))

    def at(self, path: Path) -> "InputError":
        """The same error at another place."""
        return type(self)(self.problem, self.remedy, path, self.choices)

    def __str__(self) -> str:
        place = ".".join(str(step) for step in self.path)
        return f"{place}: {self.problem}: {self.remedy}" if place else f"{self.problem}: {self.remedy}"


class EmptyFieldError(InputError):
    """Nothing is written where something is needed."""


class MissingFieldError(InputError):
    """A field is not there; the path is that of the fields around it.

    >>> MissingFieldError("the field 'title' is missing", "add `title: …`").field
    'title'
    """

    @property
    def field(self) -> str:
        """The name of the field, which is the first word in quotation marks."""
        return self.problem.split("'")[1]
