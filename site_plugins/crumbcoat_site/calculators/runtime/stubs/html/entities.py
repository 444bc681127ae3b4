"""Stands in for html.entities: calc escapes, which needs no table of 2,000 names. Whoever looks one up starts anew."""


class _Absent:
    def __contains__(self, name: object) -> bool:
        raise RuntimeError("the names of HTML's characters are not here")

    __getitem__ = __iter__ = __len__ = get = __contains__


html5 = name2codepoint = codepoint2name = entitydefs = _Absent()
