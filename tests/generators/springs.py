#!/usr/bin/env python3
"""Makes tests/published/springs.json: rigid frames on three to five supports, solved a second way.

The planner solves for the two displacements of the frame (heave and pitch). This script never forms
them: it takes the reactions as the unknowns and looks, among all reactions that balance the load,
for those with the least work in the springs (Castigliano's theorem; the minimum of the complementary
energy). The set of balancing reactions is written as one solution plus the null space of the two
equations of equilibrium, and the minimum is found by numpy's least squares. Each answer is then
compared with the same problem in exact fractions (Lagrange multipliers, Gauss elimination); frames
on which the two disagree by more than 1e-11 of the load stop the script.

A support that carries a fixed load takes part in the balance only. A support that is up carries
nothing. The springs are counted from the weighed state: a spring that carried w when weighed and
carries R now has done the work (R - w)^2 / (2 k).

    pip install numpy
    python3 tests/generators/springs.py
"""

import json
import pathlib
import random
from fractions import Fraction

import numpy as np

FRAMES = 80
SEED = 20260711
OUT = pathlib.Path(__file__).resolve().parent.parent / "published" / "springs.json"


def least_work(supports, mass, moment):
    """Reactions in kg by least squares over the balancing reactions."""
    fixed = [s for s in supports if s["fixed_kg"] is not None and not s["raised"]]
    free = [s for s in supports if s["fixed_kg"] is None and not s["raised"]]
    left_mass = mass - sum(s["fixed_kg"] for s in fixed)
    left_moment = moment - sum(s["fixed_kg"] * s["x_mm"] for s in fixed)
    x = np.array([s["x_mm"] for s in free]) / 1000.0
    k = np.array([s["rate"] for s in free])
    w = np.array([s["weighed_kg"] for s in free])
    balance = np.vstack([np.ones_like(x), x])
    target = np.array([left_mass, left_moment / 1000.0])
    # Reactions in excess of the weighed ones, each divided by the square root of its rate: their
    # squares are the work.
    scaled = balance * np.sqrt(k)
    start = np.linalg.lstsq(scaled, target - balance @ w, rcond=None)[0]
    _, _, rows = np.linalg.svd(scaled)
    null = rows[2:].T
    if null.size:
        along = np.linalg.lstsq(null, -start, rcond=None)[0]
        start = start + null @ along
    reactions = iter(w + np.sqrt(k) * start)
    out = []
    for s in supports:
        if s["raised"]:
            out.append(0.0)
        elif s["fixed_kg"] is not None:
            out.append(s["fixed_kg"])
        else:
            out.append(float(next(reactions)))
    return out


def exact(supports, mass, moment):
    """The same in fractions: stationary work with two multipliers."""
    f = Fraction
    fixed = [s for s in supports if s["fixed_kg"] is not None and not s["raised"]]
    free = [s for s in supports if s["fixed_kg"] is None and not s["raised"]]
    n = len(free)
    a = [[f(0)] * (n + 3) for _ in range(n + 2)]
    for i, s in enumerate(free):
        a[i][i] = 1 / f(s["rate"])
        a[i][n] = a[n][i] = f(1)
        a[i][n + 1] = a[n + 1][i] = f(s["x_mm"])
        a[i][n + 2] = f(s["weighed_kg"]) / f(s["rate"])
    a[n][n + 2] = f(mass) - sum(f(s["fixed_kg"]) for s in fixed)
    a[n + 1][n + 2] = f(moment) - sum(f(s["fixed_kg"]) * f(s["x_mm"]) for s in fixed)
    size = n + 2
    for col in range(size):
        pivot = next(r for r in range(col, size) if a[r][col] != 0)
        a[col], a[pivot] = a[pivot], a[col]
        a[col] = [v / a[col][col] for v in a[col]]
        for r in range(size):
            if r != col and a[r][col] != 0:
                factor = a[r][col]
                a[r] = [v - factor * p for v, p in zip(a[r], a[col])]
    reactions = iter(a[i][size] for i in range(n))
    out = []
    for s in supports:
        if s["raised"]:
            out.append(f(0))
        elif s["fixed_kg"] is not None:
            out.append(f(s["fixed_kg"]))
        else:
            out.append(next(reactions))
    return out


def frame(rng, number):
    count = rng.choice([3, 3, 4, 4, 5])
    x = 0.0
    supports = []
    for index in range(count):
        supports.append({
            "x_mm": x,
            "rate": round(rng.uniform(60, 1500), 1),
            "fixed_kg": None,
            "raised": False,
            "weighed_kg": float(rng.randrange(600, 9000, 10)),
        })
        x += round(rng.uniform(900, 3500) if index == 0 else rng.uniform(700, 1900), 1)
    kind = ["springs", "springs", "fixed", "raised", "both"][number % 5]
    behind = list(range(1, count))
    rng.shuffle(behind)
    if kind in ("fixed", "both"):
        supports[behind.pop()]["fixed_kg"] = float(rng.randrange(500, 8000, 50))
    # Two supports at least must stay to carry the frame.
    if kind in ("raised", "both") and len(behind) >= 2:
        supports[behind.pop()]["raised"] = True
    masses = [[s["weighed_kg"], s["x_mm"]] for s in supports]
    for _ in range(rng.randrange(1, 8)):
        mass = round(rng.uniform(-1500, 6000), 1)
        masses.append([mass, round(rng.uniform(-1300, x + 1500), 1)])
    return kind, supports, masses


def main():
    rng = random.Random(SEED)
    frames = []
    for number in range(FRAMES):
        kind, supports, masses = frame(rng, number)
        mass = sum(m for m, _ in masses)
        moment = sum(m * at for m, at in masses)
        reactions = least_work(supports, mass, moment)
        truth = exact(supports, sum(Fraction(m) for m, _ in masses),
                      sum(Fraction(m) * Fraction(at) for m, at in masses))
        size = sum(abs(m) for m, _ in masses)
        worst = max(abs(r - float(t)) for r, t in zip(reactions, truth)) / size
        assert worst < 1e-11, (number, worst)
        frames.append({"kind": kind, "supports": supports, "masses_kg_mm": masses,
                       "reactions_kg": reactions})
    head = {
        "made_by": "tests/generators/springs.py",
        "library": f"numpy {np.__version__}",
        "method": "least work over the balancing reactions, confirmed in exact fractions",
        "known": "computed",
    }
    lines = ",\n".join("  " + json.dumps(f) for f in frames)
    head_text = json.dumps(head, indent=1)[1:-2]
    OUT.write_text("{" + head_text + ',\n "frames": [\n' + lines + "\n ]\n}\n")
    print(f"{len(frames)} frames, numpy {np.__version__} -> {OUT.name}")


if __name__ == "__main__":
    main()
