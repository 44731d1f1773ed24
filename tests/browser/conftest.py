"""A real browser before a real server: real archive, rulebook and verbs; nothing made up but the people."""

import os
import shutil
import threading
import time
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, expect, sync_playwright

from assistant.inbox import Inbox
from assistant.rulebook import load
from assistant.store import Store
from assistant.values import Dose, Plan, PlanItem
from assistant.web import Settings, create_app

expect.set_options(timeout=10_000)  # milliseconds; a page that is right is there much sooner
COACH, PASSWORD = "ferry-lane", "a long made-up one"
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge-stable")
PLAN = Plan(
    "thursday",
    "Thursday: pull and hold",
    (
        PlanItem("W1", "cat-cow", Dose(2, reps=(10, 10))),
        PlanItem("A1", "chin-up", Dose(4, reps=(4, 4), rest_s=90)),
        PlanItem("A2", "push-up", Dose(3, reps=(8, 8))),
        PlanItem("B1", "side-plank", Dose(3, seconds=(20, 20), side=True)),
    ),
)


def browser_path(playwright) -> str:
    """The browser to drive; without one the test is skipped, or fails where a browser is required."""
    named = os.environ.get("TEST_BROWSER")
    found = [named] if named else [path for path in map(shutil.which, NAMES) if path]
    own = playwright.chromium.executable_path
    path = next((path for path in [*found, own] if path and Path(path).exists()), None)
    if path:
        return path
    said = (f"TEST_BROWSER names {named}, which is not there" if named else "no browser was found") + (
        "; install one (apt-get install chromium, or python -m playwright install chromium) or set TEST_BROWSER to its path"
    )
    if os.environ.get("CI") or os.environ.get("REQUIRE_BROWSER"):
        pytest.fail(said, pytrace=False)
    pytest.skip(said)


@pytest.fixture(scope="session")
def browser():
    with sync_playwright() as playwright:
        driven = playwright.chromium.launch(executable_path=browser_path(playwright), chromium_sandbox=False)
        yield driven
        driven.close()


@pytest.fixture(scope="session")
def rulebook():
    return load()


@dataclass
class Site:
    """The running server with its inbox, and the pages opened on it."""

    address: str
    inbox: Inbox
    browser: Browser
    outside: list[str] = field(default_factory=list)  # requests to any other host
    complaints: list[str] = field(default_factory=list)  # what the browser's console said
    contexts: list[Any] = field(default_factory=list)

    def page(self, width: int = 1280, scheme: str = "light", script: bool = True) -> Page:
        """A page in a browser of its own, watched for outside requests and complaints."""
        context = self.browser.new_context(base_url=self.address, viewport={"width": width, "height": 900},
                                           color_scheme=scheme, java_script_enabled=script)  # fmt: skip
        context.set_default_timeout(8000)
        context.route("**/*", self._watch)
        self.contexts.append(context)
        page = context.new_page()
        page.on(
            "console", lambda message: message.type in ("error", "warning") and self.complaints.append(message.text)
        )
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        return page

    def _watch(self, route) -> None:
        if route.request.url.startswith(self.address):
            return route.continue_()
        self.outside.append(route.request.url)
        return route.abort()

    def coach(self, **how: Any) -> Page:
        """The coach's page, signed in through the door."""
        page = self.page(**how)
        page.goto("/inbox")
        page.get_by_label("Name").fill(COACH)
        page.get_by_label("Password").fill(PASSWORD)
        page.get_by_role("button", name="Sign in").click()
        page.get_by_role("heading", level=1, name=PLAN.title).wait_for()
        page.wait_for_load_state()  # the script comes last
        return page

    def follower(self, name: str, **how: Any) -> Page:
        """A new follower's own page, opened by the link."""
        token = self.inbox.add_follower(COACH, name)["token"]
        page = self.page(**how)
        page.goto(f"/ask/{token}")
        return page


@pytest.fixture(scope="session")
def archive(tmp_path_factory, rulebook):
    """An archive with the coach and the plan: made once, copied for every test."""
    file = tmp_path_factory.mktemp("kept") / "archive.db"
    store = Store(f"sqlite:///{file}")
    store.upgrade()
    inbox = Inbox(store, lambda: rulebook)
    inbox.add_coach(COACH, "Ferry Lane", PASSWORD)
    others = [replace(PLAN, id=day, title=f"{day}: balance, shoulders and breath") for day in ("Friday", "Sunday")]
    for plan in (*others, PLAN):
        inbox.add_plan(COACH, plan)
    store.close()
    return file


@pytest.fixture
def site(tmp_path, browser, rulebook, archive):
    """A server on a free port; afterwards nothing may have gone outside or into the console."""
    shutil.copy(archive, tmp_path / "archive.db")
    inbox = Inbox(Store(f"sqlite:///{tmp_path / 'archive.db'}"), lambda: rulebook)
    app = create_app(Settings(poll_s=1), inbox=inbox, book=lambda: rulebook)
    server = uvicorn.Server(uvicorn.Config(app, host="127.0.0.1", port=0, log_level="error", access_log=False))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        assert thread.is_alive(), "the server did not start"
        time.sleep(0.01)
    port = server.servers[0].sockets[0].getsockname()[1]
    running = Site(f"http://127.0.0.1:{port}", inbox, browser)
    yield running
    for context in running.contexts:
        context.close()
    server.should_exit = True
    thread.join(timeout=5)
    assert running.outside == []
    assert running.complaints == []
