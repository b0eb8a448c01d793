#!/usr/bin/env python3
"""Makes tests/published/driveline/second_road.json: driveshafts worked out a second way.

Joint angles. The planner takes vector products of the axes. Here each axis is a rotation matrix applied
to the unit vector rearward, and the angle is the arc cosine of a scalar product.

What is left of the joints. The planner adds squares of angles with their planes (small angles). Here the
universal joints turn: a trunnion is carried round with the driving axis, the other one of each cross is
the unit vector across both that trunnion and the next axis, and yokes of one piece are in line. The
angle of the last axis over one turn of the first, taken to its second derivative by Fourier transform,
gives the largest acceleration; its square root in degrees is the single joint that would do the same.

Critical speed. The planner has a formula with one constant. Here a pinned tube of 24 Euler beam elements
(Hermite cubics, consistent mass) gives the first frequency by scipy's eigh.

    pip install numpy scipy
    python3 tests/generators/shafts.py
"""

import json
import pathlib

import numpy as np
import scipy
from scipy.linalg import eigh

OUT = pathlib.Path(__file__).resolve().parent.parent / "published" / "driveline" / "second_road.json"
SEED = 20260907
LINES = 60
TUBES = 60


def falling(down_deg):
    """Rearward, turned about the axle's direction so that it falls."""
    a = np.radians(down_deg)
    # Right-handed turn about +y (to the right) takes rearward (+x) to -z: it falls.
    turn = np.array([[np.cos(a), 0, np.sin(a)], [0, 1, 0], [-np.sin(a), 0, np.cos(a)]])
    return turn @ np.array([1.0, 0.0, 0.0])


def unit(v):
    return v / np.linalg.norm(v)


def angles(axes):
    return [float(np.degrees(np.arccos(np.clip(a @ b, -1, 1)))) for a, b in zip(axes, axes[1:])]


def left(axes, steps=512):
    """The single joint that shakes as much as all of these, degrees."""
    u = axes[0]
    across = unit(np.cross(u, [0.1, 0.3, 1.0]))
    other = np.cross(u, across)
    v = axes[-1]
    zero = None
    out = []
    for k in range(steps):
        t = 2 * np.pi * k / steps
        trunnion = np.cos(t) * across + np.sin(t) * other
        for axis in axes[1:]:
            trunnion = unit(np.cross(axis, trunnion))
        if zero is None:
            zero = trunnion
            ninety = np.cross(v, zero)
        out.append(np.arctan2(trunnion @ ninety, trunnion @ zero))
    wave = np.unwrap(np.array(out)) - 2 * np.pi * np.arange(steps) / steps
    spectrum = np.fft.fft(wave)
    orders = np.fft.fftfreq(steps, 1 / steps)
    second = np.real(np.fft.ifft(-(orders**2) * spectrum))
    return float(np.degrees(np.sqrt(np.max(np.abs(second)))))


def critical_rpm(outer_mm, inner_mm, length_mm, elements=24):
    e, rho = 207e9, 7850.0
    d, i, l = outer_mm / 1e3, inner_mm / 1e3, length_mm / 1e3
    area = np.pi / 4 * (d**2 - i**2)
    inertia = np.pi / 64 * (d**4 - i**4)
    h = l / elements
    k1 = e * inertia / h**3 * np.array(
        [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
         [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
    m1 = rho * area * h / 420 * np.array(
        [[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h],
         [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]])
    n = 2 * (elements + 1)
    k, m = np.zeros((n, n)), np.zeros((n, n))
    for at in range(elements):
        place = slice(2 * at, 2 * at + 4)
        k[place, place] += k1
        m[place, place] += m1
    free = [at for at in range(n) if at not in (0, n - 2)]
    value = eigh(k[np.ix_(free, free)], m[np.ix_(free, free)], eigvals_only=True, subset_by_index=[0, 0])
    return float(np.sqrt(value[0]) * 30 / np.pi)


def main():
    rng = np.random.default_rng(SEED)
    lines = []
    for number in range(LINES):
        bearings = number % 3
        drive_down, axle_down = (round(float(x), 2) for x in rng.uniform(-3, 6, 2))
        at = np.array([2000.0, rng.uniform(-40, 40), rng.uniform(600, 800)])
        joints = [at]
        for _ in range(bearings + 1):
            step = np.array([rng.uniform(600, 1400), rng.uniform(-60, 60), rng.uniform(-110, 60)])
            at = at + step
            joints.append(at)
        joints = [np.round(p, 1) for p in joints]
        pieces = [unit(b - a) for a, b in zip(joints, joints[1:])]
        axes = [falling(drive_down), *pieces, falling(axle_down)]
        lines.append({
            "drive_down_deg": drive_down,
            "axle_down_deg": axle_down,
            "joints_mm": [[float(c) for c in p] for p in joints],
            "angles_deg": angles(axes),
            "lengths_mm": [float(np.linalg.norm(b - a)) for a, b in zip(joints, joints[1:])],
            "left_deg": left(axes),
        })
    tubes = []
    for _ in range(TUBES):
        outer = round(float(rng.uniform(60, 160)), 1)
        inner = round(outer - 2 * float(rng.uniform(3, 10)), 1)
        length = round(float(rng.uniform(500, 3000)), 0)
        tubes.append({"outer_mm": outer, "inner_mm": inner, "length_mm": length,
                      "critical_rpm": critical_rpm(outer, inner, length)})
    text = json.dumps({"library": f"numpy {np.__version__}, scipy {scipy.__version__}",
                       "lines": lines, "tubes": tubes}, indent=1)
    OUT.write_text(text + "\n")


if __name__ == "__main__":
    main()
