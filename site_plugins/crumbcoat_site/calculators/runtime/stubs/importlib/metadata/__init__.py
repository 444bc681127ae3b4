"""Replaces importlib.metadata, which pint and its parsers ask for their own version. So zipfile is left out."""


class PackageNotFoundError(ModuleNotFoundError):
    pass


def version(name: str) -> str:
    raise PackageNotFoundError(name)
