#!/usr/bin/env python3
"""Makes tests/published/energy/drives.json: the energy of trucks on roads and cycles by another road.

The planner steps through time at a quarter of a second, with forces at the middle of each step. This
script knows no step. A drive is a chain of stretches on each of which the truck does one thing (keeps to
the speed that is wanted, pulls with all that it has, coasts while a gear is shifted, stands); within a
stretch the differential equations of place, speed, charge, short-time budgets, source and every energy are
integrated by scipy's adaptive Runge-Kutta pair, and a stretch ends where an event is found by root search:
the wanted speed is met, power is short, a gear is wanted, a knot of the cycle, a braking point, a stop.
Written from the definitions, not from the planner's loop:

* forces: 40 CFR 1036.545(f), air of ISO 2533 at sea level;
* motor: constant torque up to the speed where peak torque and peak power meet, constant power above; losses
  55 % with power, 28 % with torque squared, 12 % with speed up to that speed, 5 % with speed, of the loss at
  the rated point; inverter 0.98; kept axle 0.955 each way; rotor 0.4 g m2 for each newton metre;
* brakes: the motor takes what it, the packs and the grip can; it fades out from 4 to 2 m/s; never beyond the
  torque at which it recovers most;
* packs: open-circuit voltage behind one resistance; heat is R I2, counted as such and not as a remainder;
* short-time power: 30 s at full peak, spent with torque squared (motor) or with power (pack) above the
  lasting rating, the last tenth fades;
* source: parabola of fuel power through idle, half and full; it follows the bus power averaged over 120 s
  and brings missing charge back within half an hour; warm-up, ramp, least load, five minutes at least;
* driver: 0.8 m/s2 at most on a road, brakes at 0.6 m/s2 for what comes; on a cycle as hard as it asks;
* gears: up when the next one pulls what is wanted with a tenth to spare and turns at more than a quarter of
  the highest speed, down when it does not pull and the lower one would, or below 15 %; 0.6 s without pull,
  4 s between shifts; a rotor that slows down loses its energy, one that speeds up takes it from the packs.

    pip install numpy scipy
    python3 tests/generators/drives.py [TRUCK[/ROUTE] ...]      (some minutes; without names all drives)
"""

import bisect
import json
import math
import pathlib
import sys
import tomllib

import numpy as np
import scipy
from scipy.integrate import solve_ivp

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
OUT = HERE.parent / "published" / "energy" / "drives.json"
G = 9.80665
GAP_S, REST_S, BUDGET_S, AVERAGE_S, LEAST_RUN_S = 0.6, 4.0, 30.0, 120.0, 300.0
HURRY, BRAKE = 0.8, 0.6
FAR = 1e9

# What is integrated, by name.
NAMES = (
    "x v soc motor_budget pack_budget source average "
    "air rolling climb motion drive_loss axle_loss accessories pack_heat brakes "
    "cells source_out fuel wheel_out wheel_back"
).split()
I = {name: i for i, name in enumerate(NAMES)}
TOLERANCE = np.array([1e-4, 1e-7, 1e-10, 1e-7, 1e-7, 1e-2, 1e-1] + [10.0] * (len(NAMES) - 7))


class Curve:
    """Straight between points; level outside."""

    def __init__(self, points):
        points = list(points)
        self.x = [float(p[0]) for p in points]
        self.y = [float(p[1]) for p in points]

    def __call__(self, x):
        k = bisect.bisect_right(self.x, x)
        if k == 0:
            return self.y[0]
        if k == len(self.x):
            return self.y[-1]
        a, b = self.x[k - 1], self.x[k]
        return self.y[k - 1] + (self.y[k] - self.y[k - 1]) * (x - a) / (b - a)


