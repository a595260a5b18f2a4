"""A part that is killed comes back by itself, and nothing of it is left over."""

from __future__ import annotations

import os
import signal

import pytest

from tests.up.started import alive, descendants, eventually


@pytest.mark.parametrize("part", ["broker", "worker", "beat", "web"])
def test_a_killed_part_is_started_again(up, part):
    before = up.parts()
    eventually(lambda: part != "worker" or len(descendants(before["worker"])) >= 1)
    below = descendants(before[part])
    os.kill(before[part], signal.SIGKILL)
    eventually(lambda: up.parts().get(part, before[part]) != before[part])
    eventually(up.answers)
    after = up.parts()
    assert {name: pid for name, pid in after.items() if name != part} == {
        name: pid for name, pid in before.items() if name != part
    }
    assert not alive(below | {before[part]})
    assert f"The {part} was ended by SIGKILL; it is started again.\n" in up.said
    assert up.process.poll() is None
