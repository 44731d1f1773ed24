"""Stick figures: drawn from the numbers of the pose, told in words, nothing cut off, nothing made up."""

import re
from functools import cache
from xml.etree import ElementTree

import pytest

from assistant.__main__ import app
from assistant.figure import SCALE, WIDEST, WORDS, figure, shares_of
from assistant.rulebook import load
from assistant.web.figures import contact_sheet

SVG = "{http://www.w3.org/2000/svg}"
POSED = sorted(card.id for card in load().exercises.values() if card.pose)


@cache
def book():
    return load()


def root(exercise):
    return ElementTree.fromstring(str(figure(exercise, book())))


def points(element):
    return [tuple(map(float, pair)) for pair in re.findall(r"(-?[\d.]+) (-?[\d.]+)", element.get("d"))]


def percents(exercise):
    """The figures at the arrows, in the order of the picture."""
    return [int(label.text.split("\u202f")[0]) for label in root(exercise).iter(f"{SVG}text")]


def limbs(exercise):
    """The near strokes of a picture as (start, end), in the order they are drawn."""
    return [points(path) for path in root(exercise).iter(f"{SVG}path") if path.get("class") == "near"]


@pytest.mark.parametrize("exercise", POSED)
def test_every_exercise_with_a_pose_has_a_picture_with_a_name_and_a_text_alternative(exercise):
    svg = root(exercise)
    assert svg.get("role") == "img"
    assert svg[0].tag == f"{SVG}title" and svg[0].text == book().exercises[exercise].name
    assert svg[1].tag == f"{SVG}desc" and len(svg[1].text) > 20 and "{" not in svg[1].text


@pytest.mark.parametrize("exercise", POSED)
def test_nothing_lies_outside_the_view_box(exercise):
    svg = root(exercise)
    left, top, width, height = map(float, svg.get("viewBox").split())
    assert width <= WIDEST * (1.1 if len(book().exercises[exercise].poses) < 3 else 1.2)
    for path in svg.iter(f"{SVG}path"):
        half = float(path.get("stroke-width")) / 2
        for x, y in points(path):
            assert left <= x - half and x + half <= width and top <= y - half and y + half <= height, path.attrib
    for circle in svg.iter(f"{SVG}circle"):
        x, y, r = (float(circle.get(name)) for name in ("cx", "cy", "r"))
        assert r <= x <= width - r and r <= y <= height - r
    for label in svg.iter(f"{SVG}text"):
        wide = 5.5 * len(label.text)
        x, y = float(label.get("x")), float(label.get("y"))
        start = x - {"start": 0, "middle": wide / 2, "end": wide}[label.get("text-anchor")]
        assert left <= start and start + wide <= width and 7 <= y <= height


@pytest.mark.parametrize("exercise", POSED)
def test_the_largest_share_at_hands_on_the_picture_is_the_demand_of_the_card(exercise):
    card = book().exercises[exercise]
    for name, whats in (
        ("hand_share", ("palms", "fists", "handles", "rings", "forearms")), ("grip_share", ("bar", "rings", "load")),
    ):  # fmt: skip
        if name not in card.demand or card.demand[name].how != "computed":
            continue
        shown = [
            one.share * (2 if pose.one_hand and one.contact.what != "load" else 1)
            for pose, found in zip(card.poses, shares_of(exercise, book()), strict=True)
            for one in found
            if one.contact.limb == "arms" and one.contact.what in whats
        ]
        assert max(shown, default=0.0) == pytest.approx(card.demand[name].value, abs=0.025)


def test_the_arrows_of_a_push_up_say_how_much_hands_and_toes_carry():
    assert percents("push-up") == [70, 30, 75, 25]


def test_one_hand_shows_what_it_carries_though_the_demand_counts_it_double():
    assert percents("plank-shoulder-tap") == [70, 30]
    assert book().exercises["plank-shoulder-tap"].demand["hand_share"].value == pytest.approx(1.37, abs=0.05)


def test_a_body_at_rest_on_the_floor_has_no_arrows():
    assert percents("dead-bug") == []
    assert "the floor" not in figure("dead-bug", book()).text


