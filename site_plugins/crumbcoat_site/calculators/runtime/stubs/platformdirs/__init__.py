"""Replaces platformdirs, which pint could ask for a cache folder; it never does."""


def user_cache_dir(*_: object, **__: object) -> str:
    raise OSError("there is no cache folder here")
