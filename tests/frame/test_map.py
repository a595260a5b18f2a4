"""DEVELOPERS.md shows the house as it is."""

from tests.frame.house_map import house_map, written_map


def test_the_map_of_the_house_agrees_with_the_code():
    assert written_map() == house_map(), "run: .venv/bin/python -m tests.frame.house_map"
