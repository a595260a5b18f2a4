"""A Kitproof with the demo, and windows of Chromium in which its people have signed in."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.up.started import eventually, started
from tests.up.visitor import demo_visitor

# Machines differ, and this one does much else meanwhile.
expect.set_options(timeout=30_000)

WIDTHS = {"wide": (1360, 900), "phone": (390, 844)}


@dataclass(frozen=True)
class Demo:
    address: str
    password: str
    people: dict[str, str]


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Demo]:
    """A Kitproof with the demo, its three examples checked."""
    with started(tmp_path_factory.mktemp("demo") / "home", KITPROOF_DEMO="") as up:
        planner = demo_visitor(up.address, up.said, "planner")
        for example in ("2027-04", "2027-07", "2027-11"):
            eventually(partial(lambda path: planner.get(path)[0] == 200, f"/kits/{example}/proof.json"))
        password = re.search(r"with the password (\w+) as$", up.said, re.MULTILINE)
        assert password, up.said
        people = dict(re.findall(r"^  (\w+) +(\S+@\S+)$", up.said, re.MULTILINE))
        yield Demo(up.address, password[1], people)


@pytest.fixture(scope="session")
def _signed_in() -> dict[str, Any]:
    """The cookies of each role: signing in is slow on purpose, and counted."""
    return {}


@pytest.fixture
def expected_complaints() -> list[str]:
    """Patterns of what the console may complain of in this test; it tells of every answer that refuses, and of every
    request that the page calls off itself."""
    return [r"status of (403|404|409|413|422)", r"^htmx:sendAbort"]


@pytest.fixture
def window(
    browser: Browser, demo: Demo, _signed_in: dict[str, Any], expected_complaints: list[str]
) -> Iterator[Callable[..., Page]]:
    """Open a window as somebody of the demo (None: nobody). What its console complains of fails the test."""
    complaints: list[str] = []
    opened = []

    def open_(role: str | None = "planner", size: str = "wide", **options: Any) -> Page:
        width, height = WIDTHS[size]
        context = browser.new_context(
            base_url=demo.address,
            viewport={"width": width, "height": height},
            storage_state=_signed_in.get(role or ""),
            **options,
        )
        opened.append(context)
        page = context.new_page()
        page.on("console", lambda said: complaints.append(said.text) if said.type in ("error", "warning") else None)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        if role is not None and role not in _signed_in:
            page.goto("/sign-in/")
            page.get_by_label("E-mail address").fill(demo.people[role])
            page.get_by_label("Password").fill(demo.password)
            page.get_by_role("button", name="Sign in").click()
            page.wait_for_url("**/months/" if role != "member" else "**/")
            _signed_in[role] = context.storage_state()
        return page

    yield open_
    for context in opened:
        context.close()
    expected = re.compile("|".join(expected_complaints))
    assert [said for said in complaints if not expected.search(said)] == []
