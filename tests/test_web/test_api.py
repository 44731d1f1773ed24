"""Messages in and out over HTTP."""

import pytest

from assistant.values import Mistake
from tests.test_inbox.made_up import COACH, OTHER, add_coach
from tests.test_web.made_up import HELP, house


def send(home, follower=None, headers=None, **fields):
    body = {"text": "no bar here", "follower": follower or home.teuvo["token"], **fields}
    return home.program(**(headers or {})).post("/messages", json=body)


def test_a_message_is_taken_in_with_its_id_thread_status_and_notice(home):
    answer = send(home, plan="thursday", item="A1")
    assert answer.status_code == 202
    assert set(answer.json()) == {"id", "thread", "status", "notice"}
    assert answer.json()["status"] == "waiting"
    assert answer.json()["notice"] is None


def test_a_follower_in_danger_is_told_at_once(home):
    home.verbs.tell("no bar here", tier="emergency", notice=HELP)
    assert send(home).json()["notice"] == HELP


def test_the_same_key_again_gives_the_same_answer_and_no_second_message(home):
    key = {"Idempotency-Key": "tap-1"}
    first, second = send(home, headers=key), send(home, headers=key)
    assert (second.status_code, second.json()) == (202, first.json())
    assert home.inbox.session(COACH).waiting == 1
    send(home, headers={"Idempotency-Key": "tap-2"})
    assert home.inbox.session(COACH).waiting == 2


def test_the_follower_sees_the_reply_only_after_the_coach_has_decided(home):
    message, mine = send(home).json()["id"], {"Authorization": f"Bearer {home.teuvo['token']}"}
    waiting = home.program(**mine).get(f"/messages/{message}")
    assert waiting.json() == {"id": message, "status": "waiting", "notice": None, "reply": None}
    home.inbox.decide(COACH, message, "edited", "Do the row, 3 × 6.")
    answered = home.program(**mine).get(f"/messages/{message}").json()
    assert (answered["status"], answered["reply"]) == ("answered", "Do the row, 3 × 6.")


def test_another_follower_does_not_learn_that_a_message_exists(home):
    message, other = send(home).json()["id"], home.inbox.add_follower(COACH, "Ansa")
    answer = home.program(Authorization=f"Bearer {other['token']}").get(f"/messages/{message}")
    assert answer.status_code == 404
    assert home.program().get(f"/messages/{message}").status_code == 401


def test_the_cookie_of_the_followers_page_opens_the_message_too(home):
    message, page = send(home).json()["id"], home.browser()
    assert page.get(f"/messages/{message}").status_code == 401
    page.get(f"/ask/{home.teuvo['token']}")
    assert page.get(f"/messages/{message}").json()["status"] == "waiting"


def test_the_coachs_own_site_sends_with_a_key_and_a_followers_id(home):
    key = {"Authorization": f"Bearer {home.inbox.add_key(COACH, 'my site')}"}
    answer = send(home, home.teuvo["id"], key)
    assert answer.status_code == 202
    assert home.program(**key).get(f"/messages/{answer.json()['id']}").status_code == 200


def test_a_followers_id_without_a_key_opens_nothing(home):
    assert send(home, home.teuvo["id"]).status_code == 404


def test_a_wrong_key_is_refused_and_a_key_opens_no_other_coachs_followers(home):
    assert send(home, headers={"Authorization": "Bearer made-up"}).status_code == 401
    assert send(home, headers={"Authorization": "Basic dGVzdA=="}).status_code == 401
    add_coach(home.inbox, OTHER)
    theirs = {"Authorization": f"Bearer {home.inbox.add_key(OTHER, 'their site')}"}
    assert send(home, home.teuvo["id"], theirs).status_code == 404


def raw(body, **headers):
    """A body as it goes over the wire, called JSON."""
    return {"content": body, "headers": {"content-type": "application/json", **headers}}


