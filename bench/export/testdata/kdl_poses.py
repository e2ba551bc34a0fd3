"""Recomputes every pose of a plan folder with Orocos KDL (Debian package
python3-pykdl), from the arm's URDF file and the joint values alone.

    kdl_poses.py ARM.urdf PLANFOLDER

Reads plan.json, steps.csv and trace.csv with Python's own readers and writes
{"steps": [[12 numbers]], "trace": [[12 numbers]], "limits": [[lower, upper, speed]]}:
for every row three rows of base from tip (m), and the limits of the joints in
rad and rad/s (m and m/s for a sliding joint; null for none).
"""
import csv
import json
import math
import sys
import xml.etree.ElementTree as ET

import PyKDL as kdl


def numbers(text, default):
    return [float(x) for x in text.split()] if text else default


def origin_of(joint):
    """URDF: rpy is fixed-axis roll, pitch, yaw, as KDL's RPY is."""
    o = joint.find("origin")
    xyz = numbers(o.get("xyz") if o is not None else None, [0.0, 0.0, 0.0])
    rpy = numbers(o.get("rpy") if o is not None else None, [0.0, 0.0, 0.0])
    return kdl.Frame(kdl.Rotation.RPY(*rpy), kdl.Vector(*xyz))


def segment_of(joint):
    at, kind = origin_of(joint), joint.get("type")
    if kind == "fixed":
        return kdl.Segment(joint.find("child").get("link"), kdl.Joint(kdl.Joint.Fixed), at)
    axis = joint.find("axis")
    axis = kdl.Vector(*numbers(axis.get("xyz") if axis is not None else None, [1.0, 0.0, 0.0]))
    sort = kdl.Joint.TransAxis if kind == "prismatic" else kdl.Joint.RotAxis
    return kdl.Segment(joint.find("child").get("link"), kdl.Joint(joint.get("name"), at.p, at.M * axis, sort), at)


def chain_of(urdf, base, flange):
    """The library's own way through the tree from base to flange, up and down,
    and the limits of its moving joints."""
    joints = ET.parse(urdf).getroot().findall("joint")
    parents = [j.find("parent").get("link") for j in joints]
    children = {j.find("child").get("link") for j in joints}
    tree, left = kdl.Tree(next(p for p in parents if p not in children)), list(joints)
    while left:
        waiting = [j for j in left if not tree.addSegment(segment_of(j), j.find("parent").get("link"))]
        if len(waiting) == len(left):
            sys.exit("the URDF is no tree")
        left = waiting
    chain, by_name = tree.getChain(base, flange), {j.get("name"): j for j in joints}
    moving = [chain.getSegment(i).getJoint() for i in range(chain.getNrOfSegments())]
    names = [j.getName() for j in moving if j.getType() != kdl.Joint.Fixed]
    limits, slides = [], []
    for j in (by_name[n] for n in names):
        slides.append(j.get("type") == "prismatic")
        limit = j.find("limit")
        ends = [None, None] if j.get("type") == "continuous" else [float(limit.get("lower", 0)), float(limit.get("upper", 0))]
        limits.append(ends + [float(limit.get("velocity"))])
    return chain, names, limits, slides


def pose_of(doc):
    w, x, y, z = doc["quat_wxyz"]
    return kdl.Frame(kdl.Rotation.Quaternion(x, y, z, w), kdl.Vector(*doc["xyz_m"]))


def main(urdf, folder):
    with open(folder + "/plan.json", encoding="utf-8") as f:
        plan = json.load(f)
    chain, names, limits, slides = chain_of(urdf, plan["base_link"], plan["flange_link"])
    if names != plan["joints"]:
        sys.exit(f"the URDF's joints are {names}, plan.json names {plan['joints']}")
    solver, tip = kdl.ChainFkSolverPos_recursive(chain), pose_of(plan["flange_from_tip"])
    heads = [f"j{i + 1}_{'mm' if s else 'deg'}" for i, s in enumerate(slides)]
    out = {"limits": limits}
    for name in ("steps", "trace"):
        out[name] = []
        with open(f"{folder}/{name}.csv", encoding="utf-8", newline="") as f:
            for row in csv.DictReader(f):
                q = kdl.JntArray(len(names))
                for i, head in enumerate(heads):
                    q[i] = float(row[head]) / 1000 if slides[i] else math.radians(float(row[head]))
                flange = kdl.Frame()
                if solver.JntToCart(q, flange) < 0:
                    sys.exit("KDL could not compute a row of " + name)
                at = flange * tip
                out[name].append([v for r in range(3) for v in (at.M[r, 0], at.M[r, 1], at.M[r, 2], at.p[r])])
    json.dump(out, sys.stdout)


main(sys.argv[1], sys.argv[2])