class Truck:
    """A truck's data as a part's sheet gives them, and what follows."""

    def __init__(self, data, cells, air_c):
        self.d = data
        self.mass = data["mass_kg"]
        self.density = 101_325.0 / (287.053 * (air_c + 273.15))
        m = data["motor"]
        self.n = m["count"]
        self.r = data["radius_m"]
        self.ratios = sorted((x * m.get("after", 1.0) for x in m["ratios"]), reverse=True)
        self.eta = 0.955 if m["kept_axle"] else 1.0
        self.cont, self.peak = m["continuous_kw"] * 1e3, m["peak_kw"] * 1e3
        self.peak_nm = m["peak_nm"]
        self.top = m["max_rpm"] * math.pi / 30.0
        self.base = min(self.peak / self.peak_nm, self.top)
        self.cont_nm = self.cont / self.base
        rated = self.cont * (1.0 / (m["efficiency"] * 0.98) - 1.0)
        self.k_power = 0.55 * rated / self.cont
        self.k_copper = 0.28 * rated / self.cont_nm**2
        self.k_iron, self.k_drag = 0.12 * rated, 0.05 * rated
        self.rotor = 4e-4 * self.peak_nm
        self.grip = data["driven_kg"] * G * data["grip"]
        p = data["pack"]
        c = cells[p["cell"]]
        self.series = round(p["nominal_v"] / c["nominal_v"])
        self.ocv = Curve(zip(np.linspace(0, 1, 21), c["open_v"]))
        mean = float(np.trapezoid(c["open_v"], dx=0.05))
        self.coulomb = p["energy_kwh"] * 3.6e6 / (self.series * mean)
        self.ohm_ah = c["ohm_ah"]
        self.cell = c
        self.p = {k: v * 1e3 if k.endswith("_kw") else v for k, v in p.items() if k != "cell"}
        self.energy = p["energy_kwh"] * 3.6e6
        self.accessories = data["accessories_w"]
        self.s = data.get("source")
        if self.s:
            s = self.s
            fuel_cell = s["fuel"] == "hydrogen"
            self.s_full = s["continuous_kw"] * 1e3
            self.warm_s, self.ramp, least, idle = (40.0, 0.05, 0.1, 0.03) if fuel_cell else (60.0, 0.2, 0.25, 0.12)
            self.ramp_w = self.ramp * self.s_full
            self.shed_w = 4.0 * self.ramp_w if fuel_cell else FAR
            self.least_w = least * self.s_full
            full, half = self.s_full / s["efficiency"], 0.5 * self.s_full / s["efficiency_half"]
            # Fuel power by Lagrange's polynomial through no load, half and full load.
            self.fuel = np.poly1d(np.polyfit([0.0, 0.5, 1.0], [idle * full, half, full], 2))

    def inertia(self, gear):
        return self.mass + self.d["rotating_kg"] + self.n * self.rotor * (self.ratios[gear] / self.r) ** 2

    def turns(self, v, gear):
        return v * self.ratios[gear] / self.r

    def idle_w(self, w):
        return self.k_iron * min(w / self.base, 1.0) + self.k_drag * w / self.base

    def torque(self, w, share):
        """Most torque at a speed with a share of the short-time budget."""
        if w > self.top:
            return 0.0
        torque = self.cont_nm + share * (self.peak_nm - self.cont_nm)
        power = self.cont + share * (self.peak - self.cont)
        return min(torque, power / w) if w > 0.0 else torque

    def pull(self, v, gear, share, give_w):
        """Most force at the wheels."""
        w = self.turns(v, gear)
        left = max(give_w, 0.0) / self.n - self.idle_w(w)
        slope = w * (1.0 + self.k_power) if left >= 0.0 else w * (1.0 - self.k_power)
        under = slope * slope + 4.0 * self.k_copper * left
        by_bus = (-slope + math.sqrt(under)) / (2.0 * self.k_copper) if under >= 0.0 else -1.0
        torque = max(min(self.torque(w, share), by_bus), 0.0)
        return min(self.n * torque * self.ratios[gear] * self.eta / self.r, self.grip)

    def retard(self, v, gear, share, take_w):
        """Most braking by the motor, a negative force at the wheels."""
        w = self.turns(v, gear)
        fade = min(max((v - 2.0) / 2.0, 0.0), 1.0)
        slope = w * (1.0 - self.k_power)
        best = -slope / (2.0 * self.k_copper)
        recovers = -self.k_copper * best * best  # power at the best torque, without what turning costs
        wanted = -max(take_w, 0.0) / self.n - self.idle_w(w)
        if wanted <= recovers:
            torque = best
        else:
            torque = best + math.sqrt((wanted - recovers) / self.k_copper)
        torque = min(max(torque, -self.torque(w, share) * fade), 0.0)
        return max(self.n * torque * self.ratios[gear] / self.eta / self.r, -self.grip)

    def electric(self, force, v, gear):
        """Shaft power of the motors, bus power, torque of one motor."""
        each = force * self.r / (self.ratios[gear] * self.n)
        torque = each / self.eta if force >= 0.0 else each * self.eta
        w = self.turns(v, gear)
        loss = self.k_power * abs(torque * w) + self.k_copper * torque * torque + self.idle_w(w)
        return self.n * torque * w, self.n * (torque * w + loss), torque

    def resistance(self, v, grade, height):
        weight, hyp = self.mass * G, math.hypot(1.0, grade)
        # Pressure of the standard atmosphere, ISO 2533, at one temperature.
        thin = (1.0 - 2.255_77e-5 * height) ** 5.255_88
        return (
            0.5 * self.density * thin * self.d["drag_area_m2"] * v * v,
            weight * self.d["rolling"] / hyp,
            weight * grade / hyp,
        )

    def ohm(self, soc):
        return self.series * self.ohm_ah * (2.0 - min(max(soc, 0.0), 0.2) / 0.2) / (self.coulomb / 3600.0)

    def most_out(self, soc, budget):
        p, u, r = self.p, self.series * self.ocv(soc), self.ohm(soc)
        rated = p["continuous_kw"] + (p["peak_kw"] - p["continuous_kw"]) * min(budget / 0.1, 1.0)
        least = self.series * self.cell["least_v"]
        fade = min(max((soc - p["soc_low"]) / 0.02, 0.0), 1.0)
        return min(rated * fade, max(u - least, 0.0) / r * least, u * u / (4.0 * r))

    def most_in(self, soc):
        p, u, r = self.p, self.series * self.ocv(soc), self.ohm(soc)
        most = self.series * self.cell["most_v"]
        fade = min(max((p["soc_high"] - soc) / 0.02, 0.0), 1.0)
        return min(p["charge_kw"] * fade, max(most - u, 0.0) / r * most)


