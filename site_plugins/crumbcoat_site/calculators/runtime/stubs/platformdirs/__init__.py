"""Stands in for platformdirs, which tells pint where a cache file could lie; nobody asks for one."""


def user_cache_dir(*_: object, **__: object) -> str:
    raise OSError("there is no cache folder here")
