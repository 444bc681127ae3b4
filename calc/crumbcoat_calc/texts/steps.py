"""A step's tool, speed, time and temperatures as one line."""

from crumbcoat_calc.recipe.model import Step, Use
from crumbcoat_calc.values.display import celsius_text, duration_text


def additions_text(step: Step) -> str:
    """In how many additions it goes in; what is divided is named if the rest goes in at once.

    >>> from crumbcoat_calc.recipe.model import Use
    >>> additions_text(Step(do="Join.", uses=(Use(what="milk_base"), Use(what="salt")), additions=(8, 1)))
    'milk base in 8 additions'
    """
    if len(set(step.additions)) == 1:
        return f"{step.additions[0]} additions"
    return "; ".join(
        f"{use_words(use)} in {parts} additions"
        for use, parts in zip(step.uses, step.additions, strict=bool(step.additions))
        if parts > 1
    )


def use_words(use: Use) -> str:
    """The short name of what goes in, as words."""
    return use.what.replace("_", " ").replace("-", " ")


def how_text(step: Step) -> str:
    """How a step is done, in one line.

    >>> from crumbcoat_calc.recipe.model import Time
    >>> how_text(Step(do="Whip.", tool="whisk", speed="high", time=Time(shortest_s=60, longest_s=90)))
    'whisk; high speed; 1 min to 1 min 30 s'
    """
    parts = [step.tool or ""]
    if step.speed:
        parts.append(step.speed if step.speed == "by hand" else f"{step.speed} speed")
    if step.time:
        parts.append(
            duration_text(step.time.shortest_s, step.time.longest_s) + (", unattended" if step.unattended else "")
        )
    parts.append(additions_text(step))
    if step.heat_to_c is not None:
        parts.append(f"heat to {celsius_text(step.heat_to_c)}")
    if step.cool_to_c is not None:
        parts.append(f"cool to {celsius_text(step.cool_to_c)}")
    return "; ".join(part for part in parts if part)