def test_joints_lie_where_the_body_puts_them():
    pose = book().exercises["high-plank"].poses[0]
    placed = book().body.held(pose, "man").figure
    drawn = limbs("high-plank")
    segments = [
        (placed.hip, placed.legs[0].knee), (placed.legs[0].knee, placed.legs[0].ankle),
        (placed.hip, placed.shoulder), (placed.shoulder, placed.arms[0].elbow), (placed.arms[0].elbow, placed.arms[0].wrist),
    ]  # fmt: skip
    for start, end in segments:
        across, up = (end - start).real * SCALE, (end - start).imag * SCALE
        assert any(
            b[0] - a[0] == pytest.approx(across, abs=0.11) and a[1] - b[1] == pytest.approx(up, abs=0.11)
            for a, b in (line for line in drawn if len(line) == 2)
        ), (start, end)


def test_key_poses_stand_side_by_side_with_an_arrowhead_between():
    kinds = [path.get("class") for path in root("push-up").iter(f"{SVG}path")]
    assert (kinds.count("ground"), kinds.count("turn")) == (2, 1)
    heads = [float(circle.get("cx")) for circle in root("push-up").iter(f"{SVG}circle")]
    assert heads[1] - heads[0] > 55


@pytest.mark.parametrize(("exercise", "far"), [("push-up", False), ("bird-dog", True), ("split-squat", True)])
def test_the_far_side_is_drawn_lighter_only_where_the_sides_differ(exercise, far):
    assert any(path.get("class") == "far" for path in root(exercise).iter(f"{SVG}path")) is far


@pytest.mark.parametrize(
    ("exercise", "kind"),
    [("mid-incline-push-up", "box"), ("pull-up", "bar"), ("low-ring-chin-up", "ring"), ("backpack-row", "weight"),
     ("standing-band-row", "strap"), ("rear-foot-elevated-split-squat", "box")],
)  # fmt: skip
def test_what_the_pose_leans_on_is_drawn(exercise, kind):
    assert [one for one in root(exercise).iter() if one.get("class") == kind]


def test_a_wall_stands_behind_the_hands_that_press_it():
    grounds = [points(path) for path in root("wall-push-up").iter(f"{SVG}path") if path.get("class") == "ground"]
    upright = [line for line in grounds if line[0][0] == line[1][0]]
    hands = max(point[0] for line in limbs("wall-push-up")[:9] for point in line)
    assert len(upright) == 2 and upright[0][0][0] > hands


def thigh(exercise):
    (x, y), (to_x, to_y) = limbs(exercise)[0]
    return ((x - to_x) ** 2 + (y - to_y) ** 2) ** 0.5


@pytest.mark.parametrize(
    ("before", "after", "off"), [("high-plank", "incline-plank", 0.1), ("push-up", "mid-incline-push-up", 1.0)]
)
def test_before_and_after_are_drawn_at_one_scale_or_nearly(before, after, off):
    assert thigh(before) == pytest.approx(thigh(after), abs=off)


def test_the_text_alternative_says_how_it_looks_and_who_carries_what():
    assert figure("push-up", book()).text == (
        f"{'; '.join(book().exercises['push-up'].looks)}. Arms straight: about 70 % of the weight on both hands, about 30 % of "
        "the weight on the toes of both feet. Arms bent: about 75 % of the weight on both hands, about 25 % of the "
        "weight on the toes of both feet."
    )


def test_every_word_a_contact_may_need_stands_on_the_card():
    words = book().orders[WORDS].texts
    for card in book().exercises.values():
        for pose in card.poses:
            for contact in book().body.held(pose).contacts:
                assert contact.what == "seat" or contact.what in words, (card.id, contact.what)


@pytest.mark.parametrize("exercise", ["side-plank", "no-such-exercise"])
def test_what_was_not_computed_is_not_drawn(exercise):
    assert figure(exercise, book()) is None


@pytest.mark.parametrize("exercise", POSED)
def test_a_picture_asks_nothing_of_a_strict_policy(exercise):
    allowed = {"svg", "title", "desc", "path", "circle", "text"}
    for one in root(exercise).iter():
        assert one.tag.removeprefix(SVG) in allowed
        assert not [name for name in one.attrib if name == "style" or name.startswith("on") or "href" in name]
        assert not [value for value in one.attrib.values() if "#" in value or "rgb" in value or "url" in value]


def test_the_contact_sheet_shows_every_figure_once_and_needs_no_other_file():
    html = contact_sheet(book())
    assert html.count("<svg") == len(POSED)
    assert not re.findall(r"<(?:script|link|img)\b|url\(", html)


def test_the_command_writes_the_page(tmp_path):
    from typer.testing import CliRunner

    file = tmp_path / "figures.html"
    found = CliRunner().invoke(app, ["figures", str(file)])
    assert found.exit_code == 0 and file.read_text(encoding="utf-8").startswith("<!doctype html>")
