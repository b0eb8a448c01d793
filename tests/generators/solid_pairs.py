"""Makes tests/published/solid_pairs.csv: how far apart, or how deep in each other, are pairs of
boxes and cylinders, worked out by roads that share nothing with the program.

    pip install python-fcl numpy scipy
    python tests/generators/solid_pairs.py > tests/published/solid_pairs.csv

Two roads stand side by side in the file.

1. FCL, the Flexible Collision Library (python-fcl), asked for distance and collision. Its iterative
   solver stops at a tolerance of its own that the Python binding cannot change. Measured here:
   the file's last header lines say by how much its distances miss the certified ones.
   Its depth for two boxes comes from a separating-axis test and is dependable.
2. The reference proper, which does not rest on any solver being good: a constrained least-squares
   problem (scipy, SLSQP) gives a point in each body, hence an UPPER bound of the distance; the
   direction between those points and each body's farthest point along it give a LOWER bound. Only
   pairs whose two bounds agree are written, so the number is certain however it was found.
   Depth: the least, over all directions n, of the overlap along n. For boxes the least over the
   face normals and edge products is exact (separating axes). For cylinders: 20,000 directions
   over the sphere, the best twelve refined by Nelder-Mead. This is an upper bound that a better
   search could still lower; a comparison may therefore find a smaller depth, never a larger one.

Lengths in mm. A body is a kind and seven numbers:
  block     min x y z, max x y z, yaw about its own upright middle axis (rad)
  cylinder  from x y z, to x y z, radius
"""
import itertools
import sys
from importlib.metadata import version

import fcl
import numpy as np
from scipy.optimize import minimize

RNG = np.random.default_rng(20240611)
PAIRS_PER_KIND = 220
KINDS = ["block block", "block yawed", "yawed yawed", "block cylinder", "yawed cylinder",
         "cylinder cylinder"]
WORST_BRACKET_MM = 1e-6


class Box:
    def __init__(self, numbers):
        self.numbers = numbers
        low, high, yaw = np.array(numbers[:3]), np.array(numbers[3:6]), numbers[6]
        self.centre, self.half = (low + high) / 2, (high - low) / 2
        c, s = np.cos(yaw), np.sin(yaw)
        self.axes = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1.0]])
        signs = np.array(list(itertools.product([-1, 1], repeat=3)))
        self.corners = self.centre + (signs * self.half) @ self.axes.T
        self.bounds = [(-1, 1)] * 3
        self.round = []

    def name(self):
        return "block"

    def at(self, u):
        return self.centre + self.axes @ (self.half * u)

    def jacobian(self):
        return self.axes * self.half

    def reach(self, n):
        """Farthest along each row of n."""
        return (np.atleast_2d(n) @ self.corners.T).max(axis=1)

    def moved(self, by):
        return Box(rounded(list(np.array(self.numbers[:3]) + by)
                           + list(np.array(self.numbers[3:6]) + by)) + [self.numbers[6]])

    def fcl(self):
        return fcl.CollisionObject(fcl.Box(*(2 * self.half)), fcl.Transform(self.axes, self.centre))


class Rod:
    def __init__(self, numbers):
        self.numbers = numbers
        a, b = np.array(numbers[:3]), np.array(numbers[3:6])
        self.radius, self.centre = numbers[6], (a + b) / 2
        self.length = np.linalg.norm(b - a)
        self.axis = (b - a) / self.length
        helper = np.eye(3)[np.argmin(np.abs(self.axis))]
        e1 = np.cross(self.axis, helper)
        e1 /= np.linalg.norm(e1)
        self.axes = np.column_stack([e1, np.cross(self.axis, e1), self.axis])
        self.bounds = [(-1, 1)] * 3
        self.round = [True]

    def name(self):
        return "cylinder"

    def at(self, u):
        return self.centre + self.jacobian() @ u

    def jacobian(self):
        return self.axes * np.array([self.radius, self.radius, self.length / 2])

    def reach(self, n):
        n = np.atleast_2d(n)
        along = n @ self.axis
        across = np.linalg.norm(n - np.outer(along, self.axis), axis=1)
        return n @ self.centre + np.abs(along) * self.length / 2 + across * self.radius

    def moved(self, by):
        return Rod(rounded(list(np.array(self.numbers[:3]) + by)
                           + list(np.array(self.numbers[3:6]) + by)) + [self.numbers[6]])

    def fcl(self):
        return fcl.CollisionObject(fcl.Cylinder(self.radius, self.length),
                                   fcl.Transform(self.axes, self.centre))


