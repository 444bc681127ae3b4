"""What a site needs to show its cards in pages of other sites, beyond a page for each card."""

from collections.abc import Mapping, Sequence

from crumbcoat_site.recipe_cards.build.assets import EMBED, Assets, host_script
from crumbcoat_site.recipe_cards.build.site_pages import SitePages
from crumbcoat_site.recipe_cards.card.embed_shell import COLOURS, HOST_SCRIPT, EmbedShell
from crumbcoat_site.recipe_cards.contrast.variables import Palette
from crumbcoat_site.recipe_cards.embed.colours import embed_colours, light_and_dark


def embed_shell(assets: Assets, site: SitePages, palettes: Sequence[Palette], theme: Sequence[str]) -> EmbedShell:
    """What surrounds each card: what every page gets, but a ground in the place of the theme.

    Args:
        assets: ours.
        palettes: those of the theme.
        theme: the theme's style sheets, as texts.
    """
    light, dark = light_and_dark(palettes, theme)
    return EmbedShell(
        styles=(assets.place(EMBED), *(path for path in site.styles if path not in assets.content), COLOURS),
        scripts=(assets.place("embedded_card.js"), *site.modules),
        language=site.language,
        site_name=site.name,
        site_url=site.url,
        body=tuple(light.attributes.items()),
        dark=dark.scheme if dark else "",
    )


def embed_files(
    assets: Assets, palettes: Sequence[Palette], theme: Sequence[str], own: Sequence[str], *, to_copy: bool
) -> Mapping[str, bytes]:
    """The files that all cards share, by place.

    Args:
        assets: ours.
        palettes: those of the theme.
        theme: the theme's style sheets, as texts, and `own` those of the site.
        to_copy: whether pages of other sites show cards.
    """
    used_in = [assets.content[assets.place(EMBED)].decode(), *own]
    colours = embed_colours(palettes, [*theme, *own], used_in)
    return {COLOURS: colours.encode()} | ({HOST_SCRIPT: host_script()} if to_copy else {})
