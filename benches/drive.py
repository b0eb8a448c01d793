#!/usr/bin/env python3
"""The planner's time loop in Python, to have something to hold its speed against.

The same fixed steps for the battery truck of tests/cases/drives.toml on the regulation's cruise at 65 mph,
as somebody would write it with numpy arrays and plain functions; run as it is, and compiled by numba. It is
a transcription on purpose (the second road, which is none, is tests/generators/drives.py): its energy must
agree with the bench's to nine digits, else the two do not do the same work.

    pip install numpy numba
    python3 benches/drive.py
"""

import math
import pathlib
import sys
import time
import tomllib

import numba
import numpy as np

ROOT = pathlib.Path(__file__).resolve().parent.parent
G = 9.80665


def between(xs, ys, x):
    k = np.searchsorted(xs, x, side="right")
    if k == 0:
        return ys[0]
    if k == len(xs):
        return ys[-1]
    return ys[k - 1] + (ys[k] - ys[k - 1]) * (x - xs[k - 1]) / (xs[k] - xs[k - 1])


def open_v(c, ocv, soc):
    at = min(max(soc, 0.0), 1.0) * 20.0
    k = min(int(at), 19)
    return c[S_SERIES] * (ocv[k] + (ocv[k + 1] - ocv[k]) * (at - k))


def energy_to(c, ocv, soc):
    at = min(max(soc, 0.0), 1.0) * 20.0
    k = min(int(at), 19)
    whole = 0.0
    for i in range(k):
        whole += 0.5 * (ocv[i] + ocv[i + 1]) / 20.0
    part = at - k
    whole += (ocv[k] + 0.5 * (ocv[k + 1] - ocv[k]) * part) * part / 20.0
    return c[S_COULOMB] * c[S_SERIES] * whole


def ohm(c, soc):
    empty = 2.0 - min(max(soc, 0.0), 0.2) / 0.2
    return c[S_SERIES] * c[S_OHM] * empty / (c[S_COULOMB] / 3600.0)


def amps(c, ocv, power, soc):
    u, r = open_v(c, ocv, soc), ohm(c, soc)
    return (u - math.sqrt(max(u * u - 4.0 * r * power, 0.0))) / (2.0 * r)


def turning(c, w):
    speed = w / c[S_BASE]
    return c[S_RATED] * (0.12 * min(speed, 1.0) + 0.05 * speed)


def most_nm(c, w, peak):
    if w > c[S_TOP]:
        return 0.0
    torque = c[S_CONT_NM] + (c[S_PEAK_NM] - c[S_CONT_NM]) * peak
    power = c[S_CONT] + (c[S_PEAK] - c[S_CONT]) * peak
    return torque if w * torque <= power else power / w


def torque_for(c, bus, w):
    left = bus - turning(c, w)
    share = c[S_RATED] * 0.55 / c[S_CONT]
    slope = w * ((1.0 + share) if left >= 0.0 else (1.0 - share))
    q = c[S_RATED] * 0.28 / (c[S_CONT_NM] * c[S_CONT_NM])
    square = slope * slope + 4.0 * q * left
    if square < 0.0:
        return -slope / (2.0 * q)
    return (math.sqrt(square) - slope) / (2.0 * q)


def pull_n(c, ratio, v, peak, give):
    w = v / c[S_RADIUS] * ratio
    torque = max(min(most_nm(c, w, peak), torque_for(c, max(give, 0.0) / c[S_COUNT], w)), 0.0)
    return min(c[S_COUNT] * torque * ratio / c[S_RADIUS], c[S_GRIP])


def brake_n(c, ratio, v, peak, take):
    w = v / c[S_RADIUS] * ratio
    fade = min(max((v - 2.0) / 2.0, 0.0), 1.0)
    back = torque_for(c, -max(take, 0.0) / c[S_COUNT], w)
    torque = min(max(-most_nm(c, w, peak) * fade, back), 0.0)
    return max(c[S_COUNT] * torque * ratio / c[S_RADIUS], -c[S_GRIP])


def against(c, gx, gy, x, v):
    grade = between(gx, gy, x) if gx[0] <= x < gx[-1] else 0.0
    cosine = 1.0 / math.sqrt(1.0 + grade * grade)
    weight = c[S_MASS] * G
    return weight * c[S_ROLL] * cosine, 0.5 * c[S_AIR] * c[S_AREA] * v * v, weight * grade * cosine


def inertia(c, ratio):
    turns = ratio / c[S_RADIUS]
    return c[S_MASS] + c[S_ROTATING] + c[S_COUNT] * c[S_ROTOR] * turns * turns


