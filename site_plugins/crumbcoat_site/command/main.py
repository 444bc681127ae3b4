"""`crumbcoat`: the commands, their options and their help. Each imports what does the work when it runs."""

import os
import sys
from datetime import date
from pathlib import Path

import click

from crumbcoat_site.command.choices import COLOURS, FAMILY_WORDS, REGIONS, VOICES
from crumbcoat_site.command.lesson_commands import plan_lesson
from crumbcoat_site.command.moving_commands import MOVING_COMMANDS
from crumbcoat_site.command.picture_commands import PICTURE_COMMANDS
from crumbcoat_site.command.trial_commands import TRIAL_COMMANDS

_FOLDER = click.Path(path_type=Path)
_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="crumbcoat")
def crumbcoat() -> None:
    """Recipe cards whose figures follow: a site of your own, from an empty folder.

    \b
        crumbcoat new-site my-kitchen       a site, ready to look at
        cd my-kitchen
        crumbcoat new-recipe "Lemon cream"  a recipe file to fill in
        crumbcoat check                     every problem in every recipe file
        crumbcoat serve                     write with the page beside you
        crumbcoat build                     the finished site, in site/

    Completion for bash: add `eval "$(_CRUMBCOAT_COMPLETE=bash_source crumbcoat)"` to ~/.bashrc; zsh and fish alike.
    """


@crumbcoat.command("new-site")
@click.argument("folder", type=_FOLDER)
@click.option("--title", help="The name of the site. Default: asked for.")
@click.option(
    "--author", help="Who writes the recipes, for cards, feeds and search engines. Default: asked for; else the title."
)
@click.option("--region", type=click.Choice(REGIONS), help="Whose words, units, labels and cautions.")
@click.option(
    "--voice",
    type=click.Choice(VOICES),
    help="home: cards only, with cautions for a home; class: with a handout for each recipe.",
)
@click.option("--colours", type=click.Choice(tuple(COLOURS)), help="Six that go together; change any of them later.")
@click.option("--yes", "-y", is_flag=True, help="Ask nothing; take what is usual.")
def new_site(folder: Path, yes: bool, **given: str | None) -> None:
    """Begin a site in FOLDER, which must be new or empty.

    \b
        crumbcoat new-site my-kitchen
        crumbcoat new-site my-kitchen --title "My kitchen" --author "Ana Example" --region UK --colours mint
        crumbcoat new-site class --voice class --yes
    """
    from crumbcoat_site.command.new_site import SiteError, SitePlan, write_site

    try:
        plan = SitePlan.of(folder, {name: value for name, value in given.items() if value}, ask=None if yes else _ask)
        written = write_site(plan)
    except SiteError as error:
        raise click.ClickException(str(error)) from None
    for path in written:
        click.echo(f"  {path}")
    click.echo(f"The site is in {folder}. Look at it with:\n\n    cd {folder}\n    crumbcoat serve\n")


@crumbcoat.command("new-recipe")
@click.argument("title")
@click.option("--family", type=click.Choice(FAMILY_WORDS), help="Its usual stages and checkpoints, to fill in.")
@click.option("--with", "kinds", multiple=True, metavar="'KIND AMOUNT'", help="One ingredient; may be repeated.")
@click.option("--in", "folder", type=_FOLDER, help="The folder of the file, below docs_dir.")
def new_recipe(title: str, family: str | None, kinds: tuple[str, ...], folder: Path | None) -> None:
    """Begin a recipe file, as a draft. It builds as it is; change what is in it to your own.

    \b
        crumbcoat new-recipe "Yoghurt cream" --family "emulsified milk frosting"
        crumbcoat new-recipe "Plain cream" --with "double cream 500 g" --with "icing sugar 40 g"
        crumbcoat new-recipe "Something new"        the smallest recipe there is
    """
    from crumbcoat_site.command.new_recipe import RecipeError, write_recipe

    try:
        path = write_recipe(Path.cwd(), title, family, kinds, folder)
    except RecipeError as error:
        raise click.ClickException(str(error)) from None
    click.echo(
        f"{path}\nChange it to your own, with `crumbcoat check` and `crumbcoat serve`. "
        "It is a draft until its line `draft: yes` is gone."
    )


