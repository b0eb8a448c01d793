#!/usr/bin/env python3
"""Turns followed a second way: python3 tests/generators/turning.py > tests/published/turning/paths.json

The planner integrates headings with fixed Runge-Kutta steps. Here the places of the axles are
integrated themselves: a rear axle can only move along the bar that draws it. scipy's DOP853 with a
relative tolerance of 1e-12, each piece of the track by itself. Stances come from least squares: axles
at a crawl settle where the work of all side slips is least.
"""
import json
import math
import random
import sys

import numpy
import scipy
from scipy.integrate import solve_ivp

STEP, KEPT = 50.0, 12


def track(radius, arc, way):
    """Place and direction of the front axle: around to the left of -x, then straight on."""
    turned = min(way, arc) / radius
    beyond = max(way - arc, 0.0)
    x = -radius * math.sin(turned) - beyond * math.cos(turned)
    y = -radius * (1 - math.cos(turned)) - beyond * math.sin(turned)
    return numpy.array([x, y]), numpy.array([-math.cos(turned), -math.sin(turned)])


def follow(case):
    c, king, long = case["wheelbase_mm"], case["kingpin_x_mm"], case["trailer_mm"]
    radius = case["front_radius_mm"]
    arc = radius * math.radians(case["angle_deg"])
    out = 0.0 if case["angle_deg"] > 359.9 else c + long

    def rate(way, state):
        rear, tail = state[:2], state[2:]
        front, go = track(radius, arc, way)
        bar = (front - rear) / numpy.linalg.norm(front - rear)
        rear_rate = bar * (bar @ go)
        pin_rate = rear_rate + (go - rear_rate) * (c - king) / c
        pin = rear + bar * (c - king)
        pull = (pin - tail) / numpy.linalg.norm(pin - tail)
        return numpy.concatenate([rear_rate, pull * (pull @ pin_rate)])

    state = numpy.array([c, 0.0, king + long, 0.0])
    poses, count = [], 0
    for start, end in [(0.0, arc), (arc, arc + out)]:
        steps = math.ceil((end - start) / STEP)
        ways = [start + (end - start) * i / max(steps, 1) for i in range(steps)]
        kept = [way for i, way in enumerate(ways) if (count + i) % KEPT == 0]
        count += steps
        if steps == 0:
            continue
        found = solve_ivp(rate, (start, end), state, method="DOP853", rtol=1e-12, atol=1e-9,
                          t_eval=kept + [end])
        poses += [(way, column) for way, column in zip(kept, found.y.T)]
        state = found.y[:, -1]
    poses.append((arc + out, state))
    rows = []
    for way, state in poses:
        front, _ = track(radius, arc, way)
        bar = front - state[:2]
        pin = state[:2] + bar * (c - king) / c
        pull = pin - state[2:]
        heading = math.atan2(-bar[1], -bar[0])
        trailer = math.atan2(-pull[1], -pull[0])
        rows.append([way, heading, trailer])
    return rows


def stance(rng):
    count = rng.randint(2, 5)
    places = [0.0]
    for _ in range(count - 1):
        places.append(places[-1] + rng.choice([rng.uniform(1000, 1900), rng.uniform(2500, 6500)]))
    dual = [False] + [rng.random() < 0.6 for _ in places[1:]]
    lock = [rng.uniform(20, 50)] + [0.0] * (count - 1)
    if count > 2 and rng.random() < 0.4:
        lock[1] = rng.uniform(10, lock[0])
    stiff = numpy.sqrt([4.0 if d else 2.0 for d in dual])
    turned = numpy.array([math.tan(math.radians(a)) / math.tan(math.radians(lock[0])) for a in lock])
    matrix = numpy.column_stack([stiff, -stiff * numpy.array(places)])
    (turn, curve), *_ = numpy.linalg.lstsq(matrix, stiff * turned, rcond=None)
    return {"x_mm": places, "dual": dual, "lock_deg": lock,
            "centre_x_mm": turn / curve, "equivalent_mm": 1 / curve}


def main():
    rng = random.Random(20_26)
    paths = []
    for angle in (60.0, 90.0, 180.0, 360.0) * 4:
        wheelbase = rng.uniform(3500, 7000)
        case = {
            "wheelbase_mm": round(wheelbase, 1),
            "kingpin_x_mm": round(wheelbase - rng.uniform(-300, 900), 1),
            "trailer_mm": round(rng.uniform(4000, 11000 if angle < 200 else 8000), 1),
            "angle_deg": angle,
            "front_radius_mm": round(rng.uniform(11500, 16000), 1),
        }
        case["poses"] = follow(case)
        paths.append(case)
    stances = [stance(rng) for _ in range(60)]
    def short(value):
        if isinstance(value, float):
            return round(value, 9)
        if isinstance(value, dict):
            return {key: short(each) for key, each in value.items()}
        return [short(each) for each in value] if isinstance(value, list) else value

    json.dump({"made_with": f"numpy {numpy.__version__}, scipy {scipy.__version__}, "
                            f"Python {sys.version.split()[0]}",
               "paths": short(paths), "stances": short(stances)}, sys.stdout)
    print()


main()
