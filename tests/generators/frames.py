#!/usr/bin/env python3
"""Makes tests/published/frames.json: beams under masses, solved a second way.

The planner walks along the beam and keeps exact straight lines and parabolas. This script never does:

* kind "two": two rigid supports. Euler-Bernoulli finite elements (Hermite shape functions, consistent
  loads) on nodes at every load and every probe, assembled sparse and solved by scipy; the moment at a
  node is the element's end moment. A statically determinate beam's moments do not depend on the
  stiffness, so any will do.
* kind "springs": three or four supports on springs under a rigid beam, each held by one or two mounts.
  The reactions are those of least work among all that balance (numpy's least squares over the null space
  of the two equations of equilibrium); a mount's part follows from a lever, solved as a 2 by 2 system. The
  moment is then the double integral of load over length on a fine grid: points and supports are boxes a
  hundredth of a millimetre wide, laid on the grid by scipy's cumulative trapezoid.

Loads in newton (down positive), lengths in mm, moments in N mm (sagging positive).

    pip install numpy scipy
    python3 tests/generators/frames.py
"""

import json
import pathlib
import random

import numpy as np
import scipy
import scipy.sparse
import scipy.sparse.linalg
from scipy.integrate import cumulative_trapezoid

FRAMES = 80
SEED = 20260903
OUT = pathlib.Path(__file__).resolve().parent.parent / "published" / "frames.json"


def by_elements(frame, probes):
    """Moments and shear just behind each probe of a beam on two rigid supports."""
    xs = {s["x_mm"] for s in frame["supports"]} | set(probes)
    for x, _ in frame["points"]:
        xs.add(x)
    for a, b, _ in frame["spreads"]:
        xs |= {a, b}
    for x, _ in frame["couples"]:
        xs.add(x)
    xs = np.array(sorted(xs), dtype=np.longdouble) / 1000
    n = len(xs)
    index = {round(float(x) * 1000.0, 6): i for i, x in enumerate(xs)}
    at = lambda x: index[round(x, 6)]
    # Metres; a stiffness that keeps the numbers near one.
    ei = 1e5
    rows, cols, vals = [], [], []
    f = np.zeros(2 * n, dtype=np.longdouble)
    stiff = np.zeros((2 * n, 2 * n), dtype=np.longdouble)
    ends = []
    for e in range(n - 1):
        h = xs[e + 1] - xs[e]
        k = ei / h**3 * np.array([
            [12, 6 * h, -12, 6 * h],
            [6 * h, 4 * h * h, -6 * h, 2 * h * h],
            [-12, -6 * h, 12, -6 * h],
            [6 * h, 2 * h * h, -6 * h, 4 * h * h],
        ])
        middle = float(xs[e] + xs[e + 1]) / 2 * 1000.0
        # Upward positive inside the elements.
        q = -sum(w / (b - a) * 1000.0 for a, b, w in frame["spreads"] if a < middle < b)
        fe = q * h / 12 * np.array([6, h, 6, -h])
        dofs = [2 * e, 2 * e + 1, 2 * e + 2, 2 * e + 3]
        for i in range(4):
            f[dofs[i]] += fe[i]
            for j in range(4):
                rows.append(dofs[i])
                cols.append(dofs[j])
                vals.append(float(k[i, j]))
                stiff[dofs[i], dofs[j]] += k[i, j]
        ends.append((k, fe, dofs))
    for x, w in frame["points"]:
        f[2 * at(x)] -= w
    for x, c in frame["couples"]:
        # A jump of the moment upward is a clockwise couple.
        f[2 * at(x) + 1] -= c / 1000.0
    held = [2 * at(s["x_mm"]) for s in frame["supports"]]
    free = [d for d in range(2 * n) if d not in held]
    matrix = scipy.sparse.csr_matrix((vals, (rows, cols)), shape=(2 * n, 2 * n))
    # Short elements beside long ones: the residual in extended precision mends what doubles lose.
    u = np.zeros(2 * n, dtype=np.longdouble)
    dense = stiff[np.ix_(free, free)]
    solve = scipy.sparse.linalg.factorized(matrix[free][:, free].tocsc())
    for _ in range(6):
        left = f[free] - dense @ u[free]
        u[free] += solve(left.astype(float))
    out = []
    for x in probes:
        e = at(x)
        k, fe, dofs = ends[e]
        r = k @ u[dofs] - fe
        # Front end of the element behind: upward force on it is the shear, its couple the moment.
        out.append((float(r[0]), float(-r[1]) * 1000.0))
    return out


