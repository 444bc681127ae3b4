"""The options of the `recipe_cards` plug-in."""

from mkdocs.config import config_options as option

from crumbcoat_site.plugin_options.config import PluginOptions
from crumbcoat_site.recipe_cards.pages.recipe_groups import SORTS, USUAL
from crumbcoat_site.recipe_cards.source.usual_names import INGREDIENTS, PRICES, SUFFIX


class RecipeCardsConfig(PluginOptions):
    """Options of `recipe_cards` in mkdocs.yml."""

    suffix = option.Type(str, default=SUFFIX)
    """The ending of recipe files in docs_dir. Each recipe file becomes a page."""

    region = option.Optional(option.Choice(("EU", "UK", "US")))
    """Whose measures and label come first on a card: for `US` cups and spoons, °F and inches. Also what a plain `cup`,
    `tbsp` or `tsp` is, in a recipe file and in the fields of a card, and which cups and spoons a card shows beside
    grams; without a region each has to say which. The cautions follow the law and guidance of the region, those of the
    EU without one."""

    prices = option.Type(str, default=PRICES)
    """The file of prices in docs_dir; without it, cards show no cost."""

    ingredients = option.Type(str, default=INGREDIENTS)
    """The list of the site's own ingredients in docs_dir, which any recipe may use as a `kind`."""

    show_cost = option.Type(bool, default=False)
    """Whether readers see what a batch costs. `crumbcoat serve` shows it to its author in any case."""

    handouts = option.Type(bool, default=True)
    """Whether each recipe gets a handout for a class, at `handout/` below its page. Without handouts, the cautions are
    worded for a home kitchen."""

    embed = option.Type(bool, default=False)
    """Whether cards can be put into pages of other sites: each gets a page `embed/` below it, and lines to copy. The
    lines need `site_url`. Pages of this site show whole cards without it (`whole card`)."""

    notebooks = option.Type(bool, default=False)
    """Whether the notebooks of all recipes are in the site, for a private one: the trials in the folder
    `<recipe>.trials` beside each recipe file. `crumbcoat serve` shows them to their author in any case, and a recipe
    may make its own public (`notebook: public`)."""

    trials = option.Optional(option.Type(bool))
    """Whether a batch can be kept as a trial on its card. Without this option only `crumbcoat serve` offers it, to its
    author. A private site with `true` does so on a phone at the bench, without a network too."""

    groups = option.ListOfItems(option.Choice(tuple(SORTS)), default=list(USUAL))
    """Of which groups there are pages with a list: `folder` (each that has no page of its own), `family`, `keyword`,
    `fat` (bands of 10 %), `without` (no egg, milk, gluten or nuts among the ingredients), `keeping` and `tool`; `[]`
    for none. `groups/` lists them, and each card links its own. They are in the navigation where `nav` has them."""

    smallest_group = option.Type(int, default=2)
    """How many recipes a group must have for a page."""

    cache = option.Type(str, default=".cache/recipe_cards")
    """The folder, relative to mkdocs.yml, that keeps computed pages until their recipe or Crumbcoat changes."""
