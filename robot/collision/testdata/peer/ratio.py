"""Times this package and the Flexible Collision Library in turn on the states of
the test data and prints ratios.

Usage, from anywhere:  python3 robot/collision/testdata/peer/ratio.py [rounds]
Needs g++, make, libfcl-dev, libccd-dev, libeigen3-dev, nlohmann-json3-dev
(Debian) and go. With REFERENCE=folder it takes the whole workload of 8,000
states and the part of 20,648 triangles from there (see full_test.go), otherwise
the 480 states and the part that the tests keep.

Both ask whether the arm touches anything, over all pairs alike, up to the first
that does; both are timed in CPU time, in rounds that take turns, so that a busy
spell of the machine meets both. The library's answers are held against those
that the test data has.
"""
import gzip
import json
import math
import os
import re
import statistics
import struct
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml

HERE = os.path.dirname(os.path.abspath(__file__))
DATA = os.path.dirname(HERE)
PACKAGE = os.path.dirname(DATA)
REFERENCE = os.environ.get("REFERENCE", "")


def numbers(text):
    return [float(x) for x in text.split()]


def pose(origin):
    """4 x 4 of a URDF origin, row by row."""
    x, y, z = numbers(origin.get("xyz", "0 0 0"))
    r, p, w = numbers(origin.get("rpy", "0 0 0"))
    cr, sr, cp, sp, cw, sw = math.cos(r), math.sin(r), math.cos(p), math.sin(p), math.cos(w), math.sin(w)
    return [cw * cp, cw * sp * sr - sw * cr, cw * sp * cr + sw * sr, x,
            sw * cp, sw * sp * sr + cw * cr, sw * sp * cr - cw * sr, y,
            -sp, cp * sr, cp * cr, z, 0, 0, 0, 1]


def arm(name):
    """Joint origins and bodies of an arm whose joints turn about z."""
    root = xml.parse(os.path.join(PACKAGE, "..", "kinematics", "testdata", name + ".urdf")).getroot()
    joints = [j for j in root.findall("joint") if j.get("type") != "fixed"]
    for j in joints:
        if numbers(j.find("axis").get("xyz")) != [0, 0, 1]:
            sys.exit(f"{name}: joint {j.get('name')} does not turn about z")
    order = [joints[0].find("parent").get("link")] + [j.find("child").get("link") for j in joints]
    bodies = []
    for index, link in enumerate(order):
        for c in root.find(f"link[@name='{link}']").findall("collision"):
            shape = c.find("geometry")[0]
            body = {"link": index, "T": pose(c.find("origin")), "type": shape.tag}
            for key in ("size", "radius", "length"):
                if key in shape.attrib:
                    v = numbers(shape.get(key))
                    body[key] = v if key == "size" else v[0]
            bodies.append(body)
    own = []
    for i, a in enumerate(bodies):
        for k in range(i + 1, len(bodies)):
            pair = (a["link"], bodies[k]["link"])
            if pair[1] - pair[0] > 1 and pair not in ((3, 5), (4, 6)):
                own.append((i, k))
    return [pose(j.find("origin")) for j in joints], bodies, own


def part():
    """Vertices and triangles of the part."""
    if REFERENCE:
        with open(os.path.join(REFERENCE, "mesh", "part20k.stl"), "rb") as f:
            data = f.read()[84:]
        index, triangles = {}, []
        for at in range(0, len(data), 50):
            corners = struct.unpack_from("<9f", data, at + 12)
            triangles.append([index.setdefault(corners[i:i + 3], len(index)) for i in (0, 3, 6)])
        return list(index), triangles
    data = gzip.open(os.path.join(PACKAGE, "..", "..", "geom", "bvh", "testdata", "part.mesh.gz")).read()
    count, faces = struct.unpack_from("<2I", data)
    flat = struct.unpack_from(f"<{3 * count}f", data, 8)
    corners = struct.unpack_from(f"<{3 * faces}H", data, 8 + 12 * count)
    three = lambda v: [v[i:i + 3] for i in range(0, len(v), 3)]
    return three(flat), three(corners)


def states(name):
    """Postures of a scene and whether they are valid."""
    if REFERENCE:
        with open(os.path.join(REFERENCE, f"states_{name}.jsonl")) as f:
            rows = [json.loads(line) for line in f]
    else:
        rows = map(json.loads, gzip.open(os.path.join(DATA, "states.jsonl.gz"), "rt"))
        rows = [r for r in rows if r["scene"] == name]
    return [r["q"] for r in rows], "".join("01"[r["valid"]] for r in rows)


def workload():
    vertices, triangles = part()
    work, answers = {}, {}
    for name, s in json.loads(gzip.open(os.path.join(DATA, "scenes.json.gz")).read()).items():
        origins, bodies, own = arm(s["arm"])
        obstacles = [{"type": "box", **b} for b in s["boxes"]]
        obstacles += [{"type": "mesh", "T": m["T"], "vertices": vertices, "triangles": triangles} for m in s["meshes"]]
        qs, answers[name] = states(name)
        work[name] = {"origins": origins, "bodies": bodies, "own": own, "obstacles": obstacles, "states": qs}
    return work, answers


def main():
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    work, answers = workload()
    tags, bench = (["-tags", "reference"], "FullState") if REFERENCE else ([], "State")
    ours, theirs = {}, {}
    with tempfile.TemporaryDirectory() as folder:
        timer, test, file = (os.path.join(folder, f) for f in ("fclstate", "bench.test", "work.json"))
        with open(file, "w") as f:
            json.dump(work, f)
        subprocess.run(["make", "-s", "-C", HERE, "OUT=" + timer], check=True)
        subprocess.run(["go", "test", "-c", *tags, "-o", test, "."], cwd=PACKAGE, check=True)
        for _ in range(rounds):
            text = subprocess.run([timer, file], check=True, capture_output=True, text=True).stdout
            for name, ns, valid, found in re.findall(r"(\w+) ([\d.]+) ([\d.]+) ([01]+)", text):
                theirs.setdefault((name, "all"), []).append(float(ns))
                theirs.setdefault((name, "valid"), []).append(float(valid))
                wrong = sum(a != b for a, b in zip(found, answers[name], strict=True))
                if wrong:
                    sys.exit(f"{name}: the library answers {wrong} states otherwise than the test data")
            text = subprocess.run([test, "-test.run", "^$", "-test.bench", f"^Benchmark{bench}$", "-test.benchtime", "0.2s"],
                                  cwd=PACKAGE, check=True, capture_output=True, text=True).stdout
            for name, which, ns in re.findall(rf"Benchmark{bench}/(\w+)/(\w+?)(?:-\d+)?\s.*?([\d.]+) cpu-ns/state", text):
                ours.setdefault((name, which), []).append(float(ns))
    print(f"{'scene':14}{'':7}{'states':>8}{'this, us':>10}{'library, us':>13}{'ratio':>8}{'undisturbed':>13}   (medians of {rounds} rounds)")
    for key in sorted(theirs):
        name, which = key
        a, b = statistics.median(ours[key]), statistics.median(theirs[key])
        best = min(theirs[key]) / min(ours[key])
        count = answers[name].count("1") if which == "valid" else len(answers[name])
        print(f"{name:14}{which:7}{count:8}{a / 1e3:10.2f}{b / 1e3:13.1f}{b / a:8.1f}{best:13.1f}")


if __name__ == "__main__":
    main()