def drive(c, ratios, ocv, gx, gy, length, wanted):
    t = x = v = 0.0
    gear, shift_left, since = 0, 0.0, 1e300
    motor_peak = pack_peak = 1.0
    soc = c[S_SOC]
    book = np.zeros(11)
    steps = 0
    while length - x >= 0.05:
        dt = 0.25
        aim = min(wanted, v + 0.8 * dt)
        if v > 0.05 and v * dt > length - x:
            dt = (length - x) / v
        share = min(max(pack_peak / 0.1, 0.0), 1.0)
        u, r = open_v(c, ocv, soc), ohm(c, soc)
        rated = c[S_P_CONT] + (c[S_P_PEAK] - c[S_P_CONT]) * share
        give = rated * min(max((soc - c[S_LOW]) / 0.02, 0.0), 1.0)
        give = min(give, max(u - c[S_LEAST_V], 0.0) / r * c[S_LEAST_V], u * u / (4.0 * r)) - c[S_ACC]
        charge = c[S_P_CHARGE] * min(max((c[S_HIGH] - soc) / 0.02, 0.0), 1.0)
        charge = min(charge, max(c[S_MOST_V] - u, 0.0) / r * c[S_MOST_V])
        peak = min(motor_peak / 0.1, 1.0)

        # Gear.
        middle = 0.5 * (v + aim)
        a, b, s = against(c, gx, gy, x + 0.5 * middle * dt, middle)
        need = inertia(c, ratios[gear]) * (aim - v) / dt + a + b + s
        to = gear
        if since >= 4.0 and len(ratios) > 1:
            turns = v / c[S_RADIUS] / c[S_TOP]
            up, down = gear + 1, max(gear - 1, 0)
            if up < len(ratios) and turns * ratios[gear] > 0.92:
                to = up
            elif (
                up < len(ratios)
                and turns * ratios[up] > 0.25
                and pull_n(c, ratios[up], v, motor_peak, give) > max(need, 0.0) * 1.1
            ):
                to = up
            elif gear > 0 and turns * ratios[down] < 0.85:
                now = pull_n(c, ratios[gear], v, motor_peak, give)
                short = now < need and pull_n(c, ratios[down], v, motor_peak, give) > now * 1.02
                if short or turns * ratios[gear] < 0.15:
                    to = down
        spin = 0.0
        if to != gear:
            change = 0.5 * (inertia(c, ratios[to]) - inertia(c, ratios[gear])) * v * v
            book[9] += change
            if change > 0.0:
                spin = change
            else:
                book[8] -= change
            gear, shift_left, since = to, 0.6, 0.0
        ratio = ratios[gear]
        m = inertia(c, ratio)
        shifting = shift_left > 0.0

        # Speed.
        v1 = aim
        need = m * (v1 - v) / dt + a + b + s
        pull = 0.0 if shifting else pull_n(c, ratio, middle, peak, give)
        at = middle
        if need > pull + 1e-9 * abs(need):
            for _ in range(4):
                at = 0.5 * (v + v1)
                pull = 0.0 if shifting else pull_n(c, ratio, at, peak, give)
                a, b, s = against(c, gx, gy, x + 0.5 * at * dt, at)
                v1 = min(v + dt / m * (pull - a - b - s), aim)
            if v1 < 0.0:
                dt = max(dt * v / (v - v1), 1e-6) if v > 0.0 else dt
                v1 = 0.0
        low = 0.0 if shifting else brake_n(c, ratio, at, peak, charge + c[S_ACC])
        vm = 0.5 * (v + v1)
        a, b, s = against(c, gx, gy, x + 0.5 * vm * dt, vm)
        standing = v <= 0.0 and v1 <= 0.0
        total = 0.0 if standing else m * (v1 - v) / dt + a + b + s
        force = 0.0 if shifting or standing else max(total, low)
        w = vm / c[S_RADIUS] * ratio
        torque = force * c[S_RADIUS] / (ratio * c[S_COUNT])
        loss = 0.0
        bus = 0.0
        if not standing:
            part = torque / c[S_CONT_NM]
            through = abs(torque * w) / c[S_CONT]
            loss = (c[S_RATED] * (0.55 * through + 0.28 * part * part) + turning(c, w)) * c[S_COUNT]
            bus = torque * w * c[S_COUNT] + loss

        # Pack.
        pack = bus + c[S_ACC] + spin / dt
        half = amps(c, ocv, pack, soc) * 0.5 * dt / c[S_COULOMB]
        i = amps(c, ocv, pack, soc - half)
        soc1 = min(max(soc - i * dt / c[S_COULOMB], 0.0), 1.0)
        cells = energy_to(c, ocv, soc) - energy_to(c, ocv, soc1)
        way = vm * dt
        book[0] += cells
        book[1] += cells - pack * dt
        book[2] += loss * dt
        book[3] += (bus - loss) * dt - force * way
        book[4] += 0.0 if standing else a * way
        book[5] += 0.0 if standing else b * way
        book[6] += 0.0 if standing else s * way
        book[7] -= (total - force) * way
        book[9] += 0.5 * m * (v1 * v1 - v * v)
        book[10] += c[S_ACC] * dt

        # Short-time budgets.
        lasting = c[S_CONT_NM] if w * c[S_CONT_NM] <= c[S_CONT] else c[S_CONT] / w
        top = max(most_nm(c, w, 1.0), lasting * 1.0001)
        heat = (torque * torque - lasting * lasting) / (top * top - lasting * lasting)
        motor_peak = min(max(motor_peak - min(max(heat, -1.0), 1.0) * dt / 30.0, 0.0), 1.0)
        over = (pack - c[S_P_CONT]) / max(c[S_P_PEAK] - c[S_P_CONT], 1.0)
        pack_peak = min(max(pack_peak - min(max(over, -1.0), 1.0) * dt / 30.0, 0.0), 1.0)
        t += dt
        x += way
        v = v1
        soc = soc1
        shift_left = max(shift_left - dt, 0.0)
        since += dt
        steps += 1
    return steps, book, soc, t


