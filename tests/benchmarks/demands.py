"""All demands of the book computed on one core, and the same planks beside a plain numpy reckoning in the same run."""

from __future__ import annotations

import time

import numpy as np
from figure import Figure

from assistant.body import Body, Pose, asked, held
from assistant.rulebook import load
from assistant.rulebook.demands import compute as compute_all
from assistant.rulebook.demands import demand_of

TARGET_MS = 50.0
RATIO = 1.0  # not slower than the plain way


def measure(quick: bool = False) -> list[Figure]:
    """The best of several runs, in processor time: what else the machine does must not count."""
    book, runs = load(), 3 if quick else 10
    poses = [Pose("plank", hands_height_cm=cm) for cm in range(0, 90, 2)]
    whole = _best(lambda: list(compute_all(book)), runs)
    ours = _best(lambda: [asked(held(pose, book.body.builds[0], book.body.stance)) for pose in poses], runs)
    plain = _best(lambda: [plainly(pose, book.body) for pose in poses], runs)
    assert all(
        abs(plainly(pose, book.body) - asked(held(pose, book.body.builds[0], book.body.stance))["hand_share"]) < 1e-6
        for pose in poses
    ), "the two ways must agree before their speed is compared"
    assert demand_of(book.exercises["push-up"], book.body)
    return [
        Figure("all demands of the book", whole, "ms", TARGET_MS),
        Figure("planks, of the time of plain numpy", ours / plain, "times", RATIO),
        Figure("planks, plain numpy", plain, "ms"),
    ]


def _best(work, runs: int) -> float:
    times = []
    for _ in range(runs):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return 1000 * min(times)


def plainly(pose: Pose, body: Body) -> float:
    """The share on the hands of a plank with straight arms, by arrays of points and bisection."""
    build, stance = body.builds[0], body.stance
    ball = np.array([0.0, 0.0])
    foot = np.array([0.0, -1.0])
    ankle = ball + (stance.ankle_from_heel_share - stance.ball_from_heel_share) * build.foot.length * foot
    ankle = ankle + np.array([stance.ankle_above_share, 0.0])
    raised = min(pose.hands_height_cm / stance.tilt_raised_cm, 1.0)
    share = stance.tilt_floor_share + raised * (stance.tilt_raised_share - stance.tilt_floor_share)
    surface = pose.hands_height_cm / (100 * build.stature_m)
    length = build.shank.length + build.thigh.length + build.trunk.length
    reach = build.upper_arm.length + build.forearm.length
    low, high = -1.5, 1.5
    for _ in range(50):
        line = (low + high) / 2
        over = ankle[1] + length * np.sin(line) - reach * np.cos(share * line) - surface - stance.palm_above_cm / 174.1
        low, high = (low, line) if over > 0 else (line, high)
    along, down = np.array([np.cos(line), np.sin(line)]), np.array([np.sin(share * line), -np.cos(share * line)])
    knee, hip = ankle + build.shank.length * along, ankle + (build.shank.length + build.thigh.length) * along
    shoulder = ankle + length * along
    elbow, wrist = shoulder + build.upper_arm.length * down, shoulder + reach * down
    heel_to_centre = (build.foot.centre - stance.ankle_from_heel_share) * build.foot.length * foot
    points = np.array([
        shoulder + build.trunk.centre * (hip - shoulder), shoulder + build.head_out * along,
        hip + build.thigh.centre * (knee - hip), knee + build.shank.centre * (ankle - knee),
        ankle + heel_to_centre - np.array([0.5 * stance.ankle_above_share, 0.0]),
        shoulder + build.upper_arm.centre * (elbow - shoulder), elbow + build.forearm.centre * (wrist - elbow),
        wrist + np.array([build.hand.centre * build.hand.length, 0.0]),
    ])  # fmt: skip
    twice = [getattr(build, name).mass * 2 for name in ("thigh", "shank", "foot", "upper_arm", "forearm", "hand")]
    masses = np.array([build.trunk.mass, build.head_mass, *twice])
    centre = masses @ points
    hand = np.array([wrist[0] + stance.palm_ahead_cm / 174.1, surface])
    push = np.array([0.0, 1.0]) if surface == 0 else -down
    size = centre[0] / (hand[0] * push[1] - hand[1] * push[0])
    return float(size * push[1])


if __name__ == "__main__":
    print(*measure(), sep="\n")
