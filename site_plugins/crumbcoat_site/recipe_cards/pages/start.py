"""What a form of a calculator can start from."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """A recipe that a form can start from: its name in docs_dir, its title, and the way to its card.json."""

    name: str
    title: str
    card: str