NAMES = (
    "SERIES COULOMB OHM BASE RATED TOP CONT_NM PEAK_NM CONT PEAK RADIUS COUNT GRIP MASS ROLL AIR AREA ROTATING "
    "ROTOR P_CONT P_PEAK P_CHARGE LOW HIGH LEAST_V MOST_V ACC SOC"
).split()
for index, name in enumerate(NAMES):
    globals()["S_" + name] = index


def case():
    data = tomllib.loads((ROOT / "tests" / "cases" / "drives.toml").read_text())
    t = data["truck"]["battery"]
    m, p = t["motor"], t["pack"]
    cell = data["cell"][p["cell"]]
    ocv = np.array(cell["open_v"])
    series = round(p["nominal_v"] / cell["nominal_v"])
    mean = sum(0.5 * (ocv[i] + ocv[i + 1]) / 20.0 for i in range(20))
    cont, peak = m["continuous_kw"] * 1e3, m["peak_kw"] * 1e3
    top = m["max_rpm"] * math.tau / 60.0
    base = min(peak / m["peak_nm"], top)
    values = dict(
        SERIES=series, COULOMB=p["energy_kwh"] * 3.6e6 / (series * mean), OHM=cell["ohm_ah"], BASE=base,
        RATED=cont * (1.0 / (m["efficiency"] * 0.98) - 1.0), TOP=top, CONT_NM=cont / base, PEAK_NM=m["peak_nm"],
        CONT=cont, PEAK=peak, RADIUS=t["radius_m"], COUNT=m["count"], GRIP=t["driven_kg"] * G * t["grip"],
        MASS=t["mass_kg"], ROLL=t["rolling"], AIR=101325.0 / (287.053 * (data["air_c"] + 273.15)),
        AREA=t["drag_area_m2"], ROTATING=t["rotating_kg"], ROTOR=m["peak_nm"] * 4e-4,
        P_CONT=p["continuous_kw"] * 1e3, P_PEAK=p["peak_kw"] * 1e3, P_CHARGE=p["charge_kw"] * 1e3,
        LOW=p["soc_low"], HIGH=p["soc_high"], LEAST_V=series * cell["least_v"], MOST_V=series * cell["most_v"],
        ACC=t["accessories_w"], SOC=t["soc"],
    )  # fmt: skip
    r = data["route"]["cruise-65"]
    lines = (ROOT / "src" / "route" / "shipped" / "cruise-grade.csv").read_text().splitlines()
    rows = np.array([[float(x) for x in l.split(",")] for l in lines if l[0] not in "#d"])
    constants = np.array([float(values[n]) for n in NAMES])
    return constants, np.array(m["ratios"]), ocv, rows[:, 0], rows[:, 1] / 100.0, r["length_m"], r["targets"][0][1]


def measure(name, function, runs):
    arguments = case()
    function(*arguments)
    best = math.inf
    for _ in range(runs):
        start = time.perf_counter()
        steps, book, _, _ = function(*arguments)
        best = min(best, time.perf_counter() - start)
    print(f"{name}: {steps / best:.0f} steps a second ({steps} steps in {best * 1e3:.3f} ms, best of {runs}; "
          f"{book[0] / 3.6e6:.9f} kWh)", flush=True)  # fmt: skip


if __name__ == "__main__":
    print(f"python {sys.version.split()[0]}, numpy {np.__version__}, numba {numba.__version__}")
    measure("python with numpy", drive, 3)
    for name in "between open_v energy_to ohm amps turning most_nm torque_for pull_n brake_n against inertia drive".split():
        globals()[name] = numba.njit(globals()[name])
    measure("numba", drive, 50)
