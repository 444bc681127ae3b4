"""What the site decides about all of its cards."""

from typing import NamedTuple


class CardOptions(NamedTuple):
    """The page that explains the models, from the root of the site, if there is one; and whether cost is shown."""

    models_url: str | None
    show_cost: bool
