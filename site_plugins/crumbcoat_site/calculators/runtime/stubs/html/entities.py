"""Replaces html.entities: calc escapes HTML, which needs no table of 2,000 names. A lookup raises an error."""


class _Absent:
    def __contains__(self, name: object) -> bool:
        raise RuntimeError("the names of HTML's characters are not here")

    __getitem__ = __iter__ = __len__ = get = __contains__


html5 = name2codepoint = codepoint2name = entitydefs = _Absent()