class Cycle:
    """Speed over time, one value a second."""

    hurry = FAR

    def __init__(self, speeds):
        self.speeds = speeds
        self.at = 0

    def begin(self):
        return self.at + 1 < len(self.speeds)

    def advance(self):
        self.at += 1

    def still(self):
        return self.speeds[self.at] == 0.0 and self.speeds[self.at + 1] == 0.0

    def end_s(self):
        return float(self.at + 1)

    def wanted(self, t, x):
        return self.speeds[self.at] + self.slope(x) * (t - self.at)

    def slope(self, _x):
        return self.speeds[self.at + 1] - self.speeds[self.at]

    def end_x(self):
        return None


class Road:
    """Speed over distance, cut into pieces of one speed and of braking for what comes, with stops."""

    hurry = HURRY

    def __init__(self, data):
        stops = [tuple(s) for s in data.get("stops", [])]
        targets = [tuple(t) for t in data["targets"]]
        places = sorted({t[0] for t in targets} | {s[0] for s in stops} | {data["length_m"]})
        speed = lambda x: [u for a, u in targets if a <= x][-1]
        halts = dict(stops)
        here = []
        for i, x in enumerate(places):
            before = speed(places[i - 1]) if i else FAR
            here.append(0.0 if x in halts else min(speed(x), before))
        for i in range(len(places) - 2, -1, -1):
            here[i] = min(here[i], math.sqrt(here[i + 1] ** 2 + 2 * BRAKE * (places[i + 1] - places[i])))
        # (from, to, speed of the level part or None, speed at the end, dwell at the end)
        self.pieces = []
        for i, (a, b) in enumerate(zip(places, places[1:])):
            u = speed(a)
            onset = b - (u * u - here[i + 1] ** 2) / (2 * BRAKE)
            if onset > a:
                self.pieces.append((a, min(onset, b), u, u, None))
            if onset < b:
                self.pieces.append((max(onset, a), b, None, here[i + 1], None))
            if b in halts:
                self.pieces[-1] = self.pieces[-1][:4] + (halts[b],)
        self.at = 0

    def begin(self):
        return self.at < len(self.pieces)

    def advance(self):
        self.at += 1

    def still(self):
        return False

    def end_s(self):
        return None

    def end_x(self):
        return self.pieces[self.at][1]

    def wanted(self, _t, x):
        _, b, level, end, _ = self.pieces[self.at]
        if level is not None:
            return level
        return math.sqrt(max(end * end + 2 * BRAKE * (b - x), 0.0))

    def slope(self, _x):
        return 0.0 if self.pieces[self.at][2] is not None else -BRAKE

    def dwell(self):
        return self.pieces[self.at][4]


