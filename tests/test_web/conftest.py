"""What the tests of the doors stand on."""

import pytest

from tests.test_web.made_up import house


@pytest.fixture
def home(tmp_path):
    return house(tmp_path)


@pytest.fixture
def coach(home):
    """The coach's browser, signed in."""
    return home.coach()