FINE = b'{"text": "no bar", "follower": "f"}'
WRONG = {  # what is sent, and the status it gets
    "no such address": ("GET", "/no/such", {}, 404),
    "an unknown token": ("GET", "/messages/nothing", {"headers": {"Authorization": "Bearer x"}}, 401),
    "wrong method": ("DELETE", "/messages", {}, 405),
    "not JSON": ("POST", "/messages", raw(b"{"), 400),
    "not UTF-8": ("POST", "/messages", raw(b'{"text": "\xff"}'), 400),
    "nested too deep": ("POST", "/messages", raw(b"[" * 60_000), 400),
    "a list": ("POST", "/messages", raw(b"[]"), 422),
    "null": ("POST", "/messages", raw(b"null"), 422),
    "no media type": ("POST", "/messages", {"content": FINE}, 422),
    "a form": ("POST", "/messages", {"data": {"text": "a"}}, 422),
    "a field is missing": ("POST", "/messages", raw(b'{"text": "no bar"}'), 422),
    "an unknown field": ("POST", "/messages", raw(b'{"text": "no bar", "follower": "f", "colour": 1}'), 422),
    "a wrong type": ("POST", "/messages", raw(b'{"text": 7, "follower": "f"}'), 422),
    "a list as text": ("POST", "/messages", raw(b'{"text": ["no bar"], "follower": "f"}'), 422),
    "half a character": ("POST", "/messages", raw(b'{"text": "\\ud83d", "follower": "f"}'), 422),
    "half a character as a key": ("POST", "/messages", raw(b'{"text": "a", "follower": "f", "\\ud83d": 1}'), 422),
    "a made-up follower": ("POST", "/messages", raw(FINE), 404),
    "a key with a blank": ("POST", "/messages", raw(FINE, **{"Idempotency-Key": "a b"}), 400),
    "too large": ("POST", "/messages", raw(b"x" * 70_000), 413),
    "too large in parts": ("POST", "/messages", {"content": (b"x" * 10_000 for _ in range(9))}, 413),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_every_error_is_a_problem_that_says_what_to_do(home, wrong):
    method, path, request, status = WRONG[wrong]
    answer = home.program().request(method, path, **request)
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    problem = answer.json()
    assert problem["status"] == status
    assert problem["type"].startswith("/problems#")
    assert problem["title"] and problem["detail"].endswith((".", "!", "?"))
    if status == 405:
        assert "POST" in answer.headers["allow"]


def test_every_problem_type_is_explained_on_the_page_it_links_to(home):
    page = home.program().get("/problems").text
    for path, anchor in (("/no/such", "not-found"), ("/messages/x", "not-signed-in")):
        assert home.program().get(path).json()["type"] == f"/problems#{anchor}"
        assert f'id="{anchor}"' in page


def test_a_refusal_names_the_field_and_never_repeats_what_was_written(home):
    answer = send(home, text=["my secret pain"])
    assert answer.json()["errors"] == [{"field": "text", "problem": "this has to be text"}]
    assert "secret" not in answer.text


@pytest.mark.parametrize("text", ["   ", "x" * 4001])
def test_an_empty_or_overlong_message_is_refused_in_words(home, text):
    answer = send(home, text=text)
    assert answer.status_code == 422
    assert "message" in answer.json()["detail"]


def test_an_item_that_is_not_in_the_plan_is_refused_with_the_items_there_are(home):
    answer = send(home, plan="thursday", item="Q9")
    assert answer.status_code == 422
    assert "A1, A2, Z1" in answer.json()["detail"]


def test_who_sends_too_much_is_told_when_to_go_on_and_whom_to_call(tmp_path):
    home = house(tmp_path, messages_per_follower="2/minute")
    assert [send(home).status_code for _ in range(3)] == [202, 202, 429]
    refused = send(home)
    assert 1 <= int(refused.headers["retry-after"]) <= 60
    assert "emergency number" in refused.json()["detail"]
    ansa = home.inbox.add_follower(COACH, "Ansa")
    assert send(home, ansa["token"]).status_code == 202  # the pace is each follower's own


def test_health_tells_a_broken_rulebook_and_an_archive_that_is_gone(home, monkeypatch):

    assert home.program().get("/health").json() == {
        "status": "ok",
        "store": "answers",
        "rulebook": "b00c",
        "mistakes": [],
    }
    home.mistakes.append(Mistake("limits/joints.yaml", 12, "a limit card has no field 'whenn'"))
    broken = home.program().get("/health")
    assert (broken.status_code, broken.headers["content-type"]) == (503, "application/problem+json")
    assert broken.json()["mistakes"] == ["limits/joints.yaml, line 12: a limit card has no field 'whenn'"]
    home.mistakes.clear()
    monkeypatch.setattr(home.inbox, "healthy", lambda: False)
    gone = home.program().get("/health")
    assert (gone.status_code, gone.json()["store"]) == (503, "does not answer")