class Drive:
    def __init__(self, truck, way, grade):
        self.k, self.way, self.grade = truck, way, grade
        # Heights above the start: the grades added up, at a few metres' spacing.
        places = np.arange(0.0, grade.x[-1] + 1.0, 2.0) if len(grade.x) > 1 else np.array([0.0])
        grades = np.array([grade(x) for x in places])
        steps = np.diff(places) * 0.5 * (grades[1:] + grades[:-1])
        self.height = Curve(zip(places, np.concatenate([[0.0], np.cumsum(steps)])))
        self.y = np.zeros(len(NAMES))
        self.y[I["soc"]] = truck.d["soc"]
        self.y[I["motor_budget"]] = self.y[I["pack_budget"]] = 1.0
        self.t, self.gear = 0.0, 0
        self.shift_until, self.free_from, self.spin_w = -1.0, -1.0, 0.0
        self.on, self.on_since = False, 0.0
        self.shifts, self.shift_loss, self.spin_up = 0, 0.0, 0.0
        self.behind = False
        self.asked_for, self.answer = None, None

    def moment(self, t, y, standing):
        """The same moment is asked for by every event of a step."""
        key = (t, id(y), y[0], y[1], self.behind, self.gear, standing)
        if key != self.asked_for:
            self.asked_for, self.answer = key, self.work_out(t, y, standing)
        return self.answer

    def work_out(self, t, y, standing):
        """Everything at one moment: what is wanted, what can be had, where the power goes."""
        k, gear = self.k, self.gear
        v, soc = max(y[I["v"]], 0.0), y[I["soc"]]
        shifting = t < self.shift_until - 1e-9
        most_in = k.most_in(soc)
        source = y[I["source"]] if self.on else 0.0
        give = k.most_out(soc, y[I["pack_budget"]]) + source - k.accessories
        share = min(max(y[I["motor_budget"]], 0.0) / 0.1, 1.0)
        air, rolling, climb = k.resistance(v, self.grade(y[I["x"]]), self.height(y[I["x"]]))
        against = air + rolling + climb
        inertia = k.inertia(gear)
        asked = self.way.hurry if self.behind else self.way.slope(y[I["x"]])
        pull = 0.0 if shifting else k.pull(v, gear, share, give)
        out = {"share": share, "give": give, "inertia": inertia, "pull": pull, "v": v}
        out["need"] = FAR if asked >= FAR else inertia * asked + against
        out["spare"] = pull - out["need"]
        if standing:
            a = force = friction = shaft = bus = torque = 0.0
            air = rolling = climb = 0.0
        else:
            a = min(asked, (pull - against) / inertia)
            force = inertia * a + against
            motor = 0.0 if shifting else max(force, k.retard(v, gear, share, most_in + k.accessories))
            friction, force = force - motor, motor
            shaft, bus, torque = k.electric(force, v, gear)
        allowed = bus + k.accessories + self.spin_w * shifting + most_in
        fed = min(source, max(allowed, 0.0))
        pack = bus + k.accessories + self.spin_w * shifting - fed
        u, r = k.series * k.ocv(soc), k.ohm(soc)
        amps = 2.0 * pack / (u + math.sqrt(max(u * u - 4.0 * r * pack, 0.0)))
        out.update(a=a, bus=bus, fed=fed, pack=pack, torque=torque)
        rate = np.zeros(len(NAMES))
        rate[I["x"]], rate[I["v"]] = v, a
        rate[I["soc"]] = -amps / k.coulomb
        w = k.turns(v, gear)
        lasting = min(k.cont_nm, k.cont / w) if w > 0.0 else k.cont_nm
        peak = max(k.torque(w, 1.0), lasting * 1.0001)
        heat = (torque**2 - lasting**2) / (peak**2 - lasting**2)
        rate[I["motor_budget"]] = self.spend(y[I["motor_budget"]], heat)
        span = k.p["peak_kw"] - k.p["continuous_kw"]
        rate[I["pack_budget"]] = self.spend(y[I["pack_budget"]], (pack - k.p["continuous_kw"]) / span)
        rate[I["average"]] = (bus + k.accessories - y[I["average"]]) / AVERAGE_S
        if k.s and self.on:
            most = k.s_full * min((t - self.on_since) / k.warm_s, 1.0)
            least = k.least_w * min((t - self.on_since) / k.warm_s, 1.0)
            aim = min(max(self.source_wanted(y), min(least, most)), most)
            quick = 10.0 * (aim - y[I["source"]])
            rate[I["source"]] = min(max(quick, -k.shed_w), k.ramp_w)
            if fed < source:
                rate[I["source"]] = -20.0 * (source - fed)
            rate[I["fuel"]] = k.fuel(min(fed / k.s_full, 1.0))
            rate[I["source_out"]] = fed
        rate[I["air"]], rate[I["rolling"]], rate[I["climb"]] = air * v, rolling * v, climb * v
        rate[I["motion"]] = inertia * a * v
        rate[I["drive_loss"]], rate[I["axle_loss"]] = bus - shaft, shaft - force * v
        rate[I["accessories"]] = k.accessories
        rate[I["pack_heat"]], rate[I["cells"]] = r * amps * amps, u * amps
        rate[I["brakes"]] = -friction * v
        rate[I["wheel_out"]], rate[I["wheel_back"]] = max(force, 0.0) * v, -min(force, 0.0) * v
        out["rate"] = rate
        return out

    @staticmethod
    def spend(budget, heat):
        rate = -min(max(heat, -1.0), 1.0) / BUDGET_S
        full = budget >= 1.0 and rate > 0.0
        return 0.0 if full or (budget <= 0.0 and rate < 0.0) else rate

    def source_wanted(self, y):
        return y[I["average"]] + (self.k.s["hold"] - y[I["soc"]]) * self.k.energy / 1800.0

    def source_guard(self, t, y):
        """Crosses upward when the source is to be started or stopped."""
        k = self.k
        wanted = self.source_wanted(y)
        if self.on:
            return min((t - self.on_since - LEAST_RUN_S) * 1e3, 0.5 * k.least_w - wanted)
        return min(wanted - k.least_w, (k.s["hold"] + 0.05 - y[I["soc"]]) * 1e6)

    def up_guard(self, t, y):
        if self.gear + 1 >= len(self.k.ratios):
            return -1.0
        m, k, up = self.moment(t, y, False), self.k, self.gear + 1
        fast = k.turns(m["v"], self.gear) / k.top - 0.92
        early = min(
            k.turns(m["v"], up) / k.top - 0.25,
            (k.pull(m["v"], up, m["share"], m["give"]) - 1.1 * max(m["need"], 0.0)) / 1e4,
        )
        return max(fast, early)

    def down_guard(self, t, y):
        if self.gear == 0:
            return -1.0
        m, k, down = self.moment(t, y, False), self.k, self.gear - 1
        now, lower = (k.pull(m["v"], g, m["share"], m["give"]) for g in (self.gear, down))
        short = min((m["need"] - now) / 1e4, (lower - 1.02 * now) / 1e4)
        slow = 0.15 - k.turns(m["v"], self.gear) / k.top
        return min(0.85 - k.turns(m["v"], down) / k.top, max(short, slow))

    def shift(self, by):
        k, v = self.k, max(self.y[I["v"]], 0.0)
        change = 0.5 * (k.inertia(self.gear + by) - k.inertia(self.gear)) * v * v
        self.spin_w = max(change, 0.0) / GAP_S
        self.spin_up += max(change, 0.0)
        self.shift_loss += max(-change, 0.0)
        self.y[I["motion"]] += change
        self.gear += by
        self.shifts += 1
        self.shift_until, self.free_from = self.t + GAP_S, self.t + REST_S

    def gap(self, t, y):
        return y[I["v"]] - self.way.wanted(t, y[I["x"]])

    def stretch(self, until, standing):
        """Integrates to the first event; gives its name or None when the time is up."""
        self.asked_for = None
        if not standing and not self.behind:
            # A shift that has just begun leaves no pull, without any crossing.
            self.behind = self.moment(self.t, self.y, False)["spare"] < 0.0
        events = []
        free = self.t >= self.free_from - 1e-9 and not standing and len(self.k.ratios) > 1

        def add(name, f, direction):
            f.terminal, f.direction, f.label = True, direction, name
            events.append(f)

        if free:
            for name, guard, by in (("up", self.up_guard, 1), ("down", self.down_guard, -1)):
                if guard(self.t, self.y) > 1e-12:
                    self.shift(by)
                    return "shift"
                add(name, lambda t, y, g=guard: g(t, y), 1)
        if self.k.s:
            if self.source_guard(self.t, self.y) > 1e-9:
                return "source"
            add("source", lambda t, y: self.source_guard(t, y), 1)
        if not standing:
            if self.behind:
                add("met", lambda t, y: self.gap(t, y), 1)
            else:
                add("short", lambda t, y: self.moment(t, y, False)["spare"] / 1e4, -1)
            if self.way.end_x() is not None:
                add("place", lambda t, y: y[I["x"]] - self.way.end_x(), 1)
                add("halt", lambda t, y: y[I["v"]] - 1e-3, -1)
        end = min(until, *(s for s in (self.shift_until, self.free_from) if s > self.t + 1e-9), self.t + 60.0)
        result = solve_ivp(
            lambda t, y: self.moment(t, y, standing)["rate"],
            (self.t, end),
            self.y,
            method="RK45",
            rtol=1e-7,
            atol=TOLERANCE,
            max_step=1.0,
            events=events,
        )
        if not result.success:
            sys.exit(result.message)
        self.y, self.t = result.y[:, -1].copy(), float(result.t[-1])
        for hits, event in zip(result.t_events, events):
            if len(hits):
                return event.label
        return None

    def after(self, event):
        """What an event changes; true when the piece of the way is at its end."""
        if event == "up":
            self.shift(1)
        elif event == "down":
            self.shift(-1)
        elif event == "source":
            self.on = not self.on
            self.on_since = self.t
            if not self.on:
                self.y[I["source"]] = 0.0
        elif event == "met":
            self.behind = False
            self.y[I["v"]] = self.way.wanted(self.t, self.y[I["x"]])
        elif event == "short":
            self.behind = True
        return event in ("place", "halt")

    def settle(self):
        """At the start of a piece: behind what is wanted, or not."""
        gap = self.gap(self.t, self.y)
        self.behind = gap < -1e-6
        if not self.behind:
            self.y[I["v"]] = self.way.wanted(self.t, self.y[I["x"]])
            self.behind = self.moment(self.t, self.y, False)["spare"] < 0.0

    def stand(self, seconds):
        until = self.t + seconds
        self.behind = False
        while self.t < until - 1e-9:
            self.after(self.stretch(until, True))

    def go(self):
        way = self.way
        while way.begin():
            if way.end_s() is not None and way.still() and self.y[I["v"]] < 1e-6:
                self.y[I["v"]] = 0.0
                self.stand(way.end_s() - self.t)
                way.advance()
                continue
            self.settle()
            until = way.end_s() if way.end_s() is not None else math.inf
            while self.t < until - 1e-9:
                event = self.stretch(until, False)
                if self.after(event):
                    break
            if way.end_x() is not None:
                self.y[I["x"]] = way.end_x()
                if way.dwell() is not None:
                    # What is left of a millimetre a second is let go.
                    self.y[I["v"]] = 0.0
                    self.stand(way.dwell())
            way.advance()
        out = {n: float(self.y[I[n]]) for n in NAMES[7:]}
        out |= {"shift_loss": float(self.shift_loss), "spin_up": float(self.spin_up)}
        out |= {"time_s": self.t, "distance_m": float(self.y[I["x"]]), "shifts": self.shifts}
        out |= {"soc_end": float(self.y[I["soc"]]), "speed_end": float(self.y[I["v"]])}
        return out


