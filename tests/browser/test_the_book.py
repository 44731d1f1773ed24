"""The pages of the book in a real browser: no barrier, no sideways scrolling, a keyboard alone, no script."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.test_the_look import RULES, SMALL
from tests.browser.test_the_whole_path import QUESTION, ask

PAGES = ("/book", "/book?q=push", "/book/exercise/two-chair-row", "/book/exercise/bent-knee-inverted-row",
         "/book/family/vertical-pull?here=chin-up", "/book/family/stretches", pytest.param("/book/gaps", marks=pytest.mark.long),
         "/book/gaps/squat-and-lunge/seated-only")  # fmt: skip


@pytest.mark.parametrize("address", PAGES)
def test_no_page_of_the_book_has_a_barrier_or_scrolls_sideways(site, address):
    page, axe, barriers, wide, small = site.coach(), Axe(), [], [], []
    page.goto(address)
    for width, scheme in ((1280, "light"), (1280, "dark"), (390, "light"), (390, "dark")):
        page.set_viewport_size({"width": width, "height": 844})
        page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
        found = axe.run(page, options={"runOnly": RULES}).response["violations"]
        barriers += [(width, scheme, one["id"], one["nodes"][0]["html"][:200]) for one in found]
        wide += [(width, scheme)] if page.evaluate("document.documentElement.scrollWidth > innerWidth") else []
        small += [(width, target) for target in page.evaluate(SMALL)]
    assert barriers == []
    assert wide == []
    assert small == []


def test_from_a_message_to_the_book_up_the_ladder_and_to_the_map_without_script(site):
    ask(site.follower("Teuvo"), QUESTION, "A1")
    page = site.coach(script=False)
    page.locator(".knot").first.click()
    page.get_by_role("article", name="Teuvo").locator(".inbook a").first.click()
    expect(page.get_by_role("heading", name="What it asks of the body")).to_be_visible()
    name = page.get_by_role("heading", level=1).inner_text()
    page.get_by_role("link", name="Ladder of").click()
    expect(page.locator("svg.ladder a.here")).to_be_visible()
    page.locator("svg.ladder a.here").click()
    expect(page.get_by_role("heading", level=1, name=name)).to_be_visible()
    page.get_by_role("link", name="The book").click()
    page.get_by_label("Look up an exercise").fill("chinnups")
    page.get_by_role("button", name="Look up").click()
    page.get_by_role("link", name="Chin-up (palms to you)").click()
    expect(page.locator("figure svg.figure")).to_be_visible()
    page.get_by_role("link", name="What has no answer").click()
    expect(page.get_by_role("table")).to_be_visible()


def test_the_ladder_is_walked_with_a_keyboard_alone(site):
    page = site.coach()
    page.goto("/book/family/jumps")
    page.get_by_role("region", name="The ladder as a drawing").focus()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('svg.ladder') !== null")
    leads = page.evaluate("document.activeElement.getAttribute('href')")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**{leads}")
    expect(page.get_by_role("heading", name="Steps")).to_be_visible()
