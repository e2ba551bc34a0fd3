"""Writes spline_scipy.json: cubic splines by scipy.interpolate.CubicSpline.

Run by hand with the Debian package python3-scipy (1.10.1 was used):
    /usr/bin/python3 spline_scipy.py > spline_scipy.json
The points are invented. Parameter: sums of chords, or of their square roots.
"""
import json
import numpy as np
from scipy.interpolate import CubicSpline

POINTS = {
    "three": [[0, 0, 0], [0.05, 0.02, 0.0], [0.12, 0.01, 0.01]],
    "five, uneven": [[0, 0, 0], [0.01, 0.004, 0.001], [0.09, 0.03, 0], [0.1, 0.06, 0.01], [0.18, 0.05, 0.03]],
    "nine": [[0.03 * i, 0.02 * np.sin(i), 0.015 * np.cos(1.7 * i)] for i in range(9)],
}
LOOPS = {
    "three round": [[0.1, 0, 0], [-0.05, 0.09, 0.01], [-0.06, -0.08, -0.01]],
    "six round": [[0.1, 0, 0], [0.04, 0.08, 0.02], [-0.06, 0.09, 0], [-0.09, 0.01, 0.01], [-0.05, -0.07, 0], [0.06, -0.06, 0]],
}
rows = []
for closed, sets in ((False, POINTS), (True, LOOPS)):
    for name, pts in sets.items():
        for spacing, power in (("by chord", 1.0), ("centripetal", 0.5)):
            p = np.array(pts + pts[:1] if closed else pts, float)
            u = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(p, axis=0), axis=1) ** power)])
            c = CubicSpline(u, p, bc_type="periodic" if closed else "not-a-knot")
            fine = np.linspace(0, u[-1], 200001)
            speed = np.linalg.norm(c(fine, 1), axis=1)
            h = fine[1] - fine[0]
            length = h / 3 * (speed[0] + speed[-1] + 4 * speed[1:-1:2].sum() + 2 * speed[2:-1:2].sum())
            at = np.linspace(0, u[-1], 38)[:-1] + 0.003 * u[-1]
            rows.append({"name": name, "closed": closed, "spacing": spacing, "points": p[:len(pts)].tolist(),
                         "length": length, "samples": c(at).tolist()})
print("[" + ",\n ".join(json.dumps(r) for r in rows) + "]")
