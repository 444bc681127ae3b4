"""What the tests of components are given."""

import pytest

from tests.site_plugins.recipe_cards.component_checks import Component


@pytest.fixture
def component(request: pytest.FixtureRequest) -> Component:
    """The component whose folder the test is in."""
    return Component(request.path.parent)
