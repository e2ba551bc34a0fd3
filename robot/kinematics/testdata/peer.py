"""Answers the kinematics tests with Orocos KDL (Debian package python3-pykdl).

Reads one JSON object from standard input:
  {"chains": [{"joints": [{"kind": "continuous" | "prismatic" | "fixed",
                           "origin": [12 numbers, three rows of parentFromChild],
                           "axis": [3],
                           "parent": name, "child": name}],   names for a tree only
               "root": name, "base": name, "tip": name,       for a tree only
               "q": [[n numbers], ...],                 poses wanted
               "seeds": [[[n numbers], ...], ...]}]}    per q, may be empty
and writes {"chains": [{"poses": [[12]], "jacobians": [[6*n, row-major]],
                        "solutions": [[[n numbers]]]}]}.
Jacobian rows are vx vy vz wx wy wz in the base's axes at the flange's origin.
solutions holds the joint values at which the library's Levenberg-Marquardt
solver ended with a residual below 1e-5 (it reads smaller rotations as
none), from each seed.
"""
import json
import sys

import PyKDL as kdl


def frame(m):
    return kdl.Frame(
        kdl.Rotation(m[0], m[1], m[2], m[4], m[5], m[6], m[8], m[9], m[10]),
        kdl.Vector(m[3], m[7], m[11]))


def segment(j):
    """A URDF joint is an origin, then a motion about or along an axis."""
    at = frame(j["origin"])
    name = j.get("child", "link")
    if j["kind"] == "fixed":
        return kdl.Segment(name, kdl.Joint(kdl.Joint.Fixed), at)
    axis = at.M * kdl.Vector(*j["axis"])
    kind = kdl.Joint.RotAxis if j["kind"] == "continuous" else kdl.Joint.TransAxis
    return kdl.Segment(name, kdl.Joint("j", at.p, axis, kind), at)


def chain_of(c):
    """The joints one behind the other, or the way through their tree."""
    if not c.get("root"):
        chain = kdl.Chain()
        for j in c["joints"]:
            chain.addSegment(segment(j))
        return chain
    tree = kdl.Tree(c["root"])
    for j in c["joints"]:
        if not tree.addSegment(segment(j), j["parent"]):
            raise SystemExit("no link " + j["parent"])
    return tree.getChain(c["base"], c["tip"])


def array(values):
    a = kdl.JntArray(len(values))
    for i, v in enumerate(values):
        a[i] = v
    return a


def row_major(f):
    return [v for r in range(3) for v in (f.M[r, 0], f.M[r, 1], f.M[r, 2], f.p[r])]


def answer(c):
    chain = chain_of(c)
    n = chain.getNrOfJoints()
    fk = kdl.ChainFkSolverPos_recursive(chain)
    jac = kdl.ChainJntToJacSolver(chain)
    lma = kdl.ChainIkSolverPos_LMA(chain, 1e-8, 500, 1e-15)
    out = {"poses": [], "jacobians": [], "solutions": []}
    for i, q in enumerate(c["q"]):
        pose, j = kdl.Frame(), kdl.Jacobian(n)
        fk.JntToCart(array(q), pose)
        jac.JntToJac(array(q), j)
        out["poses"].append(row_major(pose))
        out["jacobians"].append([j[r, k] for r in range(6) for k in range(n)])
        found = []
        for seed in c["seeds"][i] if c["seeds"] else []:
            got, at = kdl.JntArray(n), kdl.Frame()
            lma.CartToJnt(array(seed), pose, got)
            fk.JntToCart(got, at)
            if max(abs(a - b) for a, b in zip(row_major(at), row_major(pose))) < 1e-5:
                found.append([got[k] for k in range(n)])
        out["solutions"].append(found)
    return out


json.dump({"chains": [answer(c) for c in json.load(sys.stdin)["chains"]]}, sys.stdout)
