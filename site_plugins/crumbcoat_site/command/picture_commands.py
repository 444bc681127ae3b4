"""The commands about pictures; `main` lists them with the others."""

from pathlib import Path

import click


@click.command("shot-list")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option("--wanted", is_flag=True, help="Only what recipes ask for, not every step with something to see.")
@click.option("--page", type=click.Path(dir_okay=False, path_type=Path), help="Write a page to print into this file.")
def shot_list(files: tuple[Path, ...], wanted: bool, page: Path | None) -> None:
    """The pictures that recipe FILES, or all of the site, still need: what each must show, and its file.

    \b
        crumbcoat shot-list
        crumbcoat shot-list docs/lemon-cream.yaml --wanted
        crumbcoat shot-list --page shots.html
    """
    from crumbcoat_site.command.picture_reports import pictures_around
    from crumbcoat_site.command.recipes_read import RecipesRead
    from crumbcoat_site.command.shot_list import shot_list_page, shot_list_text, shots_of
    from crumbcoat_site.command.site_files import SiteFilesError, files_of, site_around, site_of
    from crumbcoat_site.command.site_recipes import kinds_and_region

    try:
        recipes = site_around(Path.cwd()).recipes if not files else files_of(files)
    except SiteFilesError as error:
        raise click.ClickException(str(error)) from None
    found, read = [], RecipesRead()
    for file in recipes:
        site = site_of(file)
        recipe = read.read(file, *kinds_and_region(site)).recipe
        if recipe is None:
            click.echo(f"{file}: it has problems, and is left out.\n    Fix: crumbcoat check {file}", err=True)
            continue
        found.append(shots_of(recipe, file, list(pictures_around(file, site, read))))
    if page:
        page.write_text(shot_list_page(found, only_wanted=wanted), encoding="utf-8")
        click.echo(f"The list is in {page}.")
    else:
        click.echo(shot_list_text(found, only_wanted=wanted))


PICTURE_COMMANDS = (shot_list,)
"""Every command here."""
