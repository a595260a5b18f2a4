"""Kitproof for a team: what docker-compose makes of its file, and what the image is made from."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.outside.compose import compose

CHECKOUT = Path(__file__).resolve().parents[2]
IMAGE = (CHECKOUT / "Dockerfile").read_text()
NEEDED = {
    "KITPROOF_HOSTS": "kits.example.org",
    "KITPROOF_SECRET_KEY": "0123456789abcdef" * 4,
    "KITPROOF_DATABASE_PASSWORD": "fedcba9876543210",
}
OURS = ("web", "worker", "beat")
LASTING = (*OURS, "database", "broker")


@pytest.fixture(scope="module")
def made() -> dict[str, Any]:
    """The file as docker-compose reads it."""
    read = compose("config", folder=CHECKOUT, **NEEDED)
    assert (read.returncode, read.stderr) == (0, "")
    whole: dict[str, Any] = yaml.safe_load(read.stdout)
    return whole


def test_both_versions_of_docker_compose_take_the_file(made):
    """Version 1.29 refuses a name at the top, and version 2 calls a version there obsolete."""
    assert set(yaml.safe_load((CHECKOUT / "docker-compose.yml").read_text())) == {"x-kitproof", "services", "volumes"}
    assert set(made["services"]) == {*LASTING, "tables"}


@pytest.mark.parametrize("missing", NEEDED)
def test_what_must_be_set_is_asked_for(missing):
    read = compose("config", folder=CHECKOUT, **{name: value for name, value in NEEDED.items() if name != missing})
    assert read.returncode != 0  # 1 in version 1, 15 in version 2
    assert missing in read.stderr


@pytest.mark.parametrize("part", LASTING)
def test_every_part_is_watched_and_started_again(made, part):
    service = made["services"][part]
    assert service["healthcheck"]["test"][0] == "CMD"
    assert service["restart"] == "unless-stopped"


@pytest.mark.parametrize("part", [*OURS, "tables"])
def test_our_parts_may_do_little(made, part):
    service = made["services"][part]
    assert service["image"] == "kitproof"
    assert (service["read_only"], service["cap_drop"]) == (True, ["ALL"])
    assert service["security_opt"] == ["no-new-privileges:true"]
    assert "user" not in service, "the image says who it is"


@pytest.mark.parametrize("part", OURS)
def test_our_parts_wait_for_what_they_need(made, part):
    assert {name: on["condition"] for name, on in made["services"][part]["depends_on"].items()} == {
        "database": "service_healthy",
        "broker": "service_healthy",
        "tables": "service_completed_successfully",
    }


def test_what_is_kept_is_on_volumes(made):
    mounted = {name: [_mount(one) for one in service["volumes"]] for name, service in made["services"].items()}
    assert mounted == {
        **{part: ["home:/srv/kitproof"] for part in (*OURS, "tables")},
        "database": ["database:/var/lib/postgresql/data"],
        "broker": ["broker:/data"],
    }
    assert set(made["volumes"]) == {"home", "database", "broker"}


def test_only_the_web_is_reached_and_from_this_machine_only(made):
    ports = {
        name: [_port(one) for one in service["ports"]]
        for name, service in made["services"].items()
        if "ports" in service
    }
    assert ports == {"web": ["127.0.0.1:8000:8000/tcp"]}


def test_the_parts_are_started_as_they_start(made):
    for part in ("worker", "beat"):
        command = made["services"][part]["command"]
        assert command == ["python", "-m", "config.background", part]
        assert made["services"][part]["healthcheck"]["test"] == ["CMD", "python", "-m", "config.alive", part]


def test_the_image_is_no_ones_root():
    users = re.findall(r"^USER (.+)$", IMAGE, re.MULTILINE)
    assert users == ["kitproof"]
    assert IMAGE.index("USER kitproof") < IMAGE.index("CMD [")


def test_the_image_holds_every_room_of_the_house():
    rooms = set(tomllib.loads((CHECKOUT / "pyproject.toml").read_text())["tool"]["importlinter"]["root_packages"])
    copied = re.findall(r"^COPY (\w+) \1$", IMAGE, re.MULTILINE)
    ignored = (CHECKOUT / ".dockerignore").read_text().split("\n")
    assert set(copied) == rooms
    assert rooms <= {line.removeprefix("!") for line in ignored if line.startswith("!")}


def test_the_image_brings_the_libraries_that_make_venv_brings():
    """Pango and what it needs: pip installs none of them."""
    packages = re.search(r'packages="(.+)"', (CHECKOUT / ".ci" / "venv").read_text())
    assert packages
    for package in packages[1].split():
        assert package in IMAGE


def test_every_variable_is_in_the_readme():
    read = {name for path in ("config/settings.py", "docker-compose.yml") for name in _variables(path)}
    told = set(re.findall(r"^\| `(KITPROOF_\w+)` \|", (CHECKOUT / "README.md").read_text(), re.MULTILINE))
    assert told == read


def _mount(one: str | dict[str, Any]) -> str:
    """Version 1 writes a mount as one text, version 2 takes it apart."""
    return one.removesuffix(":rw") if isinstance(one, str) else f"{one['source']}:{one['target']}"


def _port(one: str | dict[str, Any]) -> str:
    if isinstance(one, str):
        return one
    return f"{one['host_ip']}:{one['published']}:{one['target']}/{one['protocol']}"


def _variables(path: str) -> list[str]:
    return re.findall(r"KITPROOF_[A-Z_]+", (CHECKOUT / path).read_text())