def table(name):
    lines = (ROOT / "src" / "route" / "shipped" / f"{name}.csv").read_text().splitlines()
    rows = [l.split(",") for l in lines if l and not l.startswith("#")][1:]
    return [(float(a), float(b)) for a, b in rows]


def main():
    data = tomllib.loads((HERE.parent / "cases" / "drives.toml").read_text())
    only = sys.argv[1:]
    drives = []
    for truck_id, truck in data["truck"].items():
        for route_id, route in data["route"].items():
            if only and not {truck_id, truck_id + "/" + route_id} & set(only):
                continue
            if "trace" in route:
                way = Cycle([mph * 1609.344 / 3600.0 for _, mph in table(route["trace"])])
                grade = Curve([(0.0, 0.0)])
            else:
                way = Road(route)
                points = (
                    [(x, g / 100.0) for x, g in table(route["grades"])] if "grades" in route else route["profile"]
                )
                grade = Curve(points)
            drive = Drive(Truck(truck, data["cell"], data["air_c"]), way, grade)
            out = drive.go()
            came = out["cells"] + out["source_out"]
            went = sum(
                out[n]
                for n in "air rolling climb motion drive_loss axle_loss accessories pack_heat brakes shift_loss".split()
            )
            out["left_over"] = float(came - went) / (out["wheel_out"] + out["accessories"])
            print(truck_id, route_id, {k: round(v, 6) for k, v in out.items()}, flush=True)
            drives.append({"truck": truck_id, "route": route_id} | {k: float(f"{v:.9g}") for k, v in out.items()})
    if only:
        # A few drives anew: the others stay as they were.
        before = json.loads(OUT.read_text())["drives"]
        anew = {(d["truck"], d["route"]): d for d in drives}
        drives = [anew.get((d["truck"], d["route"]), d) for d in before]
    head = {
        "made_by": "tests/generators/drives.py",
        "numpy": np.__version__,
        "scipy": scipy.__version__,
        "python": sys.version.split()[0],
        "unit": "joule unless named",
        "drives": drives,
    }
    OUT.write_text(json.dumps(head, indent=1) + "\n")


if __name__ == "__main__":
    main()
