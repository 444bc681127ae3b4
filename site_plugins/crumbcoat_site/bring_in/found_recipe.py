"""A recipe as a page gives it: plain texts, in the order of the page, with nothing left out."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundStep:
    """A step: its words, without tags; a title of its own, if it has one; addresses of its pictures.

    `shows` is what the page says that the first picture shows; empty if it does not.
    """

    text: str
    title: str = ""
    pictures: tuple[str, ...] = ()
    shows: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSection:
    """Steps with a heading, which is empty where a page has none. `tips` are remarks beside them."""

    title: str
    steps: tuple[FoundStep, ...]
    tips: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FoundAuthor:
    """Who wrote it; `url` is empty without a whole address."""

    name: str
    is_person: bool = False
    url: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundRecipe:
    """A recipe of a page. `video` has the fields of a recipe file.

    `others` are properties that a recipe file has no field for, each with its name."""

    title: str
    summary: str
    authors: tuple[FoundAuthor, ...]
    published: str
    updated: str
    cuisine: str
    yields: tuple[str, ...]
    lines: tuple[str, ...]
    sections: tuple[FoundSection, ...]
    keywords: tuple[str, ...]
    category: str
    pictures: tuple[str, ...]
    addresses: tuple[str, ...]
    language: str
    syntax: str
    others: tuple[tuple[str, str], ...] = ()
    video: tuple[tuple[str, str], ...] = ()
