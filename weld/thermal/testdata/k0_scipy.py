"""Second opinion on the Bessel function K0, scaled by e^x: reads a JSON list of
arguments from standard input and writes the values as a JSON list."""

import json
import sys

from scipy.special import kve

print(json.dumps([float(kve(0, x)) for x in json.load(sys.stdin)]))
