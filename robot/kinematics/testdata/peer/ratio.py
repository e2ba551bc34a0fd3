"""Times this package and Orocos KDL in turn on one machine and prints ratios.

Usage, from anywhere:  python3 robot/kinematics/testdata/peer/ratio.py [rounds]
Needs g++, make, liborocos-kdl-dev, libeigen3-dev (Debian) and go. Both are
timed in CPU time (this package's benchmarks report cpu-ns/op on Linux), in
rounds that take turns, so that a busy spell of the machine meets both. On a
shared core this package still loses more than the library, since it keeps more
of the core's units at work; so beside the medians stands the ratio of the least
disturbed rounds, the fastest of each. Solve finds every posture; the library's
Levenberg-Marquardt call finds at most one.
"""
import os
import re
import statistics
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
PACKAGE = os.path.dirname(os.path.dirname(HERE))
ARMS = {"Spherical": "sphw6", "ThreeParallel": "offw6"}
BENCH = "^Benchmark(Forward|Jacobian|Solve)(Spherical|ThreeParallel)$"
PAIRS = {"Forward": "forward", "Jacobian": "jacobian", "Solve": "lma"}


def main():
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 9
    ours, theirs = {}, {}
    with tempfile.TemporaryDirectory() as folder:
        timer, bench = os.path.join(folder, "kdltime"), os.path.join(folder, "bench.test")
        subprocess.run(["make", "-s", "-C", HERE, "OUT=" + timer], check=True)
        subprocess.run(["go", "test", "-c", "-o", bench, "."], cwd=PACKAGE, check=True)
        for _ in range(rounds):
            text = subprocess.run([timer], check=True, capture_output=True, text=True).stdout
            for arm, what, ns in re.findall(r"(\w+) (\w+) ([\d.]+)", text):
                theirs.setdefault((arm, what), []).append(float(ns))
            text = subprocess.run([bench, "-test.run", "^$", "-test.bench", BENCH, "-test.benchtime", "0.1s"],
                                  cwd=PACKAGE, check=True, capture_output=True, text=True).stdout
            for what, arm, ns in re.findall(r"Benchmark(Forward|Jacobian|Solve)(Spherical|ThreeParallel)(?:-\d+)?\s.*?([\d.]+) cpu-ns/op", text):
                ours.setdefault((ARMS[arm], PAIRS[what]), []).append(float(ns))
    print(f"{'arm':8}{'call':10}{'this, ns':>10}{'library, ns':>13}{'ratio':>8}{'undisturbed':>13}   (medians of {rounds} rounds)")
    for key in sorted(ours, key=lambda k: (k[1], k[0])):
        a, b = statistics.median(ours[key]), statistics.median(theirs[key])
        best = min(theirs[key]) / min(ours[key])
        print(f"{key[0]:8}{key[1]:10}{a:10.1f}{b:13.1f}{b / a:8.1f}{best:13.1f}")


if __name__ == "__main__":
    main()