def reactions(frame):
    """Least work among the reactions that balance (numpy)."""
    x = np.array([s["x_mm"] for s in frame["supports"]]) / 1000.0
    k = np.array([s["rate"] for s in frame["supports"]])
    w = np.array([s["weighed_n"] for s in frame["supports"]])
    force = sum(p for _, p in frame["points"]) + sum(s for _, _, s in frame["spreads"])
    moment = sum(p * a for a, p in frame["points"])
    moment += sum(s * (a + b) / 2 for a, b, s in frame["spreads"])
    moment += sum(c for _, c in frame["couples"])
    balance = np.vstack([np.ones_like(x), x])
    scaled = balance * np.sqrt(k)
    start = np.linalg.lstsq(scaled, np.array([force, moment / 1000.0]) - balance @ w, rcond=None)[0]
    _, _, v = np.linalg.svd(scaled)
    null = v[2:].T
    if null.size:
        start = start + null @ np.linalg.lstsq(null, -start, rcond=None)[0]
    return w + np.sqrt(k) * start


def on_grid(frame, pushes, probes):
    """Shear and moment at the probes by integrating the load twice on a fine grid."""
    half = 0.005
    knots = set(probes)
    boxes = [(a, b, w / (b - a)) for a, b, w in frame["spreads"]]
    points = [(x, w) for x, w in frame["points"]] + [(x, -r) for x, r in pushes]
    boxes += [(x - half, x + half, w / (2 * half)) for x, w in points]
    for a, b, _ in boxes:
        knots |= {a, b}
    for x, _ in frame["couples"]:
        knots |= {x - 1.0, x}
    knots = np.array(sorted(knots))
    shear, moment, found = 0.0, 0.0, {}
    couples = sorted(frame["couples"])
    for left, right in zip(knots[:-1], knots[1:]):
        middle = (left + right) / 2
        q = sum(d for a, b, d in boxes if a <= middle <= b)
        grid = np.linspace(left, right, 33)
        v = shear - cumulative_trapezoid(np.full_like(grid, q), grid, initial=0.0)
        m = moment + scipy.integrate.cumulative_simpson(v, x=grid, initial=0.0)
        found[left] = (shear, moment)
        shear, moment = float(v[-1]), float(m[-1])
        for x, c in couples:
            if left < x <= right:
                moment += c
    return [found[x] for x in probes]


def make(rng, number):
    kind = "two" if number % 2 == 0 else "springs"
    count = 2 if kind == "two" else rng.choice([3, 3, 4])
    x, supports = 0.0, []
    for _ in range(count):
        supports.append({
            "x_mm": x,
            "rate": round(rng.uniform(100, 1500), 1),
            "weighed_n": round(rng.uniform(0, 60000), 0) if kind == "springs" else 0.0,
            "mounts_mm": [],
        })
        x += round(rng.uniform(1200, 4500), 1)
    if kind == "springs":
        for s in supports:
            s["mounts_mm"] = rng.choice([[], [-560.0, 540.0], [-510.0, 365.0]])
    end = supports[-1]["x_mm"]
    place = lambda: round(rng.uniform(-1200, end + 2500), 1)
    frame = {"kind": kind, "supports": supports}
    frame["points"] = [[place(), round(rng.uniform(-3000, 90000), 1)] for _ in range(rng.randint(1, 14))]
    frame["spreads"] = []
    for _ in range(rng.randint(0, 6)):
        a = place()
        frame["spreads"].append([a, round(a + rng.uniform(200, 5000), 1), round(rng.uniform(-2000, 80000), 1)])
    frame["couples"] = [[place(), round(rng.uniform(-2e7, 2e7), 0)] for _ in range(rng.randint(0, 2))]
    every = [s["x_mm"] + m for s in supports for m in (s["mounts_mm"] or [0.0])]
    every += [p for p, _ in frame["points"]] + [p for p, _ in frame["couples"]]
    every += [p for a, b, _ in frame["spreads"] for p in (a, b)]
    low, high = min(every), max(every)
    probes = []
    while len(probes) < 12:
        p = round(rng.uniform(low + 5, high - 5), 2)
        if all(abs(p - e) > 0.5 for e in every) and p not in probes:
            probes.append(p)
    if kind == "two":
        values = by_elements(frame, probes)
    else:
        pushes = []
        for s, r in zip(supports, reactions(frame)):
            if s["mounts_mm"]:
                a, b = s["mounts_mm"]
                pair = np.linalg.solve(np.array([[1.0, 1.0], [a, b]]), np.array([r, 0.0]))
                pushes += [(s["x_mm"] + a, float(pair[0])), (s["x_mm"] + b, float(pair[1]))]
            else:
                pushes.append((s["x_mm"], float(r)))
        values = on_grid(frame, pushes, probes)
    frame["probes"] = [[p, round(v, 4), round(m, 1)] for p, (v, m) in zip(probes, values)]
    return frame


def main():
    rng = random.Random(SEED)
    frames = [make(rng, n) for n in range(FRAMES)]
    note = "N, mm, N mm; down and sagging positive; probes are [x, shear, moment]"
    text = {
        "library": f"numpy {np.__version__}, scipy {scipy.__version__}",
        "script": "tests/generators/frames.py",
        "note": note,
        "frames": frames,
    }
    lines = json.dumps(text, indent=0).replace("\n", "")
    lines = lines.replace('{"kind"', '\n{"kind"')
    OUT.write_text(lines + "\n")
    print(len(frames), "frames")


main()