def rounded(values):
    return [round(float(v), 3) for v in values]


def body(kind):
    centre = RNG.uniform([-1500, -900, 200], [1500, 900, 1600])
    if kind in ("block", "yawed"):
        half = np.exp(RNG.uniform(np.log(20), np.log(900), 3))
        yaw = round(float(RNG.uniform(-np.pi, np.pi)), 6) if kind == "yawed" else 0.0
        return Box(rounded(list(centre - half) + list(centre + half)) + [yaw])
    style = RNG.integers(3)
    if style == 0:
        axis = np.eye(3)[RNG.integers(3)]
    else:
        axis = RNG.normal(size=3)
        axis /= np.linalg.norm(axis)
    half = np.exp(RNG.uniform(np.log(20), np.log(900)))
    radius = np.exp(RNG.uniform(np.log(15), np.log(600)))
    return Rod(rounded(list(centre - axis * half) + list(centre + axis * half) + [radius]))


def apart(a, b, n):
    """How far b lies beyond a along each unit row of n."""
    n = np.atleast_2d(n)
    return -b.reach(-n) - a.reach(n)


def nearest(a, b):
    """(upper bound, lower bound, direction) of the distance; upper 0 when they meet."""
    ja, jb = a.jacobian(), b.jacobian()
    both = np.hstack([ja, -jb])
    offset = a.centre - b.centre
    scale = 1000.0

    def value(u):
        d = (offset + both @ u) / scale
        return d @ d

    def slope(u):
        return 2 * both.T @ (offset + both @ u) / scale**2

    discs = []
    for i, which in enumerate((a, b)):
        if which.round:
            k = 3 * i
            discs.append({"type": "ineq", "fun": lambda u, k=k: 1 - u[k]**2 - u[k + 1]**2,
                          "jac": lambda u, k=k: np.array(
                              [-2 * u[j] if j in (k, k + 1) else 0 for j in range(6)])})
    best = (np.inf, -np.inf, None)
    upper, lower = np.inf, -np.inf
    starts = [np.zeros(6)] + [RNG.uniform(-0.5, 0.5, 6) for _ in range(20)]
    for start in starts:
        found = minimize(value, start, jac=slope, bounds=a.bounds + b.bounds, constraints=discs,
                         method="SLSQP", options={"ftol": 1e-18, "maxiter": 500})
        u = np.clip(found.x, -1, 1)
        for i, which in enumerate((a, b)):
            if which.round:  # strictly inside, so that the bound holds
                u[3 * i:3 * i + 2] /= max(1.0, np.hypot(u[3 * i], u[3 * i + 1]))
        gap = b.at(u[3:]) - a.at(u[:3])
        length = np.linalg.norm(gap)
        upper = min(upper, length)
        if length > 1e-4:
            n = gap / length
            sure = apart(a, b, n)[0]
            if sure > lower:
                lower, best = sure, n
        if upper - lower < 1e-8 or upper < 1e-4:
            break
    return upper, lower, best


def sphere(count):
    i = np.arange(count) + 0.5
    polar, turn = np.arccos(1 - 2 * i / count), np.pi * (1 + 5**0.5) * i
    return np.column_stack([np.cos(turn) * np.sin(polar), np.sin(turn) * np.sin(polar),
                            np.cos(polar)])


SPHERE = sphere(20000)


def depth(a, b):
    if not a.round and not b.round:
        axes = [*a.axes.T, *b.axes.T, *(np.cross(p, q) for p in a.axes.T for q in b.axes.T)]
        axes = np.array([n / np.linalg.norm(n) for n in axes if np.linalg.norm(n) > 1e-9])
        return -apart(a, b, np.vstack([axes, -axes])).max()
    special = np.array([*a.axes.T, *b.axes.T])
    directions = np.vstack([SPHERE, special, -special])
    overlap = -apart(a, b, directions)

    def along(angles, frame):
        n = frame @ np.array([angles[0], angles[1], 1.0])
        return -apart(a, b, n / np.linalg.norm(n))[0]

    best = overlap.min()
    for k in np.argsort(overlap)[:12]:
        n = directions[k]
        side = np.cross(n, np.eye(3)[np.argmin(np.abs(n))])
        side /= np.linalg.norm(side)
        frame = np.column_stack([side, np.cross(n, side), n])
        found = minimize(along, [0, 0], args=(frame,), method="Nelder-Mead",
                         options={"xatol": 1e-10, "fatol": 1e-10, "maxiter": 2000,
                                  "initial_simplex": [[0, 0], [0.02, 0], [0, 0.02]]})
        best = min(best, found.fun)
    return best


