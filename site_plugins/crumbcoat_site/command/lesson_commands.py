"""The command about lessons; `main` lists it with the others."""

from pathlib import Path

import click


@click.command("plan-lesson")
@click.argument("recipes", nargs=-1, required=True, type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--students", help="How many students there are. Default: 12.")
@click.option("--groups", help="How many groups they form. Default: 4.")
@click.option("--batches", help="How many batches a group makes. Default: 1.")
@click.option("--makes", type=click.Choice(("all recipes", "one recipe")), help="What each group makes.")
@click.option(
    "--share", multiple=True, metavar="TOOL=N", help="How many of a tool all groups share, such as `mixers=2`."
)
@click.option("--available", metavar="TIME", help="How long the lesson is, such as `150 min`.")
@click.option("--start", metavar="CLOCK", help="When it begins, such as `9:30`. Default: 09:00.")
@click.option("--shortest", is_flag=True, help="Search for the shortest plan, with the extra `planner`.")
@click.option("--seconds", type=click.FloatRange(1, 3600), default=30.0, help="How long to search. Default: 30.")
def plan_lesson(
    recipes: tuple[Path, ...], share: tuple[str, ...], shortest: bool, seconds: float, **given: str | None
) -> None:
    """The plan by the clock of a class that makes RECIPES, as its handout shows it, or the shortest that can be found.

    \b
        crumbcoat plan-lesson docs/lemon-cream.yaml --students 18 --groups 6 --share mixers=2
        crumbcoat plan-lesson docs/silk.yaml docs/curd.yaml --share mixers=2 --available 150min --shortest
    """
    from crumbcoat_calc.errors import InputError
    from crumbcoat_calc.lesson.lesson import SEVERAL

    from crumbcoat_site.command.plan_lesson import lesson_text
    from crumbcoat_site.recipe_cards.source.source_errors import SourceError

    fields = {name: value for name, value in given.items() if value is not None}
    for pair in share:
        tool, _, count = pair.partition("=")
        if tool.strip() not in SEVERAL.values():
            known = ", ".join(SEVERAL.values())
            raise click.ClickException(f"--share: groups do not share {tool.strip()!r}.\n    Fix: use one of: {known}.")
        fields[tool.strip()] = count.strip() or "nothing"
    try:
        click.echo(lesson_text(recipes, fields, seconds if shortest else None))
    except SourceError as error:
        raise click.ClickException(str(error)) from None
    except InputError as error:
        place = f"{error.path[0]}: " if error.path else ""
        raise click.ClickException(f"{place}{error.problem}.\n    Fix: {error.remedy}.") from None
