"""What holds for every component: its example is valid HTML, its templates and style sheets have the same classes."""

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from crumbcoat_site.recipe_cards.build.assets import COMPONENTS
from crumbcoat_site.recipe_cards.pages.examples import example

from .conftest import Element, read_html
from .html_rules import problems_in
from .style_sheets import all_rules, rules
from .test_style_sheets import NOT_STYLED, classes_in, used_elsewhere


@dataclass(frozen=True)
class Component:
    """A component in its folder, and its example."""

    folder: Path

    @cached_property
    def html(self) -> str:
        return str(example(self.folder.name))

    @property
    def shown(self) -> Element:
        return read_html(self.html)

    @property
    def classes(self) -> set[str]:
        """Those of its templates."""
        templates = [file for file in self.folder.glob("*.jinja") if file.name != "example.jinja"]
        return set().union(*(classes_in(file.read_text(encoding="utf-8")) for file in templates))

    @property
    def styled(self) -> set[str]:
        """The classes in its own style sheets."""
        return set().union(*(rule.classes for file in self.folder.glob("*.css") for rule in rules(file))) - {"cc-card"}


def check(component: Component) -> None:
    """Fail if the example is not valid HTML, or template and style sheet differ in their classes."""
    assert problems_in(component.html) == []
    everywhere = set().union(*(rule.classes for rule in all_rules()))
    assert sorted(component.classes - everywhere - NOT_STYLED.keys()) == [], "no style sheet has these"
    own = component.classes | classes_in(component.html) | used_elsewhere()
    around = set().union(*(classes_in(file.read_text(encoding="utf-8")) for file in COMPONENTS.glob("*/*.jinja")))
    assert sorted(component.styled - own - around) == [], "no template has these"
    if component.styled:
        assert component.styled & own, "its style sheet is about something else"
