"""One browser of each engine for all tests of a worker."""

from collections.abc import Iterator

import pytest

from tests.engines.drivers import Engine, OfPlaywright, firefox, webkit


@pytest.fixture(scope="session", params=["chromium", "firefox", "webkit"])
def opened(request: pytest.FixtureRequest) -> Iterator[Engine]:
    if request.param == "chromium":
        yield OfPlaywright(request.getfixturevalue("whole_browser"))
    elif request.param == "firefox":
        with firefox(request.getfixturevalue("playwright")) as engine:
            yield engine
    else:
        with webkit() as engine:
            yield engine


@pytest.fixture
def engine(opened: Engine) -> Engine:
    """A browser with one page; at an address that was never opened its device keeps nothing."""
    return opened