def by_fcl(a, b):
    x, y = a.fcl(), b.fcl()
    result = fcl.CollisionResult()
    fcl.collide(x, y, fcl.CollisionRequest(num_max_contacts=64, enable_contact=True), result)
    if result.is_collision:
        boxes = not a.round and not b.round
        deep = max(c.penetration_depth for c in result.contacts) if boxes else None
        return True, None, deep
    request = fcl.DistanceRequest(True, False, fcl.GJKSolverType.GST_LIBCCD)
    return False, fcl.distance(x, y, request, fcl.DistanceResult()), None


def main():
    rows, misses, depth_misses, left_out, apart_count = [], [], [], 0, 0
    for kind in KINDS:
        made = 0
        while made < PAIRS_PER_KIND:
            a, b = (body(k) for k in kind.split())
            if made % 5 < 2:  # two in five close together, most of them overlapping
                b = b.moved((a.centre - b.centre) * RNG.uniform(0.6, 1.0))
            upper, lower, n = nearest(a, b)
            if made % 8 == 0 and upper > 1:  # one in eight just apart or just overlapping
                b = b.moved(-n * (upper - RNG.choice([0.05, 0.5, 5.0, -0.05, -0.5, -5.0])))
                upper, lower, n = nearest(a, b)
            meet = upper < 1e-4
            if not meet and (upper - lower > WORST_BRACKET_MM or lower < 1e-2):
                left_out += 1
                continue
            deep = depth(a, b) if meet else None
            if meet and deep < 1e-2:
                left_out += 1
                continue
            hits, fcl_far, fcl_deep = by_fcl(a, b)
            if hits != meet:
                print(f"FCL disagrees whether they meet: {a.numbers} {b.numbers}", file=sys.stderr)
            signed = -deep if meet else (upper + lower) / 2
            if not meet and fcl_far is not None:
                misses.append((abs(fcl_far - signed), abs(fcl_far - signed) / signed, kind))
            if fcl_deep is not None and meet:
                depth_misses.append(abs(fcl_deep - deep))
            show = lambda v: "" if v is None else f"{v:.9f}"
            rows.append(",".join([kind.replace(" ", "-"), a.name(), *map(repr, a.numbers), b.name(),
                                  *map(repr, b.numbers), "1" if hits else "0", show(fcl_far),
                                  show(fcl_deep), show(signed)]))
            apart_count += not meet
            made += 1
    print("# Separation of pairs of convex bodies, mm. Made by tests/generators/solid_pairs.py.")
    print("# " + ", ".join(f"{p} {version(p)}" for p in ("python-fcl", "numpy", "scipy")))
    print("# reference_mm: certified to 1e-6 mm when positive; minus the depth when negative.")
    print("# fcl_*: the same asked of FCL; empty where it does not apply.")
    print(f"# {apart_count} pairs apart, {len(rows) - apart_count} overlapping.")
    print(f"# Left out as not certified or within 0.01 mm of touching: {left_out} pairs.")
    for kind in KINDS:
        of_kind = [m for m in misses if m[2] == kind]
        print(f"# FCL's distance misses the certified one, {kind}: at most "
              f"{max(m[0] for m in of_kind):.1e} mm, {max(m[1] for m in of_kind):.1e} of itself, "
              f"{len(of_kind)} pairs.")
    print(f"# FCL's box depth misses the separating-axis one by at most {max(depth_misses):.1e} mm, "
          f"{len(depth_misses)} pairs.")
    numbers = lambda s: ",".join(f"{s}{i}" for i in range(1, 8))
    print(f"pair,first,{numbers('a')},second,{numbers('b')},fcl_collides,fcl_distance_mm,"
          "fcl_depth_mm,reference_mm")
    print("\n".join(rows))


main()
