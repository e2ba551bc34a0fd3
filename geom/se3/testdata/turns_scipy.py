"""Second opinion on orientations by scipy.spatial.transform.Rotation.

Reads {"orders": [...], "matrices": [[9 numbers], ...]} from standard input. An
order is in scipy's spelling: capitals for moving axes, small letters for fixed
ones. Writes for every matrix its quaternion (x, y, z, w), its rotation vector
(rad) and, for every order, the angles (deg).
"""
import json
import sys
import warnings

import numpy
from scipy.spatial.transform import Rotation

warnings.simplefilter("ignore")  # scipy warns at a lock; the caller expects it
asked = json.load(sys.stdin)
answers = []
for numbers in asked["matrices"]:
    r = Rotation.from_matrix(numpy.array(numbers).reshape(3, 3))
    answers.append({
        "quaternion": r.as_quat().tolist(),
        "vector": r.as_rotvec().tolist(),
        "angles": {o: r.as_euler(o, degrees=True).tolist() for o in asked["orders"]},
    })
json.dump(answers, sys.stdout)
