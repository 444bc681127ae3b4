"""For a host that sends no headers of ours, such as the pages of a forge: the policy in each page."""

import html
import re

NAME = ".nojekyll"
"""An empty file of this name keeps a forge from leaving out files whose names begin with an underscore."""

_HEAD = re.compile(r"<head[^>]*>(?:\s*<meta charset=[^>]*>)?", re.IGNORECASE)


def with_policy(page: str, policy: str) -> str:
    """The page with the policy in its head, before all that it is about.

    >>> with_policy('<head><meta charset="utf-8"><title>A</title>', "default-src 'none'")[:82]
    '<head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="de'
    """
    line = f'<meta http-equiv="Content-Security-Policy" content="{html.escape(policy, quote=False)}">'
    return _HEAD.sub(lambda found: f"{found[0]}{line}", page, count=1)
