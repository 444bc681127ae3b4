"""Templates that are kept compiled from build to build."""

from crumbcoat_site.recipe_cards.build.kept_templates import KeptTemplates
from jinja2 import DictLoader, Environment


class Counting(Environment):
    """An environment that notes what it compiles."""

    compiled: list[str | None]

    def compile(self, source, name=None, *args, **kwargs):  # type: ignore[no-untyped-def, override]
        self.compiled.append(name)
        return super().compile(source, name, *args, **kwargs)


def built(kept: KeptTemplates, templates: dict[str, str], **shown: object) -> tuple[str, list[str | None]]:
    """The text of `page` in an environment of its own, and the templates that were compiled for it."""
    made = Counting(loader=DictLoader(templates), bytecode_cache=kept)
    made.compiled = []
    return made.get_template("page").render(shown), made.compiled


def test_a_template_is_compiled_once_for_all_builds() -> None:
    kept, templates = KeptTemplates(), {"page": "{% extends 'frame' %}", "frame": "Hello {{ name }}"}
    assert built(kept, templates, name="Ada") == ("Hello Ada", ["page", "frame"])
    assert built(kept, templates, name="Bob") == ("Hello Bob", [])


def test_a_template_that_was_changed_is_compiled_again_and_no_other() -> None:
    kept, templates = KeptTemplates(), {"page": "{% extends 'frame' %}", "frame": "Hello"}
    built(kept, templates)
    assert built(kept, {**templates, "frame": "Good day"}) == ("Good day", ["frame"])
    assert built(kept, templates) == ("Hello", [])
