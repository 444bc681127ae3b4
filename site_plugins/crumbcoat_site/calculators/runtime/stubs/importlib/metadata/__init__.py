"""Stands in for importlib.metadata, which pint and its parsers ask for their own version, and zipfile with it."""


class PackageNotFoundError(ModuleNotFoundError):
    pass


def version(name: str) -> str:
    raise PackageNotFoundError(name)
