"""The commands about trials of a recipe; `main` lists them with the others."""

from pathlib import Path

import click

_RECIPE = click.argument("recipe", type=click.Path(path_type=Path))


@click.command("new-trial")
@_RECIPE
@click.option("--from", "came_from", type=int, metavar="N", help="The number of the trial that it changes.")
@click.option("--who", help="Who makes it.")
def new_trial(recipe: Path, came_from: int | None, who: str | None) -> None:
    """Begin a trial of RECIPE, a recipe file or one of its trials: a file to fill in at the bench.

    Only what differs is written into it. `crumbcoat check` says what does not fit.

    \b
        crumbcoat new-trial docs/recipes/lemon-cream.yaml
        crumbcoat new-trial docs/recipes/lemon-cream.yaml --from 2
    """
    from datetime import date

    from crumbcoat_site.command.new_trial import write_trial
    from crumbcoat_site.command.trial_book import TrialError

    try:
        path = write_trial(recipe, came_from, who, date.today())
    except TrialError as error:
        raise click.ClickException(str(error)) from None
    click.echo(f"{path}\nFill it in, and see what it says with `crumbcoat check {path}`.")


@click.command("next-trial")
@_RECIPE
@click.option("--write", is_flag=True, help="Write the trial file of each suggestion, ready to weigh.")
@click.option("--who", help="Who makes it.")
def next_trial(recipe: Path, write: bool, who: str | None) -> None:
    """What to try next of RECIPE: half-way between what held and what broke along a single change.

    \b
        crumbcoat next-trial docs/recipes/lemon-cream.yaml
        crumbcoat next-trial docs/recipes/lemon-cream.yaml --write
    """
    from datetime import date

    from crumbcoat_calc.trials.next_step_texts import next_texts
    from crumbcoat_calc.values.region import text_in

    from crumbcoat_site.command.next_trial import write_next
    from crumbcoat_site.command.trial_book import TrialError, open_book

    try:
        book = open_book(recipe)
    except TrialError as error:
        raise click.ClickException(str(error)) from None
    said = [text_in(book.region, text) for text in next_texts(book.made)]
    click.echo("\n".join([*said, *book.notes]))
    for path in write_next(book, who, date.today()) if write else ():
        click.echo(path)


@click.command("plan-trials")
@_RECIPE
@click.option(
    "--vary", nargs=3, multiple=True, metavar="INGREDIENT LOW..HIGH UNIT", help="Twice: what changes, and its bounds."
)
@click.option("--plan", type=click.Choice(("star", "2x2")), default="2x2", help="Which points are made. Default: 2x2.")
@click.option("--centres", type=click.IntRange(0, 20), default=3, help="How often the middle is made. Default: 3.")
@click.option("--seed", type=click.IntRange(0), help="Draws order and codes again as before. Default: a new one.")
@click.option("--who", help="Who makes them.")
def plan_trials(
    recipe: Path, vary: tuple[tuple[str, str, str], ...], plan: str, centres: int, seed: int | None, who: str | None
) -> None:
    """Write the trials of a plan for two ingredients of RECIPE, a recipe file or one of its trials.

    What is written: the trial files, the weigh sheets in random order with blind codes, and the key to the codes apart.

    \b
        crumbcoat plan-trials docs/recipes/lemon-cream.yaml --vary butter 160..220 g --vary sugar 120..180 g
        crumbcoat plan-trials docs/lemon-cream.trials/3.yaml --plan star --vary milk 90..150 g --vary oil 5..9 g
    """
    import random
    from datetime import date

    from crumbcoat_site.command.plan_trials import bounds_from, write_plan
    from crumbcoat_site.command.trial_book import TrialError, open_book

    try:
        book = open_book(recipe)
        seed = random.SystemRandom().randrange(10000) if seed is None else seed
        paths = write_plan(book, bounds_from(book, vary), plan, centres, seed, who, date.today())
    except TrialError as error:
        raise click.ClickException(str(error)) from None
    for path in paths:
        click.echo(path)
    click.echo(
        f"The order is random (seed {seed}). When the readings are in the files: `crumbcoat trial-results {recipe}`."
    )


@click.command("trial-results")
@_RECIPE
def trial_results(recipe: Path) -> None:
    """What the trials of RECIPE show: effects in plans beside the scatter, blind comparisons, marks of tastings.

    The same batch made by several groups of a class is one table with mean and spread. Needs scipy for the first two:
    pip install 'crumbcoat[statistics]'.

    \b
        crumbcoat trial-results docs/recipes/lemon-cream.yaml
    """
    from crumbcoat_site.command.trial_book import TrialError, open_book
    from crumbcoat_site.command.trial_results import results_text

    try:
        click.echo(results_text(open_book(recipe)))
    except TrialError as error:
        raise click.ClickException(str(error)) from None


@click.command()
@_RECIPE
def readings(recipe: Path) -> None:
    """What the readings in the trials of RECIPE say of your mixer, pan, bowl and refrigerator.

    \b
        crumbcoat readings docs/recipes/lemon-cream.yaml
    """
    from crumbcoat_site.command.readings import readings_text
    from crumbcoat_site.command.trial_book import TrialError, open_book

    try:
        click.echo(readings_text(open_book(recipe)))
    except TrialError as error:
        raise click.ClickException(str(error)) from None


TRIAL_COMMANDS: tuple[click.Command, ...] = (new_trial, next_trial, plan_trials, trial_results, readings)
