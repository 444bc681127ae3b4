"""`crumbcoat bring-in` and `take-out`, their options and their help; each imports what does the work when it runs."""

import sys
from pathlib import Path

import click

_PATHS = click.Path(exists=True, path_type=Path)
_FOLDER = click.Path(path_type=Path)
MEASURES = ("US", "UK", "metric", "AU")


@click.command("bring-in")
@click.argument("pages", nargs=-1, required=True, type=_PATHS)
@click.option("--in", "folder", type=_FOLDER, help="The folder of the drafts, below docs_dir.")
@click.option("--measures", type=click.Choice(MEASURES), help="Whose cups and spoons. Default: by each page's words.")
@click.option("--json", "as_json", is_flag=True, help="For programs: the report as one JSON object.")
@click.option("--dry-run", is_flag=True, help="Only the report.")
def bring_in(pages: tuple[Path, ...], folder: Path | None, measures: str | None, as_json: bool, dry_run: bool) -> None:
    """Drafts of recipe files from saved web PAGES (or folders of them) with recipes in the terms of schema.org.

    What is doubtful has `# check` beside it, and the report lists it. Nothing is fetched, and no file is overwritten.

    \b
        crumbcoat bring-in saved/old-buttercream.html
        crumbcoat bring-in saved/ --in recipes/old --measures US
        crumbcoat bring-in saved/ --dry-run --json > report.json
    """
    from crumbcoat_site.bring_in.report import json_report, text_report
    from crumbcoat_site.command.bring_in import BringInError
    from crumbcoat_site.command.bring_in import bring_in as bring_pages_in

    try:
        report = bring_pages_in(Path.cwd(), pages, folder, measures or "", dry_run)
    except BringInError as error:
        raise click.ClickException(str(error)) from None
    click.echo(json_report(report) if as_json else text_report(report))
    sys.exit(1 if report.problems else 0)


@click.command("take-out")
@click.argument("folder", type=_FOLDER)
@click.argument("files", nargs=-1, type=_PATHS)
def take_out(folder: Path, files: tuple[Path, ...]) -> None:
    """Recipes of the site, or the recipe FILES, for other programs and for paper, in FOLDER, new or empty.

    Each as JSON-LD in the terms of schema.org and as plain text, and ingredients.csv with all their ingredients. Drafts
    come along only if they are named.

    \b
        crumbcoat take-out my-recipes
        crumbcoat take-out one-recipe docs/recipes/lemon-cream.yaml
    """
    from crumbcoat_site.command.take_out import TakeOutError
    from crumbcoat_site.command.take_out import take_out as take_recipes_out

    try:
        written = take_recipes_out(Path.cwd(), folder, files)
    except TakeOutError as error:
        raise click.ClickException(str(error)) from None
    for path in written:
        click.echo(f"  {path}")


MOVING_COMMANDS = (bring_in, take_out)