for _command in (plan_lesson, *TRIAL_COMMANDS, *MOVING_COMMANDS, *PICTURE_COMMANDS):
    crumbcoat.add_command(_command)


@crumbcoat.command()
@click.argument("trial", type=click.Path(path_type=Path))
@click.option("--dry-run", is_flag=True, help="Only show what would change.")
def publish_trial(trial: Path, dry_run: bool) -> None:
    """Make TRIAL the recipe: its file is changed where the trial differs, comments stay, and the difference is shown.

    The recipe as it was is kept beside the trials, as v1.yaml, v2.yaml and so on.

    \b
        crumbcoat publish-trial docs/recipes/lemon-cream.trials/3.yaml --dry-run
        crumbcoat publish-trial docs/recipes/lemon-cream.trials/3.yaml
    """
    from crumbcoat_site.command.publish_trial import publication_of
    from crumbcoat_site.command.trial_book import TrialError

    try:
        publication = publication_of(trial, date.today())
    except TrialError as error:
        raise click.ClickException(str(error)) from None
    click.echo(publication.diff)
    for note in publication.notes:
        click.echo(f"Note: {note}")
    if not dry_run:
        publication.write()
        click.echo(
            f"{os.path.relpath(publication.recipe)} is trial {trial.stem} now. "
            f"As it was, it is in {os.path.relpath(publication.version)}."
        )


@crumbcoat.command()
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="For programs: one JSON object.")
@click.option("--strict", is_flag=True, help="Warnings count as problems.")
@click.option("--no-warnings", is_flag=True, help="Problems only.")
@click.option("--published", metavar="URL", help="Check what the host of the site sends instead.")
def check(files: tuple[Path, ...], as_json: bool, strict: bool, no_warnings: bool, published: str | None) -> None:
    """Check recipe FILES, or all of the site: every problem, and apart from them what is worth a second look.

    Ends with 1 if there is a problem, so that a script can check before it builds. With --published URL every page of
    the site at that address is fetched: files and links that lead nowhere, types, security policy, caches, compression.

    \b
        crumbcoat check
        crumbcoat check docs/lemon-cream.yaml --no-warnings
        crumbcoat check --json > problems.json
        crumbcoat check --published https://my-kitchen.example/
    """
    if published:
        _check_published(published, as_json, strict, no_warnings)
    from crumbcoat_site.command.check import check_files, check_site
    from crumbcoat_site.command.recipes_read import RecipesRead
    from crumbcoat_site.command.reports import json_report, text_report
    from crumbcoat_site.command.site_files import SiteFilesError, files_of, site_around

    try:
        site = None if files else site_around(Path.cwd())
        recipes = RecipesRead()
        reports = check_files(site.recipes if site else files_of(files), recipes, with_warnings=not no_warnings)
        if site:
            reports += check_site(site, recipes, with_warnings=not no_warnings)
    except SiteFilesError as error:
        raise click.ClickException(str(error)) from None
    click.echo(json_report(reports) if as_json else text_report(reports))
    failed = any(report.problems or (strict and report.warnings) for report in reports)
    sys.exit(1 if failed else 0)


