"""What every page owes its reader: no barrier, no sideways scrolling, targets that can be hit."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser.test_the_whole_path import QUESTION, ask

SMALL = """() => [...document.querySelectorAll('a, button, summary, select, textarea, input')]
  .filter(e => e.checkVisibility() && !e.closest('p, .heard') && !e.matches('.skip, [type=hidden]'))
  .map(e => [e, (e.matches('[type=radio], [type=checkbox]') && e.closest('label, .chip') || e).getBoundingClientRect()])
  .filter(([e, box]) => box.height < 43.5).map(([e, box]) => `${e.outerHTML.slice(0, 80)} ${box.height}`)"""
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
IN_DANGER = "since the deadlifts i cant feel my left leg and i have wet myself"


@pytest.fixture
def filled(site):
    """An inbox with a plain question, one read with doubt, and one person who should be seen."""
    pages = {"talk": site.follower("Teuvo"), "danger": site.follower("Imre")}
    ask(pages["talk"], QUESTION, "A1")
    ask(pages["danger"], IN_DANGER)
    ask(site.follower("Zoltan"), "can you look at that thing from before")
    return {name: page.url.split("#")[0] for name, page in pages.items()}


def visit(site, filled):
    """Every page once, by name."""
    page = site.page()
    page.goto("/sign-in")
    yield "sign-in", page
    for name in ("talk", "danger"):
        page.goto(filled[name])
        yield f"conversation: {name}", page
    page = site.coach()
    yield "inbox", page
    for who in (".knot:not(.doubt)", ".knot.doubt", ".stop .button"):
        page.goto("/inbox")
        page.locator(who).first.click()
        page.locator("article.open").wait_for()
        page.evaluate("document.querySelectorAll('article details').forEach(details => { details.open = true; })")
        yield f"opened: {who}", page


def found_by(axe, page):
    """What the checker finds, as its rule and the place."""
    violations = axe.run(page, options={"runOnly": RULES}).response["violations"]
    return [(violation["id"], violation["nodes"][0]["html"]) for violation in violations]


def test_no_page_has_a_barrier_or_scrolls_sideways_in_light_and_dark_on_a_desk_and_on_a_phone(site, filled):
    axe, barriers, wide, small, seen = Axe(), [], [], [], 0
    for name, page in visit(site, filled):
        for width, scheme in ((1280, "light"), (1280, "dark"), (390, "light")):
            page.set_viewport_size({"width": width, "height": 844})
            page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
            at = (name, width, scheme)
            barriers += [(*at, *barrier) for barrier in found_by(axe, page)]
            wide += [at] if page.evaluate("document.documentElement.scrollWidth > innerWidth") else []
            small += [(*at, target) for target in page.evaluate(SMALL)]
        seen += 1
    assert seen == 7
    assert barriers == []
    assert wide == []
    assert small == []
