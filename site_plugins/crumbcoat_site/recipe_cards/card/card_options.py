"""What the site decides about all of its cards."""

from typing import NamedTuple


class CardOptions(NamedTuple):
    """The page that explains the models, from the root of the site, if any; whether cost is shown; the region.

    `notebooks`: whether the notebook of every recipe is shown, not only of those whose author makes it public.
    `trials`: whether a batch can be kept as a trial on its card.
    """

    models_url: str | None
    show_cost: bool
    region: str = "EU"
    notebooks: bool = False
    trials: bool = False
