"""The context of a page's calculators, as the page carries it: JSON, and the digest under which it is sent."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.forms.context import Context, context_from
from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class PageContext:
    """The fields of a context as plain data, and the context that they make."""

    fields: Mapping[str, object]
    context: Context

    @property
    def attributes(self) -> Markup:
        """The attributes of a `recipe-calculator` that carry it.

        The digest has a part for each field, so that a script can exchange one of them for that of another recipe.
        """
        digest = ",".join(f"{name}:{digest_of(value)}" for name, value in sorted(self.fields.items()))
        return Markup('context="{}" data-digest="{}"').format(_json(self.fields), digest)


def page_context(fields: Mapping[str, object]) -> PageContext:
    """The context that plain data makes; errors are those of `context_from`."""
    return PageContext(fields, context_from(fields))


def region_field(region: str | None) -> dict[str, object]:
    """The field of a context for the region of the site, if it has one."""
    return {"region": region} if region else {}


def prices_field(prices: str | None) -> dict[str, object]:
    """The field of a context for the text of the file of prices, if there is one."""
    return {} if prices is None else {"prices": prices}


def digest_of(value: object) -> str:
    """The digest of one field of a context."""
    return hashlib.sha256(_json(value).encode()).hexdigest()[:12]


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
