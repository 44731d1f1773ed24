"""Poses of the body model rebuilt in an independent physics engine: what its inverse dynamics asks must be the same.

The engine gets segments, masses and joints, and the force on the hands (or shoulders) from the model. It must then find
the force on the feet, no moment at the point where they press, and the same moment at every joint.
"""

import os

import pytest

from assistant.body import Pose, moments
from assistant.rulebook import load

if not os.environ.get("CI"):
    pytest.importorskip("mujoco", reason="install the test extra to compare with the physics engine")
import mujoco
import numpy as np

GRAVITY = 9.81
POSES = {
    "plank": Pose("plank"),
    "push-up, low": Pose("plank", arms="bent"),
    "lean of 20 cm": Pose("plank", lean_cm=20),
    "pike, feet on 45 cm": Pose("pike", feet_height_cm=45),
    "hands on 61 cm, slanted force": Pose("plank", hands_height_cm=61),
    "reverse plank": Pose("reverse-plank", feet="heels"),
    "row under a bar": Pose("row", hands="bar", feet="heels", hands_height_cm=100),
    "leaning on a wall": Pose("plank", wall=True, feet="ball"),
}


def chain(figure, foot_point):
    """Segments from the feet to the hands: name, joint it turns about, mass, centre; the head goes with the trunk."""
    build, leg, arm = figure.build, figure.legs[0], figure.arms[0]
    trunk_centre = figure.shoulder + build.trunk.centre * (figure.hip - figure.shoulder)
    whole = build.trunk.mass + build.head_mass
    upper_body = (build.trunk.mass * trunk_centre + build.head_mass * figure.head) / whole
    thigh, shank, foot = leg.lumps
    upper, fore, hand = arm.lumps
    return [
        ("foot", foot_point, *foot), ("ankle", leg.ankle, *shank), ("knee", leg.knee, *thigh),
        ("hip", figure.hip, whole, upper_body), ("shoulder", figure.shoulder, *upper),
        ("elbow", arm.elbow, *fore), ("wrist", arm.wrist, *hand),
    ]  # fmt: skip


def engine(segments, build):
    """The chain as a model of the engine in metres and kilograms; joints turn to the left like the model's angles."""
    metre, kilogram = build.stature_m, build.mass_kg
    open_, before = "", 0j
    for n, (name, joint, mass, centre) in enumerate(segments):
        at, seat = (joint - before) * metre, (centre - joint) * metre
        slides = (
            '<joint name="x" type="slide" axis="1 0 0"/><joint name="z" type="slide" axis="0 0 1"/>' if n == 0 else ""
        )
        open_ += (
            f'<body name="{name}" pos="{at.real!r} 0 {at.imag!r}">{slides}'
            f'<joint name="{name}" type="hinge" axis="0 -1 0"/>'
            f'<inertial pos="{seat.real!r} 0 {seat.imag!r}" mass="{mass * kilogram!r}" diaginertia="1 1 1"/>'
        )
        before = joint
    closed = open_ + "</body>" * len(segments)
    return mujoco.MjModel.from_xml_string(
        f'<mujoco><option gravity="0 0 {-GRAVITY}"/><worldbody>{closed}</worldbody></mujoco>'
    )


def asked_of_the_joints(model, contact, build):
    """Generalised forces at rest, after the force on the hands has done its part."""
    data = mujoco.MjData(model)
    mujoco.mj_forward(model, data)
    data.qacc[:] = 0
    mujoco.mj_inverse(model, data)
    given = np.zeros(model.nv)
    newton = build.mass_kg * GRAVITY
    force = np.array([contact.force.real * newton, 0.0, contact.force.imag * newton])
    point = np.array([contact.point.real, 0.0, contact.point.imag]) * build.stature_m
    hand = mujoco.mj_name2id(model, mujoco.mjtObj.mjOBJ_BODY, "wrist")
    mujoco.mj_applyFT(model, data, force, np.zeros(3), point, hand, given)
    found = data.qfrc_inverse - given
    return {model.joint(n).name: found[model.joint(n).dofadr[0]] for n in range(model.njnt)}


@pytest.fixture(scope="module")
def body():
    return load().body


@pytest.mark.parametrize("name", POSES)
@pytest.mark.parametrize("build_name", ["man", "woman"])
def test_the_engine_asks_for_the_same_forces_and_moments(name, build_name, body):
    build, made = body.build(build_name), body.held(POSES[name], build_name)
    on_hand, on_foot = made.contacts
    found = asked_of_the_joints(engine(chain(made.figure, on_foot.point), build), on_hand, build)
    newton, newton_metre = build.mass_kg * GRAVITY, build.mass_kg * GRAVITY * build.stature_m
    ours = moments(made)
    expected = {
        "x": on_foot.force.real * newton, "z": on_foot.force.imag * newton, "foot": 0.0,
        "ankle": ours.ankle_extensor * newton_metre, "knee": -ours.knee_extensor * newton_metre,
        "hip": -ours.hip_flexor * newton_metre, "shoulder": ours.shoulder_flexor * newton_metre,
        "elbow": ours.elbow_flexor * newton_metre,
    }  # fmt: skip
    for joint, value in expected.items():
        assert found[joint] == pytest.approx(value, abs=1e-6), joint