@crumbcoat.command()
@click.argument("file", type=_FILE)
@click.option("--batches", default="1", help="How many batches, such as `2` or `1/2`.")
def figures(file: Path, batches: str) -> None:
    """What a batch of the recipe, or the trial, in FILE is made of, after each stage and in the end.

    \b
        crumbcoat figures docs/lemon-cream.yaml
        crumbcoat figures docs/lemon-cream.yaml --batches 2
    """
    from crumbcoat_calc.errors import InputError

    from crumbcoat_site.command.figures import figures_text
    from crumbcoat_site.command.trial_book import TrialError
    from crumbcoat_site.recipe_cards.source.source_errors import SourceError

    try:
        click.echo(figures_text(file, batches))
    except (SourceError, TrialError) as error:
        raise click.ClickException(str(error)) from None
    except InputError as error:
        raise click.ClickException(f"--batches: {error.problem}.\n    Fix: {error.remedy}.") from None


@crumbcoat.command()
@click.argument("words", nargs=-1)
def foods(words: tuple[str, ...]) -> None:
    """Kinds whose name has all WORDS, as a recipe names them: built-in ones, then foods of the three public tables.

    The tables have English and French names. Without WORDS it lists all built-in kinds.

    \b
        crumbcoat foods mascarpone
        crumbcoat foods cream double
        crumbcoat foods
    """
    from crumbcoat_site.food_tables.listing import listing, nearest

    found = listing(" ".join(words))
    if not found:
        raise click.ClickException(f"no food has that name.\n    Fix: {nearest(' '.join(words))}")
    click.echo(found)


@crumbcoat.command(context_settings={"ignore_unknown_options": True})
@click.option("--as-published", is_flag=True, help="The finished site instead, as its host will send it.")
@click.argument("arguments", nargs=-1, type=click.UNPROCESSED)
def serve(arguments: tuple[str, ...], as_published: bool) -> None:
    """Show the site while you write; a page follows when its file is saved.

    A file with a problem shows the problem in its place, until it is put right. Options are those of `mkdocs serve`.
    With --as-published it is what `crumbcoat build` made, with the security policy, headers and compression of a host.

    \b
        crumbcoat serve
        crumbcoat serve --dev-addr 127.0.0.1:8010
        crumbcoat serve --as-published
    """
    from crumbcoat_site.command.published import serve_published
    from crumbcoat_site.command.site import serve as serve_site
    from crumbcoat_site.command.site_files import SiteFilesError

    try:
        if as_published:
            serve_published(Path.cwd(), arguments, click.echo)
            return
        sys.exit(serve_site(arguments))
    except SiteFilesError as error:
        raise click.ClickException(str(error)) from None


@crumbcoat.command()
@click.option("--site-dir", "-d", type=_FOLDER, help="Where the site goes. Default: site_dir of mkdocs.yml.")
@click.option("--strict", "-s", is_flag=True, help="A warning stops the build.")
def build(site_dir: Path | None, strict: bool) -> None:
    """Build the site. If that fails, the site that was there before is left as it is.

    \b
        crumbcoat build
        crumbcoat build --strict --site-dir public
    """
    from crumbcoat_site.command.site import BuildError
    from crumbcoat_site.command.site import build as build_site

    try:
        click.echo(f"The site is in {build_site(Path.cwd(), site_dir, strict)}.")
    except BuildError as error:
        raise click.ClickException(str(error)) from None


def _check_published(address: str, as_json: bool, strict: bool, no_warnings: bool) -> None:
    from crumbcoat_site.publishing.running.crawl import check_published
    from crumbcoat_site.publishing.running.findings import json_of, text_of

    if not address.startswith(("https://", "http://")):
        problem = f"--published {address}: this is not the address of a site."
        raise click.ClickException(f"{problem}\n    Fix: write it with https, such as https://my-kitchen.example/.")
    findings, files = check_published(address)
    shown = [found for found in findings if not (no_warnings and found.is_warning)]
    click.echo(json_of(shown) if as_json else text_of(shown, files))
    sys.exit(1 if any(strict or not found.is_warning for found in shown) else 0)


def _ask(question: str, usual: str, choices: tuple[str, ...]) -> str:
    kind = click.Choice(choices) if choices else None
    return str(click.prompt(question, default=usual, type=kind, show_default=bool(usual)))
