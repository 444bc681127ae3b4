"""Where the trials of a recipe are: in a folder beside its file."""

from collections.abc import Iterable
from pathlib import Path

FOLDER_ENDING = ".trials"
"""The folder of a recipe's trials is named as the recipe file, with this ending."""


def trial_folder(recipe: Path) -> Path:
    """Where the trials of a recipe file are.

    >>> trial_folder(Path("docs/silk.yaml")).as_posix()
    'docs/silk.trials'
    """
    return recipe.with_name(recipe.stem + FOLDER_ENDING)


def trial_texts(recipe: Path) -> list[tuple[str, str]]:
    """The name and the text of every trial file of a recipe, also of those that cannot be used."""
    files = sorted(trial_folder(recipe).glob(f"*{recipe.suffix}"))
    return [(path.name, path.read_text("utf-8", "replace")) for path in files]


def next_number(recipe: Path, used: Iterable[int]) -> int:
    """The number of the next trial of a recipe file; those in the names of files that cannot be read count too.

    Args:
        used: the numbers of the trials that can be used.
    """
    heads = [path.stem.partition("-")[0] for path in trial_folder(recipe).glob(f"*{recipe.suffix}")]
    return 1 + max([*used, *(int(head) for head in heads if head.isdecimal() and head.isascii())], default=0)


def is_in_a_trial_folder(path: str) -> bool:
    """Whether a file is a trial, or beside one.

    >>> is_in_a_trial_folder("cakes/silk.trials/1.yaml"), is_in_a_trial_folder("cakes/silk.yaml")
    (True, False)
    """
    return any(part.endswith(FOLDER_ENDING) for part in path.split("/")[:-1])


def recipe_of(trial: Path) -> Path:
    """The recipe file that a trial file belongs to.

    >>> recipe_of(Path("docs/silk.trials/1.yaml")).as_posix()
    'docs/silk.yaml'
    """
    folder = trial.parent
    return folder.with_name(folder.name.removesuffix(FOLDER_ENDING) + trial.suffix)
