"""What stands before the doors: headers, origins, sign-in, and a log without words."""

import logging

import pytest

from tests.test_inbox.made_up import COACH
from tests.test_web.made_up import PASSWORD, house

CROSS = [{"sec-fetch-site": "cross-site"}, {"sec-fetch-site": "same-site"}, {"origin": "https://elsewhere.example"},
         {"origin": "null"}, {"origin": "http://testserver:81"}]  # fmt: skip
OWN = [{"sec-fetch-site": "same-origin"}, {"sec-fetch-site": "none"}, {"origin": "http://testserver"}]


@pytest.mark.parametrize("path", ["/sign-in", "/ask", "/health", "/no/such", "/static/style.css", "/inbox"])
def test_every_answer_carries_the_strict_headers(home, path):
    headers = home.browser().get(path).headers
    policy = dict(part.strip().split(" ", 1) for part in headers["content-security-policy"].split(";"))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == policy["style-src"] == policy["img-src"] == policy["form-action"] == "'self'"
    assert policy["frame-ancestors"] == policy["base-uri"] == "'none'"
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"
    assert headers["cache-control"] == ("no-cache" if path.startswith("/static") else "no-store")


@pytest.mark.parametrize("headers", CROSS)
def test_a_form_from_another_site_is_refused_before_anything_happens(home, headers):
    answer = home.browser(**headers).post(f"/ask/{home.teuvo['token']}", data={"text": "hello"})
    assert answer.status_code == 403
    assert "another site" in answer.text
    assert home.inbox.session(COACH).waiting == 0


@pytest.mark.parametrize("headers", OWN)
def test_a_form_of_our_own_pages_is_taken(home, headers):
    assert home.browser(**headers).post(f"/ask/{home.teuvo['token']}", data={"text": "hello"}).status_code == 303
    assert home.inbox.session(COACH).waiting == 1


def test_behind_a_proxy_the_public_address_counts_as_our_own(tmp_path):
    home = house(tmp_path, public_url="https://ask.example.org")
    from_there = home.browser(origin="https://ask.example.org")
    assert from_there.post(f"/ask/{home.teuvo['token']}", data={"text": "hello"}).status_code == 303


@pytest.mark.parametrize("path", ["/inbox", "/inbox/some-message", "/inbox/news"])
def test_without_a_session_no_page_of_the_coach_opens(home, path):
    answer = home.browser().get(path)
    assert answer.status_code == (401 if path.endswith("news") else 303)
    assert answer.headers.get("location", "/sign-in").startswith("/sign-in")
    assert (
        home.browser()
        .post("/inbox/some-message/decide", data={"do": "approve"})
        .headers["location"]
        .startswith("/sign-in")
    )


def test_the_session_cookie_is_out_of_reach_and_ends_with_the_sign_out(home, coach):
    answer = home.browser().post("/sign-in", data={"name": COACH, "password": PASSWORD, "then": "/inbox/m1"})
    assert (answer.status_code, answer.headers["location"]) == (303, "/inbox/m1")
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie and "samesite=lax" in cookie and "secure" not in cookie
    kept = coach.cookies["coach"]
    assert coach.get("/inbox").status_code == 200
    coach.post("/sign-out")
    assert home.browser(cookie=f"coach={kept}").get("/inbox").status_code == 303  # not only forgotten by the browser


def test_over_https_the_cookies_are_secure(home, coach):
    browser = home.browser()
    browser.base_url = "https://testserver"
    answer = browser.post("/sign-in", data={"name": COACH, "password": PASSWORD})
    assert "secure" in answer.headers["set-cookie"].lower()


def test_an_unknown_name_and_a_wrong_password_get_the_same_answer(home, coach):
    pages = [home.browser().post("/sign-in", data={"name": name, "password": "wrong one here"})
             for name in (COACH, "no-such-coach")]  # fmt: skip
    assert [page.status_code for page in pages] == [401, 401]
    assert pages[0].text.replace(COACH, "") == pages[1].text.replace("no-such-coach", "")


def test_guessing_passwords_is_slowed_down_even_for_the_right_one(tmp_path):
    home = house(tmp_path, tries_per_name="3/minute")
    tries = [home.browser().post("/sign-in", data={"name": COACH, "password": "wrong"}).status_code for _ in range(3)]
    assert tries == [401, 401, 401]
    late = home.browser().post("/sign-in", data={"name": COACH, "password": PASSWORD})
    assert late.status_code == 429 and int(late.headers["retry-after"]) > 0


@pytest.mark.parametrize(
    "then", ["https://elsewhere.example/inbox", "//elsewhere.example", "/\\elsewhere.example", "/ask"]
)
def test_nobody_is_sent_to_another_site_after_signing_in(home, coach, then):
    answer = home.browser().post("/sign-in", data={"name": COACH, "password": PASSWORD, "then": then})
    assert answer.headers["location"] == "/inbox"


def test_neither_messages_nor_links_nor_failures_put_words_into_the_log(home, caplog, monkeypatch):
    caplog.set_level(logging.DEBUG)
    token = home.teuvo["token"]
    home.browser().post(f"/ask/{token}", data={"text": "my secret pain"})
    home.program().post("/messages", json={"text": ["my secret pain"], "follower": token})

    def fails(*_):
        raise RuntimeError("my secret pain")

    monkeypatch.setattr(home.inbox, "take", fails)
    answer = home.program().post("/messages", json={"text": "my secret pain", "follower": token})
    assert (answer.status_code, answer.json()["title"]) == (500, "Something went wrong on this side")
    ours = [
        r.getMessage() for r in caplog.records if r.name.startswith(("assistant", "uvicorn", "fastapi", "sqlalchemy"))
    ]
    assert any("RuntimeError at" in line for line in ours)  # the failure itself is told, with its place
    assert any("/ask/{token}" in line for line in ours)
    assert not [line for line in ours if "secret" in line or token in line]
