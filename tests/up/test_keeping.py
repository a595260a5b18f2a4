"""How one part is kept running, tried with small programs of the shell."""

from __future__ import annotations

import json
import signal
import time

import pytest

from config.supervisor import keeper as keeping
from config.supervisor import watch
from config.supervisor.keeper import Part
from config.supervisor.lines import Lines
from config.supervisor.watch import AskedToStop, supervising
from layouts.errors import CannotStart


@pytest.fixture
def lines(tmp_path):
    return Lines(tmp_path / "log" / "up.log", verbose=False)


def _shell(script: str, name: str = "clock") -> Part:
    return Part(name, ["/bin/sh", "-c", script])


def _watch_for(supervisor, seconds: float) -> None:
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        supervisor._turn(0.02)


@pytest.fixture
def hasty(monkeypatch):
    """Let no pause be longer than a blink."""
    monkeypatch.setattr(keeping, "pause", lambda deaths: 0.01)


def test_a_part_that_never_gets_past_its_start_ends_everything_with_its_last_lines(lines, hasty):
    with supervising(lines) as supervisor:
        supervisor.run(_shell("echo no spring; exit 3"))
        with pytest.raises(CannotStart) as told:
            supervisor.watch()
    assert told.value.message == "the clock does not start: it ended with status 3, 3 times.\n    no spring"


def test_a_part_that_worked_once_is_started_for_ever(lines, hasty, capsys):
    with supervising(lines) as supervisor:
        keeper = supervisor.run(_shell("sleep 0.05; echo no spring; exit 3"))
        supervisor.wait(keeper, lambda: True, 1)
        _watch_for(supervisor, 1)
    said = capsys.readouterr().err.splitlines()
    assert said[:2] == ["The clock ended with status 3; it is started again."] * 2
    assert said[2] == (
        "The clock ended with status 3, 3 times in a row soon after its start; the next try is in 0.01 s. "
        "Its last lines:"
    )
    assert said[3] == "    no spring"
    assert len(said) > 8


def test_a_part_that_others_kill_is_not_taken_for_one_that_cannot_start(lines, hasty):
    with supervising(lines) as supervisor:
        keeper = supervisor.run(_shell("kill -9 $$"))
        _watch_for(supervisor, 0.5)
        assert keeper._early_deaths > 3


def test_a_part_that_does_not_answer_is_given_up(lines):
    with (
        pytest.raises(CannotStart, match=r"^the clock does not answer after 0\.2 s\.\n    winding up$"),
        supervising(lines) as supervisor,
    ):
        supervisor.wait(supervisor.run(_shell("echo winding up; exec sleep 60")), lambda: False, 0.2)


def test_a_part_that_has_to_end_well_and_does_not_is_told(lines):
    with (
        pytest.raises(CannotStart, match=r"^the winding failed:\n    the key is lost$"),
        supervising(lines) as supervisor,
    ):
        supervisor.finish(_shell("echo the key is lost >&2; exit 1", "winding"))


def test_parts_end_in_the_opposite_order_of_their_start(lines, tmp_path):
    ended = tmp_path / "ended"
    with supervising(lines) as supervisor:
        for name in ("broker", "worker", "beat", "web"):
            ready = tmp_path / name
            part = _shell(
                f"trap 'echo {name} >> {ended}; exit' TERM; touch {ready}; while :; do sleep 0.02; done", name
            )
            supervisor.wait(supervisor.run(part), ready.exists, 10)
    assert ended.read_text().split() == ["web", "beat", "worker", "broker"]


def test_a_part_that_will_not_end_is_killed(lines, tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(watch, "_STOP_SECONDS", 0.2)
    with supervising(lines) as supervisor:
        ready = tmp_path / "ready"
        part = _shell(f"trap '' TERM; touch {ready}; while :; do sleep 0.02; done")
        supervisor.wait(supervisor.run(part), ready.exists, 10)
    assert capsys.readouterr().err == "The clock did not end within 0.2 s; it is killed.\n"


@pytest.mark.parametrize("sign", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_signal_asks_to_stop(lines, sign):
    with supervising(lines) as supervisor:
        supervisor.run(_shell("exec sleep 60"))
        signal.raise_signal(sign)
        with pytest.raises(AskedToStop):
            supervisor.watch()
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_a_part_is_ended_while_it_prepares(lines):
    with supervising(lines) as supervisor:
        signal.raise_signal(signal.SIGINT)
        began = time.monotonic()
        with pytest.raises(AskedToStop):
            supervisor.finish(_shell("exec sleep 60"))
        assert time.monotonic() - began < 30


def test_lines_come_whole_and_all(lines, tmp_path):
    """More than a pipe holds, in a line longer than one read, and the last one without an end."""
    with supervising(lines) as supervisor:
        supervisor.finish(_shell("head -c 200000 /dev/zero | tr '\\0' x; echo; seq 20000; printf last"))
    kept = [json.loads(line)["message"] for line in (tmp_path / "log" / "up.log").read_text().splitlines()]
    assert kept == ["x" * 200_000, *map(str, range(1, 20_001)), "last"]


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        pytest.param('{"level": "info", "message": "all is well"}', "", id="all is well"),
        pytest.param("no JSON at all", "", id="plain text"),
        pytest.param('{"level": "warning", "message": "low"}', "worker: warning: low\n", id="a warning"),
        pytest.param(
            '{"level": "error", "message": "it broke", "traceback": "Traceback:\\n  line 1"}',
            "worker: error: it broke\n    Traceback:\n      line 1\n",
            id="an error with its trace",
        ),
        pytest.param(
            '{"level": "warning", "message": "GET /\\u001b[2J\\u202e\\nx"}',
            "worker: warning: GET /\\x1b[2J\\u202e\\nx\n",
            id="nothing that a terminal obeys",
        ),
        pytest.param('{"level": ["warning"]}', "", id="an odd level"),
        pytest.param("[" * 100_000, "", id="deep"),
        pytest.param("{" + '"a":{' * 100_000, "", id="deep object"),
    ],
)
def test_the_terminal_shows_what_a_person_should_see(lines, capsys, line, shown):
    lines.take("worker", line)
    assert capsys.readouterr().err == shown


def test_the_file_holds_everything_as_json(lines, tmp_path):
    lines.take("worker", '{"at": "2027-04-01T00:00:00.000+00:00", "level": "info", "run": 12}')
    lines.take("broker", "Ready")
    first, second = map(json.loads, (tmp_path / "log" / "up.log").read_text().splitlines())
    assert first == {"at": "2027-04-01T00:00:00.000+00:00", "part": "worker", "level": "info", "run": 12}
    assert (second["part"], second["message"]) == ("broker", "Ready")


def test_the_file_is_kept_small(lines, tmp_path):
    for _ in range(4):
        lines.take("worker", "x" * 3_000_000)
    files = sorted((tmp_path / "log").iterdir())
    assert [file.name for file in files] == ["up.log", "up.log.1"]
    assert all(file.stat().st_size < 10_000_000 for file in files)
