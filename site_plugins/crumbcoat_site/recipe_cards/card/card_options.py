"""What the site decides about all of its cards."""

from typing import NamedTuple


class CardOptions(NamedTuple):
    """The page that explains the models, from the root of the site, if any; whether cost is shown; the region."""

    models_url: str | None
    show_cost: bool
    region: str = "EU"
