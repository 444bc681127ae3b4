"""The options of a plug-in as mkdocs.yml has them: where each is, and what to say of one that does not exist."""

from collections.abc import Iterator, Sequence

import yaml

WHERE = "recipes/reference/options.md of Crumbcoat describes them"


def options_in(text: str, plugin: str) -> dict[str, int]:
    """The options that a configuration gives to a plug-in, each with its line, counted from 1.

    >>> options_in("plugins:\\n  - search\\n  - recipe_cards:\\n      embedd: true", "recipe_cards")
    {'embedd': 4}
    """
    try:
        root = yaml.compose(text, Loader=yaml.SafeLoader)
    except yaml.YAMLError:
        return {}  # MkDocs says so.
    for key, value in _pairs(root):
        if key.value == "plugins":
            entries = value.value if isinstance(value, yaml.SequenceNode) else [value]
            for name, options in [pair for entry in entries for pair in _pairs(entry)]:
                if name.value == plugin:
                    return {str(option.value): option.start_mark.line + 1 for option, _ in _pairs(options)}
    return {}


def line_of(text: str, plugin: str, option: str) -> int | None:
    """The line of an option; None if it is not in this file, but in one that it inherits from."""
    return options_in(text, plugin).get(option)


def unknown_option(plugin: str, option: str, known: Sequence[str]) -> str:
    """What to say of an option that does not exist: the problem, and the fix on a line of its own.

    >>> print(unknown_option("findable_pages", "feed", ["feeds"]))
    the plug-in 'findable_pages' has no option 'feed'.
        Fix: did you mean 'feeds'? recipes/reference/options.md of Crumbcoat describes them.
    """
    problem, remedy = unknown_parts(plugin, option, known)
    return f"{problem}.\n    Fix: {remedy}."


def unknown_parts(plugin: str, option: str, known: Sequence[str]) -> tuple[str, str]:
    """The problem and the remedy, each without a full stop."""
    from crumbcoat_calc.values.fields import nearest_of  # Only for a mistake: a build without one need not load calc.

    near = nearest_of(option, known).removesuffix(".")
    return f"the plug-in {plugin!r} has no option {option!r}", f"{near}{'' if near[-1] in '?!' else '.'} {WHERE}"


def _pairs(node: yaml.Node | None) -> Iterator[tuple[yaml.Node, yaml.Node]]:
    yield from node.value if isinstance(node, yaml.MappingNode) else ()
