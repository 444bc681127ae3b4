"""Replaces logging: nobody reads a log here. So threading and string templates are left out."""

DEBUG, INFO, WARNING, ERROR, CRITICAL = range(10, 60, 10)


class NullHandler:
    pass


class Logger:
    def _ignore(self, *_: object, **__: object) -> None:
        pass

    addHandler = setLevel = log = debug = info = warn = warning = error = exception = critical = _ignore

    def isEnabledFor(self, _: object) -> bool:
        return False


def getLogger(_: object = None) -> Logger:
    return Logger()
