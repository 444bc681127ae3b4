"""The mark of a recipe as it is: a trial keeps it, so that a recipe that has moved on since is noticed."""

import hashlib
import json
from collections.abc import Mapping

from crumbcoat_calc.trials.changing import WHAT_IS_MADE


def recipe_mark(fields: Mapping[str, object]) -> str:
    """Eight letters and digits that change when an ingredient or a step does.

    Args:
        fields: what is in the recipe file, as plain data.
    """
    content = {name: fields[name] for name in WHAT_IS_MADE}
    written = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(written.encode()).hexdigest()[:8]
