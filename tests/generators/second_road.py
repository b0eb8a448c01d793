#!/usr/bin/env python3
"""Works every example plan out a second way, from the data files alone, and compares.

Nothing of the program is used but its answer (`axlewright evaluate PLAN --format json`). Loads come
from solving the equilibrium (and, with three supports or more, the springs) as one linear system of
forces and frame displacements; the program uses influence lines. Distances between boxes are the
gaps of their three projections; everything round or turned goes to FCL. Suspension travel is tried
in steps, where the program sweeps a hull; steering angles on a grid that is drawn in about its best
point, where the program has a bound. Each part asks for room on the side along which the gap is widest.
The frame, the turn and the moved chassis stand in `rails_and_turns.py`, laws and places in `places.py`, angles and
ramps in `ends_and_ramps.py`.

Checked: every load case (groups, axles, sides, centre of gravity, sprung mass, kingpin, trailer
axles, gross), payload at each limit, range of the fifth wheel, holes of the trailer, best places, every bridge group, the
three angles of the ends, the trailer on a ramp, every gap that fails and the closest that holds, chassis against chassis where the plan has moved it, shear and moment of both rails in each case,
stress and design factor where they are used most, the turning circle between kerbs and walls, the turn
within the stated radius with its off-tracking and the swing of the tail, ground, width, room behind the cab, zones. Also variants of each plan: wheelbase +400 mm
and -200 mm, fifth wheel at both ends of its slider, lift axles up (in a group of their
own and in that of the driven axle), a load on the tractor itself, tanks empty.

Not covered: groups of axles under another law than the US one or a plan's own in its form (payload and places
are), balance and roll-over, driveshafts (`shafts.py`), paths (`turning.py`), mounts of parts, drives.

Versions when written: Python 3.11, numpy 2.4.6, scipy 1.17.1, python-fcl 0.7.0.11.

    pip install numpy scipy python-fcl
    cargo build && python3 tests/generators/second_road.py [PLAN ...]

Prints one line for each number that differs, with both; exit 1 if there is any.
"""

import copy
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile
import tomllib

import fcl
import numpy as np

import ends_and_ramps
import places
import rails_and_turns

ROOT = pathlib.Path(os.environ.get("AXLEWRIGHT_ROOT", pathlib.Path(__file__).resolve().parents[2]))
PROGRAM = os.environ.get("AXLEWRIGHT", str(ROOT / "target" / "debug" / "axlewright"))
LB, IN = 0.45359237, 25.4
LISTED = 100.0  # mm beyond what is asked for: farther gaps are not listed


def toml(path):
    return tomllib.loads(path.read_text())


CHASSIS, TRAILERS, PARTS = {}, {}, {}
for file in sorted((ROOT / "chassis-templates").glob("*.toml")):
    data = toml(file)
    (TRAILERS if "kingpin_to_axles_mm" in data else CHASSIS)[data["id"]] = data
for file in sorted((ROOT / "parts-catalogue").glob("*.toml")):
    PARTS.update({p["id"]: p for p in toml(file)["part"]})
LAWS = {d["id"]: d for d in map(toml, sorted((ROOT / "src" / "law").glob("*.toml")))}
LEAST_STEERED = 0.2  # of the truck on its steered axle, in each case


def lb(figure):
    return figure["lb"]


def flat(law):
    """A law in the form of the US one (single, tandem, gross, bridge) as plain figures; None for others."""
    if not law or len(law.get("group", [])) != 1 or len(law.get("gross", [])) != 1 or "driven_axle" in law:
        return None
    steps = law["group"][0]["step"]
    single = next((x for x in steps if x["counts_as"] == "single-axle"), None)
    tandem = next(x for x in steps if x["counts_as"] == "tandem")
    out = dict(single_axle_lb=lb(law["single_axle"]), single_within_in=single["to"]["in"] if single else 0,
               tandem_lb=lb(tandem["limit"]), tandem_within_in=tandem["to"]["in"], gross_lb=lb(law["gross"][0]["limit"]),
               allowance_lb=0, allowance_ceiling_lb=math.inf, allowance_raises={"limits": []}, names=[])
    if law.get("allowance"):
        a = law["allowance"][0]
        out.update(allowance_lb=lb(a["adds"]), allowance_ceiling_lb=lb(a["ceiling"]),
                   allowance_raises={"limits": a["raises"]}, names=a["names"] + a.get("possible", []))
    if "bridge" in law:
        out["bridge"] = law["bridge"]
    widths = law.get("tyre_width", {})
    out["lb_per_in"] = {k: widths[k]["lb_per_in"] for k in ("steered", "others") if k in widths}
    return out


# ---- solids: ("box", lo, hi) and ("cyl", end, end, radius) -------------------------------------

def solids_of(shapes):
    out = []
    for shape in shapes:
        if "box" in shape:
            b = shape["box"]
            out.append(("box", np.array(b["from_mm"], float), np.array(b["to_mm"], float)))
        else:
            c = shape["cylinder"]
            out.append(("cyl", np.array(c["from_mm"], float), np.array(c["to_mm"], float),
                        c["diameter_mm"] / 2))
    return out


def bounds(solids):
    lows, highs = [], []
    for s in solids:
        if s[0] == "box":
            lows.append(s[1])
            highs.append(s[2])
        else:
            d = (s[2] - s[1]) / np.linalg.norm(s[2] - s[1])
            reach = s[3] * np.sqrt(np.maximum(0, 1 - d * d))
            lows.append(np.minimum(s[1], s[2]) - reach)
            highs.append(np.maximum(s[1], s[2]) + reach)
    return np.min(lows, 0), np.max(highs, 0)


def moved(solids, by):
    by = np.array(by, float)
    return [(s[0], s[1] + by, s[2] + by, *s[3:]) for s in solids]


def turn_point(p, quarter, about):
    x, y = p[0] - about[0], p[1] - about[1]
    for _ in range(quarter):
        x, y = -y, x  # rear (x) goes to the right (y)
    return np.array([about[0] + x, about[1] + y, p[2]])


def turned(solids, quarter, about):
    out = []
    for s in solids:
        a, b = turn_point(s[1], quarter, about), turn_point(s[2], quarter, about)
        if s[0] == "box":
            a, b = np.minimum(a, b), np.maximum(a, b)
        out.append((s[0], a, b, *s[3:]))
    return out


def bulge(solids):
    """How much larger the program draws what is round while it moves: polygons of 48 sides."""
    return max([s[3] * (1 / math.cos(math.pi / 48) - 1) for s in solids if s[0] == "cyl"], default=0.0)


def yawed_cylinder(s, angle):
    middle = (s[1] + s[2]) / 2
    c, n = math.cos(angle), math.sin(angle)
    m = np.array([[c, -n, 0], [n, c, 0], [0, 0, 1]])
    return ("cyl", middle + m @ (s[1] - middle), middle + m @ (s[2] - middle), s[3])


def fcl_object(s):
    if s[0] == "box":
        size = np.maximum(s[2] - s[1], 1e-6)
        return fcl.CollisionObject(fcl.Box(*size), fcl.Transform(np.eye(3), (s[1] + s[2]) / 2))
    d = s[2] - s[1]
    length = np.linalg.norm(d)
    z = d / length
    x = np.cross(z, [0, 0, 1.0] if abs(z[2]) < 0.9 else [1.0, 0, 0])
    x /= np.linalg.norm(x)
    rotation = np.column_stack([x, np.cross(z, x), z])
    return fcl.CollisionObject(fcl.Cylinder(s[3], length), fcl.Transform(rotation, (s[1] + s[2]) / 2))


def gap(a, b):
    """Signed distance and its direction from a to b; the depth is known for two boxes only."""
    if a[0] == b[0] == "box":
        apart = np.maximum(b[1] - a[2], a[1] - b[2])
        if (apart > 0).any():
            v = np.maximum(apart, 0)
            sign = np.where(b[1] + b[2] > a[1] + a[2], 1, -1)
            return float(np.linalg.norm(v)), v * sign, True
        k = int(np.argmax(apart))
        v = np.zeros(3)
        v[k] = 1 if (b[1] + b[2])[k] > (a[1] + a[2])[k] else -1
        return float(apart[k]), v, True
    oa, ob = fcl_object(a), fcl_object(b)
    if fcl.collide(oa, ob, fcl.CollisionRequest(), fcl.CollisionResult()):
        return -1.0, np.zeros(3), False
    r = fcl.DistanceResult()
    d = fcl.distance(oa, ob, fcl.DistanceRequest(True), r)
    return float(d), np.array(r.nearest_points[1]) - np.array(r.nearest_points[0]), True


def nearest(first, second):
    found = [gap(a, b) for a in first for b in second]
    return min(found, key=lambda g: g[0])


def worst(first, second, asked):
    """Of all pairs of solids the one with the least margin, an overlap before any gap, and what is
    asked there; `asked` takes the direction from the first to the second."""
    found = [(g, asked(g[1])) for g in (gap(a, b) for a in first for b in second)]
    return min(found, key=lambda f: (f[0][0] >= 0, f[0][0] - f[1]))


# ---- the truck ---------------------------------------------------------------------------------

class Truck:
    def __init__(self, plan):
        self.plan = plan
        choice = plan["chassis"]
        self.donor = CHASSIS[choice["template"]] if "template" in choice else choice["inline"]
        self.c = copy.deepcopy(self.donor)
        changes = plan.get("changes", {})
        d = self.donor["dimensions"]
        self.boc = d["bumper_to_back_of_cab_mm"] - d["bumper_to_axle_mm"]
        self.by = changes.get("wheelbase_mm", d["wheelbase_mm"]) - d["wheelbase_mm"]
        tyres = [a["x_mm"] - a["tyres"]["diameter_mm"] / 2 for a in self.donor["axle"]
                 if a["x_mm"] > max(self.boc, 0)]
        first = min(tyres) if tyres else self.boc
        self.splice = changes.get("splice_x_mm", (self.boc + max(first, self.boc)) / 2)
        self.stripped = set(changes.get("stripped", []))
        self.raised = set(changes.get("raised", []))
        self.stretch()
        if "fifth_wheel_ahead_mm" in changes:
            fw = self.c["fifth_wheel"]
            slide = fw["ahead_mm"] - changes["fifth_wheel_ahead_mm"]
            fw["ahead_mm"] -= slide
            for o in self.c["obstacle"]:
                if o["kind"] == "fifth-wheel":
                    self.shift(o["envelope"], slide, always=True)
        self.end = self.c["dimensions"]["wheelbase_mm"] + self.c["dimensions"]["after_frame_mm"]
        load = plan.get("loads", {}).get("trailer")
        self.trailer = copy.deepcopy(TRAILERS[load["id"]]) if load else None
        if load:
            t = self.trailer
            own = t["kingpin_to_axles_mm"]
            new = load.get("kingpin_to_axles_mm", own)
            # Moments about the kingpin: load and body stay, what slides takes its mass along.
            load_at = load.get("load_cg", t["load_cg"]) * own
            on_axles = t["tare_kg"] * (1 - t["tare_on_kingpin"]) * own
            on_axles += t.get("slider", {}).get("moves_kg", 0) * (new - own)
            t["kingpin_to_axles_mm"] = new
            self.pin_empty = t["tare_kg"] - on_axles / new
            self.pin_share = 1 - load_at / new
            self.payload = load["payload_kg"]
        fw = self.c.get("fifth_wheel")
        self.pin_x = self.c["dimensions"]["wheelbase_mm"] - fw["ahead_mm"] if fw else None
        law = plan.get("law", {})
        law = law.get("own") or LAWS.get(law.get("regime"))
        self.law, self.sizes, self.whole_law = flat(law), (law or {}).get("sizes", {}), law
        self.foreign = law is not None and self.law is None
        self.zones = self.make_zones()
        self.items = [self.put(p) for p in plan.get("placed", [])]
        self.items += [self.shaft(s) for s in plan.get("shafts", [])]

    def shift(self, shapes, by, always=False):
        for shape in shapes:
            s = next(iter(shape.values()))
            if always or (s["from_mm"][0] + s["to_mm"][0]) / 2 > self.splice:
                s["from_mm"][0] += by
                s["to_mm"][0] += by

    def stretch(self):
        if not self.by:
            return
        self.c["dimensions"]["wheelbase_mm"] += self.by
        for a in self.c["axle"]:
            if a["x_mm"] > self.splice:
                a["x_mm"] += self.by
                if "input_x_mm" in a:
                    a["input_x_mm"] += self.by
                self.shift(a.get("envelope", []), self.by, always=True)
        for thing in self.c.get("obstacle", []) + self.c.get("hardware", []):
            self.shift(thing.get("envelope", []), self.by)
        if "body" in self.c:
            self.c["body"]["front_x_mm"] += self.by  # rigid: as a whole, wherever the cut is
            self.c["body"]["rear_x_mm"] += self.by

    def to_axles(self):
        return self.trailer["kingpin_to_axles_mm"]

    def claims(self):
        """The allowance counts only for what drives the truck."""
        if not self.plan["law"].get("allowance"):
            return False
        fuels = [i["part"]["power_source"]["fuel"] for i in self.items if "power_source" in i["part"]]
        words = {"natural-gas": "gas-generator", "diesel": "diesel-generator", "hydrogen": "hydrogen"}
        return all(words[f] in self.law["names"] for f in fuels) if fuels else "battery" in self.law["names"]

    def axle(self, name):
        return next((a for a in self.c["axle"] if a["id"] == name), None)

    def make_zones(self):
        c, d = self.c, self.c["dimensions"]
        half, rail = d["overall_width_mm"] / 2, d["frame_width_mm"] / 2
        top, bumper, end, boc = d["frame_top_laden_mm"], -d["bumper_to_axle_mm"], self.end, self.boc
        rear = [a for a in c["axle"] if a["kind"] != "steer" and a["x_mm"] > max(boc, 0)]
        first = min((a["x_mm"] - a["tyres"]["diameter_mm"] / 2 for a in rear), default=end)
        last = max((a["x_mm"] + a["tyres"]["diameter_mm"] / 2 for a in rear), default=end)
        hood = max(c["cab"]["hood_top_z_mm"], top + 1)
        beside = 0.9 * c["axle"][0]["tyres"]["loaded_radius_mm"]
        if "fifth_wheel" in c:
            deck = d["wheelbase_mm"] - c["fifth_wheel"]["ahead_mm"]
        else:
            deck = c["body"]["front_x_mm"] if "body" in c else end
        roof = c["body"]["floor_z_mm"] if "body" in c else 4100
        steps = min(c["cab"]["steps_end_x_mm"], boc)
        z = {
            "front": ((bumper, -beside), (-half, half), (250, hood)),
            "hood-bay": ((-beside, c["cab"]["front_x_mm"]), (-600, 600), (250, hood)),
            "under-cab": ((beside, boc), (-half, half), (250, c["cab"]["floor_z_mm"])),
            "saddle-left": ((steps, first - 75), (-half, -rail), (250, top + 60)),
            "saddle-right": ((steps, first - 75), (rail, half), (250, top + 60)),
            "between-rails": ((beside, end), (-rail + c["rail"]["wall_mm"], rail - c["rail"]["wall_mm"]),
                              (250, top)),
            "behind-cab": ((boc, deck), (-half, half), (top, 4100)),
            "frame-top": ((boc, end), (-half, half), (top, roof)),
            "overhang": ((last + 75, end), (-half, half), (250, top)),
            "frame": ((bumper, end), (-half, half), (0, 4100)),
        }
        for a in c["axle"]:
            if a["kind"] != "steer":
                z[a["id"]] = ((a["x_mm"] - 700, a["x_mm"] + 700), (-half, half), (0, top))
        return {k: (np.array([p[0] for p in v], float), np.array([max(p) for p in v], float))
                for k, v in z.items()}

    def part(self, name):
        return next((p for p in self.plan.get("parts", []) if p["id"] == name), None) or PARTS[name]

    def put(self, placed):
        part = self.part(placed["part"])
        place, zone = placed["place"], None
        if "zone" in place:
            zone = place["zone"]["id"]
            p = place["zone"]
            at = np.array([self.zones[zone][0][0] + p["from_front_mm"], p["y_mm"], p["z_mm"]])
        else:
            p = place["free"]
            at = np.array([p["x_mm"], p["y_mm"], p["z_mm"]])
        raw = solids_of(part["envelope"])
        lo, hi = bounds(raw) if raw else (np.zeros(3), np.zeros(3))
        about = (lo + hi) / 2
        cg = part.get("cg")
        cg = np.array([cg["x_mm"], cg["y_mm"], cg["z_mm"]]) if cg else about
        quarter = placed.get("turn", 0)
        solids = turned(raw, quarter, about)
        lo, hi = bounds(solids) if raw else (lo, hi)
        by = at - np.array([lo[0], (lo[1] + hi[1]) / 2, lo[2]])
        sides = dict(part.get("clearance", {}))
        everywhere = sides.pop("all_mm", 0)
        ring = [sides.get(k, everywhere) for k in ("rear_mm", "right_mm", "front_mm", "left_mm")]
        ring = ring[-quarter:] + ring[:-quarter] if quarter else ring  # rear's demand moves to right
        asked = dict(zip(("rear", "right", "front", "left"), ring))
        asked.update(top=sides.get("top_mm", everywhere), bottom=sides.get("bottom_mm", everywhere))
        beam = zone if "axle" in part and self.axle(zone) else None
        return dict(tag=placed["tag"], part=part, zone=zone, turn=quarter, solids=moved(solids, by),
                    lo=lo + by, hi=hi + by, cg=turn_point(cg, quarter, about) + by,
                    mass=part["mass_kg"], full=part.get("contents", {}).get("full_kg", 0),
                    fill=placed.get("fill", 1), asked=asked, beam=beam, soft=part.get("soft", False),
                    joined=set(), drives=None, about=about, by=by)

    def shaft(self, run):
        part = self.part(run["part"])
        source = next(i for i in self.items if i["tag"] == run["from"])
        start = turn_point(np.array(source["part"]["output"]["at_mm"], float), source["turn"],
                           source["about"]) + source["by"]
        axle = self.axle(run["to_axle"])
        end = np.array([axle["input_x_mm"], 0, axle["input_z_mm"]])
        length = float(np.linalg.norm(end - start))
        tube = part["shaft"]
        lo, hi = bounds(solids_of(part["envelope"]))
        solids = [("cyl", start, end, min((hi - lo)[1:]) / 2)]
        mass = part["mass_kg"] + tube.get("kg_per_m", 0) * (length - tube.get("nominal_length_mm", length)) / 1000
        everywhere = part.get("clearance", {}).get("all_mm", 0)
        lo, hi = bounds(solids)
        return dict(tag=run["tag"], part=part, zone=None, turn=0, solids=solids, lo=lo, hi=hi,
                    cg=(start + end) / 2, mass=mass, full=0, fill=1, beam=None, soft=False,
                    asked=dict.fromkeys(("rear", "right", "front", "left", "top", "bottom"), everywhere),
                    joined={run["from"]}, drives=run["to_axle"])

    # ---- masses ----

    def moves(self):
        """(mass, from, to) of everything that the wheelbase change shifts or adds."""
        out, c = [], self.donor
        if self.by:
            for k in c.get("kept", []):
                if "spread_mm" in k:
                    a, b = k["spread_mm"]
                    body = c.get("body")
                    if body and body["front_x_mm"] <= a and b <= body["rear_x_mm"] and k["cg"]["z_mm"] >= body["floor_z_mm"]:
                        out.append((k["mass_kg"], (a + b) / 2, (a + b) / 2 + self.by))
                        continue
                    cut = min(max(self.splice, a), b)
                    if b > cut:
                        out.append((k["mass_kg"] * (b - cut) / (b - a), (cut + b) / 2, (cut + b) / 2 + self.by))
                elif k["cg"]["x_mm"] > self.splice:
                    out.append((k["mass_kg"], k["cg"]["x_mm"], k["cg"]["x_mm"] + self.by))
            for h in c["hardware"]:
                if h["id"] not in self.stripped and h["cg"]["x_mm"] > self.splice:
                    out.append((h["mass_kg"], h["cg"]["x_mm"], h["cg"]["x_mm"] + self.by))
        if "fifth_wheel" in c:
            old, new = c["fifth_wheel"], self.c["fifth_wheel"]
            x = self.c["dimensions"]["wheelbase_mm"]
            out.append((old["mass_kg"], x - old["ahead_mm"], x - new["ahead_mm"]))
        return out

    def masses(self, case):
        """List of (kg, x, y, z)."""
        out = []
        t = self.donor["ticket"]
        for load in t["axle"]:
            x, track, _ = self.group(self.donor, load["group"])
            l, r = load.get("left_kg"), load.get("right_kg")
            y = (r - l) / (r + l) * track / 2 if l is not None and r is not None else 0
            out.append((load["load_kg"], x, y, t.get("cg_z_mm", math.nan)))
        if case != "donor":
            for h in self.donor["hardware"]:
                if h["id"] in self.stripped:
                    g = h["cg"]
                    out.append((-h["mass_kg"], g["x_mm"], g["y_mm"], g["z_mm"]))
        if case in ("donor", "stripped"):
            return out
        for m, a, b in self.moves():
            out += [(-m, a, 0, 0), (m, b, 0, 0)]
        r = self.donor["rail"]
        area = r["depth_mm"] * r["wall_mm"] + 2 * (r["flange_mm"] - r["wall_mm"]) * r["wall_mm"]
        out.append((2 * area * 7850e-9 * self.by, self.splice + self.by / 2, 0,
                    self.donor["dimensions"]["frame_top_laden_mm"] - r["depth_mm"] / 2))
        for i in self.items:
            out.append((i["mass"], *i["cg"]))
            fill = 0.5 if case == "half-tanks" else i["fill"]
            out.append((i["full"] * fill, *((i["lo"] + i["hi"]) / 2)))
        loads = self.plan.get("loads", {})
        if case != "unladen" and "driver_kg" in loads:
            s = self.c["driver_seat"]
            out.append((loads["driver_kg"], s["x_mm"], s["y_mm"], s["z_mm"]))
        if case in ("laden", "coupled") and "payload" in loads:
            at = loads["payload"]["at"]
            if "level" in at:
                at = at["level"]
                p = ((at["front_x_mm"] + at["rear_x_mm"]) / 2, 0, at["z_mm"])
            else:
                p = tuple(at["cg"][k] for k in ("x_mm", "y_mm", "z_mm"))
            out.append((loads["payload"]["mass_kg"], *p))
        return out

    def shares(self, chassis, group):
        names, rule = group["axles"], group["share"]
        if isinstance(rule, dict) and "split" in rule:
            s = list(rule["split"])
        elif rule == "springs":
            k = [next(a for a in chassis["axle"] if a["id"] == n)["suspension"]["rate_n_per_mm"] for n in names]
            s = [v / sum(k) for v in k]
        else:
            s = [1 / len(names)] * len(names)
        return s

    def group(self, chassis, name, up=()):
        """Place, track and the weighed part that stands on the axles that are down."""
        g = next(g for g in chassis["group"] if g["id"] == name)
        members = [(s, next(a for a in chassis["axle"] if a["id"] == n)) for s, n in zip(self.shares(chassis, g), g["axles"])]
        down = [m for m in members if m[1]["id"] not in up]
        part = sum(s for s, _ in down)
        down = down or members
        whole = sum(s for s, _ in down)
        return (sum(s * a["x_mm"] for s, a in down) / whole, sum(a["track_mm"] for _, a in down) / len(down), part)

    def reactions(self, chassis, masses, weighed):
        """Unknowns: every reaction, heave and pitch; one square system."""
        groups, n = chassis["group"], len(chassis["group"])
        xs = [self.group(chassis, g["id"], self.raised)[0] / 1000 for g in groups]
        a, b = np.zeros((n + 2, n + 2)), np.zeros(n + 2)
        for i, g in enumerate(groups):
            a[i, i] = 1
            if all(x in self.raised for x in g["axles"]):
                continue
            if isinstance(g["share"], dict) and "fixed-kg" in g["share"]:
                b[i] = g["share"]["fixed-kg"]
                continue
            k = sum(next(x for x in chassis["axle"] if x["id"] == m)["suspension"].get("rate_n_per_mm", 100)
                    for m in g["axles"] if m not in self.raised)
            a[i, n], a[i, n + 1] = -k, -k * xs[i]
            b[i] = weighed.get(g["id"], 0) * self.group(chassis, g["id"], self.raised)[2]
        a[n, :n] = 1
        a[n + 1, :n] = xs
        b[n] = sum(m[0] for m in masses)
        b[n + 1] = sum(m[0] * m[1] for m in masses) / 1000
        return dict(zip((g["id"] for g in groups), np.linalg.solve(a, b)[:n]))

    def case(self, case):
        chassis = self.donor if case in ("donor", "stripped") else self.c
        masses = self.masses(case)
        weighed = {t["group"]: t["load_kg"] for t in self.donor["ticket"]["axle"]}
        pin = self.pin_empty + self.payload * self.pin_share if case == "coupled" else 0
        carried = masses + ([(pin, self.pin_x, 0, 0)] if pin else [])
        total = self.reactions(chassis, carried, weighed)
        if case == "donor":
            total = weighed
        out = {"groups": {}}
        none = self.reactions(chassis, [], weighed)
        tickets = [t["group"] for t in self.donor["ticket"]["axle"]]
        for g in chassis["group"]:
            side = 0
            for n, m in enumerate(carried):  # each mass's offset goes where its weight goes
                # One more kilogram at the scale is also one more from which the springs start.
                seen = dict(weighed)
                if n < len(tickets):
                    seen[tickets[n]] += m[0]
                side += m[2] * (self.reactions(chassis, [m[:4]], seen)[g["id"]] - none[g["id"]]) if m[2] else 0
            track = self.group(chassis, g["id"], () if case == "donor" else self.raised)[1]
            load = total[g["id"]]
            if case == "donor":
                t = next(t for t in self.donor["ticket"]["axle"] if t["group"] == g["id"])
                l, r = t.get("left_kg", load / 2), t.get("right_kg", load / 2)
            else:
                l, r = load / 2 - side / track, load / 2 + side / track
            out["groups"][g["id"]] = (load, l, r)
        mass = sum(m[0] for m in masses)
        out["cg"] = [mass] + [sum(m[0] * m[k] for m in masses) / mass for k in (1, 2, 3)]
        # Unsprung: each axle as it now is, at the place where it now stands.
        unsprung = []
        for a in chassis["axle"]:
            unsprung.append((a["unsprung_kg"], a["x_mm"], 0, a["unsprung_z_mm"]))
            for h in self.donor["hardware"]:
                if case != "donor" and h["id"] in self.stripped and h.get("unsprung_axle") == a["id"]:
                    # it left the axle: where the axle was weighed, or has moved to since
                    dx = a["x_mm"] - next(d for d in self.donor["axle"] if d["id"] == a["id"])["x_mm"]
                    unsprung.append((-h["mass_kg"], h["cg"]["x_mm"] + dx, h["cg"]["y_mm"], h["cg"]["z_mm"]))
        if case not in ("donor", "stripped"):
            unsprung += [(i["mass"], *i["cg"]) for i in self.items if i["beam"]]
        sprung = masses + [(-u[0], *u[1:]) for u in unsprung]
        m = sum(s[0] for s in sprung)
        out["sprung"] = [m] + [sum(s[0] * s[k] for s in sprung) / m for k in (1, 2, 3)]
        if case == "coupled":
            whole = self.trailer["tare_kg"] + self.payload
            out["kingpin"], out["trailer"], out["gross"] = pin, whole - pin, mass + whole
        return out

    # ---- limits ----

    def limits(self):
        out = {}
        for g in self.c["group"]:
            share = self.shares(self.c, g)
            axles = [(self.axle(n), s) for n, s in zip(g["axles"], share) if n not in self.raised]
            lows = [] if "gawr_kg" not in g else [g["gawr_kg"]]
            whole = sum(s for _, s in axles)
            for get in (lambda a: a.get("gawr_kg"), lambda a: a["tyres"].get("rating_axle_kg"),
                        lambda a: a["suspension"].get("rating_kg"), self.beam_rating):
                values = [get(a) for a, _ in axles]
                if values and None not in values:
                    lows.append(min(v * whole / s for v, (_, s) in zip(values, axles)))
            if self.law and axles:
                spread = (axles[-1][0]["x_mm"] - axles[0][0]["x_mm"]) / IN
                one = self.law["single_axle_lb"] * LB
                if spread <= self.law["single_within_in"]:
                    lows.append(one)
                elif spread <= self.law["tandem_within_in"]:
                    lows.append(self.law["tandem_lb"] * LB)
                else:
                    lows.append(min(one * whole / s for _, s in axles))
                for a, s in axles:  # so many pounds for each inch of tyre on the axle
                    per = self.law["lb_per_in"].get("steered" if a["kind"] == "steer" else "others")
                    if per:
                        inches = a["tyres"]["width_mm"] / IN * (4 if a["tyres"]["dual"] else 2)
                        lows.append(per * LB * inches * whole / s)
            out[g["id"]] = min(lows)
        return out

    def beam_rating(self, a):
        for i in self.items:
            if i["beam"] == a["id"]:
                return i["part"]["axle"].get("rating_kg")
        return math.inf

    def trailer_limit(self):
        t, law = self.trailer, self.law
        if not law:
            return t["axles_rating_kg"]
        spread = t["axle_spacing_mm"] * (t["axle_count"] - 1) / IN
        legal = (law["single_axle_lb"] if spread <= law["single_within_in"] else law["tandem_lb"]
                 if spread <= law["tandem_within_in"] else law["single_axle_lb"] * t["axle_count"]) * LB
        return min(legal, t["axles_rating_kg"])

    def gross_limit(self):
        pounds = self.law["gross_lb"]
        if self.claims():
            pounds = min(pounds + self.law["allowance_lb"], self.law["allowance_ceiling_lb"])
        return pounds * LB

    def bridge(self, case):
        """Every group of consecutive axles: name -> length, allowed, actual, held by its own check too."""
        law = self.law
        if not law or "bridge" not in law:
            return {}
        rows = []  # place, load, owner, counts; raised axles keep their number
        for a in self.c["axle"]:
            g = next(g for g in self.c["group"] if a["id"] in g["axles"])
            share = dict(zip(g["axles"], self.shares(self.c, g)))
            down = sum(v for k, v in share.items() if k not in self.raised)
            up = a["id"] in self.raised
            rows.append((a["x_mm"], 0 if up else case["groups"][g["id"]][0] * share[a["id"]] / down, g["id"], not up))
        if self.trailer:
            n, t = self.trailer["axle_count"], self.trailer
            first = self.pin_x + t["kingpin_to_axles_mm"] - t["axle_spacing_mm"] * (n - 1) / 2
            rows += [(first + i * t["axle_spacing_mm"], case.get("trailer", 0) / n, None, True) for i in range(n)]
        rows = [(*r, i + 1) for i, r in enumerate(sorted(rows, key=lambda r: r[0]))]
        rows = [r for r in rows if r[3]]
        claimed = self.claims()
        more = lambda what: law["allowance_lb"] if claimed and what in law["allowance_raises"]["limits"] else 0
        gross = min(law["gross_lb"] + more("gross"), law["allowance_ceiling_lb"])
        tandem = lambda a, b: law["single_within_in"] < round((b[0] - a[0]) / IN, 6) <= law["tandem_within_in"]
        out = {}
        for i in range(len(rows)):
            for j in range(i + 1, len(rows)):
                part = rows[i:j + 1]
                n, inches = len(part), round((part[-1][0] - part[0][0]) / IN, 6)
                owners = {r[2] for r in part}
                whole = len(owners) == 1 and sum(r[2] in owners for r in rows) == n
                rule = law["bridge"]
                if inches <= law["tandem_within_in"]:
                    single = inches <= law["single_within_in"]
                    lb = law["single_axle_lb"] + more("single-axle") if single else law["tandem_lb"] + more("tandem")
                    held = whole
                else:
                    short = {r["axles"]: r["lb"] for r in rule["short"]}
                    if n in short and inches < 12 * rule["short_below_ft"]:
                        lb = short[n]
                    else:
                        w = 500 * (inches / 12 * n / (n - 1) + 12 * n + 36)
                        below = w // 500 * 500
                        lb = below + 500 if round(w - below, 4) > 250 else below
                    held = lb > n * law["single_axle_lb"]
                    lb = min(lb, n * law["single_axle_lb"])
                    if n == 4 and tandem(*part[:2]) and tandem(*part[2:]) and inches >= 432:
                        lb = max(lb, 68000)
                    lb += more("bridge")
                if lb > gross:
                    lb, held = gross, True
                actual = sum(r[1] for r in part)
                out[f"{part[0][4]}-{part[-1][4]}"] = (part[-1][0] - part[0][0], lb * LB, actual, held)
        return out

    def payloads(self):
        """Payload at each limit, by trying two payloads and drawing the line through them."""
        states, groups = [], []
        for kg in (0.0, 1000.0):
            plan = copy.deepcopy(self.plan)
            loads = plan.setdefault("loads", {})
            if self.trailer:
                loads["trailer"]["payload_kg"] = kg
            elif "payload" in loads:
                loads["payload"]["mass_kg"] = kg
            else:
                b = self.c.get("body")
                if not b:
                    return {}
                loads["payload"] = dict(mass_kg=kg, at=dict(level=dict(
                    front_x_mm=b["front_x_mm"], rear_x_mm=b["rear_x_mm"], z_mm=b["floor_z_mm"])))
            t = Truck(plan)
            c = t.case("coupled" if self.trailer else "laden")
            s = {g: v[0] for g, v in c["groups"].items()}
            s["truck"] = c["cg"][0] + c.get("kingpin", 0)
            s["gross weight"] = c.get("gross", c["cg"][0])
            steered = sum(c["groups"][g["id"]][0] for g in self.c["group"]
                          if all(self.axle(n)["kind"] == "steer" for n in g["axles"]))
            s["steered axle"] = LEAST_STEERED * s["truck"] - steered
            if self.trailer:
                s.update({"fifth wheel": c["kingpin"], "trailer axles": c["trailer"],
                          "combination": c["gross"], "trailer": kg})
            # Of all bridge groups the first one that payload fills, of those that nothing else holds.
            groups.append({k: v for k, v in t.bridge(c).items() if not v[3]})
            states.append(s)
        names = {g["id"]: g["name"] for g in self.c["group"]}
        limits = dict(self.limits())
        limits["truck"], limits["steered axle"] = self.c["ratings"].get("gvwr_kg"), 0.0
        if self.law:
            limits["gross weight"] = self.gross_limit()
        if self.trailer:
            limits.update({"fifth wheel": self.c["fifth_wheel"]["rating_kg"], "trailer axles": self.trailer_limit(),
                           "combination": self.c["ratings"].get("gcwr_kg"), "trailer": self.trailer["payload_max_kg"]})
        out = {}
        for k, limit in limits.items():
            slope = (states[1][k] - states[0][k]) / 1000
            if limit is not None and slope > 1e-9:
                out[names.get(k, k)] = (limit - states[0][k]) / slope
            if k in names and slope < -1e-9:  # it lifts off before it is full
                out[names[k]] = -states[0][k] / slope
        full = {}
        for k, (_, allowed, empty, _) in groups[0].items():
            slope = (groups[1][k][2] - empty) / 1000
            if slope > 1e-9:
                full[k] = (allowed - empty) / slope
        if full:
            first = min(full, key=full.get)
            out["axles " + first.replace("-", " to ")] = full[first]
        return out

    def at_ahead(self, ahead):
        """The same truck with its fifth wheel elsewhere, for loads."""
        new = copy.copy(self)
        new.c = {**self.c, "fifth_wheel": {**self.c["fifth_wheel"], "ahead_mm": ahead}}
        new.pin_x = self.c["dimensions"]["wheelbase_mm"] - ahead
        return new

    def passes(self, ahead, limits):
        t = self.at_ahead(ahead)
        weighed = {r["group"]: r["load_kg"] for r in t.donor["ticket"]["axle"]}
        pin = t.pin_empty + t.payload * t.pin_share
        for case in ("unladen", "half-tanks", "coupled"):
            masses = t.masses(case) + ([(pin, t.pin_x, 0, 0)] if case == "coupled" else [])
            loads = t.reactions(t.c, masses, weighed)
            if any(v > limits[g] + 1e-6 or v < -1e-6 for g, v in loads.items()):
                return False
            steered = sum(v for g, v in loads.items() if t.axle(next(
                x for x in t.c["group"] if x["id"] == g)["axles"][0])["kind"] == "steer")
            if steered < LEAST_STEERED * sum(m[0] for m in masses) - 1e-6:
                return False
        state = {"groups": {g: (v,) for g, v in loads.items()}, "trailer": t.trailer["tare_kg"] + t.payload - pin}
        return all(actual <= allowed + 1e-6 for _, allowed, actual, _ in t.bridge(state).values())

    def fifth_wheel_range(self):
        """Ends of every stretch of the slider on which all limits hold: a scan, then halving."""
        fw = self.c.get("fifth_wheel")
        if not fw or not self.trailer:
            return None
        limits, whole = self.limits(), self.trailer["tare_kg"] + self.payload
        pin = self.pin_empty + self.payload * self.pin_share
        alone = sum(m[0] for m in self.masses("coupled"))
        caps = [(pin, fw["rating_kg"]), (whole - pin, self.trailer_limit()), (alone + pin, self.c["ratings"].get("gvwr_kg")),
                (alone + whole, self.c["ratings"].get("gcwr_kg")), (self.payload, self.trailer["payload_max_kg"])]
        caps += [(alone + whole, self.gross_limit())] if self.law else []
        if any(limit is not None and load > limit + 1e-6 for load, limit in caps):
            return "none"
        places = np.linspace(fw["ahead_min_mm"], fw["ahead_max_mm"], 41)
        good = [self.passes(a, limits) for a in places]
        ends = []
        for k, (a, b) in enumerate(zip(places, places[1:])):
            if good[k] != good[k + 1]:
                for _ in range(45):
                    m = (a + b) / 2
                    a, b = (m, b) if self.passes(m, limits) == good[k] else (a, m)
                ends.append((a + b) / 2)
        ends += [e for e, g in ((places[0], good[0]), (places[-1], good[-1])) if g]
        return ends or "none"

    # ---- room ----

    def bodies(self):
        c, d, out = self.c, self.c["dimensions"], []
        top, bottom, outer = d["frame_top_laden_mm"], d["frame_top_laden_mm"] - c["rail"]["depth_mm"], d["frame_width_mm"] / 2
        r, x0 = c["rail"], c["rail"]["front_x_mm"]
        for side, s in (("left", -1), ("right", 1)):
            def plate(y, z0, z1):
                ys = sorted((s * y, s * outer))
                return ("box", np.array([x0, ys[0], z0], float), np.array([self.end, ys[1], z1], float))
            out.append((f"rail-{side}", "rail", [plate(outer - r["wall_mm"], bottom, top),
                        plate(outer - r["flange_mm"], top - r["wall_mm"], top),
                        plate(outer - r["flange_mm"], bottom, bottom + r["wall_mm"])], 0))
        out += [(o["id"], o["kind"], solids_of(o["envelope"]), o["clearance_mm"]) for o in c["obstacle"]]
        cab = c["cab"]
        out.append(("cab", "cab", [("box", np.array([min(cab["front_x_mm"], self.boc), -cab["width_mm"] / 2, cab["floor_z_mm"]], float),
                    np.array([self.boc, cab["width_mm"] / 2, cab["roof_z_mm"]], float))], 25))
        if "body" in c:
            b = c["body"]
            out.append(("body", "body", [("box", np.array([b["front_x_mm"], -b["width_mm"] / 2, b["floor_z_mm"]], float),
                        np.array([b["rear_x_mm"], b["width_mm"] / 2, b["top_z_mm"]], float))], b["clearance_mm"]))
        self.rides = {}
        for a in c["axle"]:
            if a.get("envelope"):
                up = a["suspension"]["jounce_mm"] if a["id"] in self.raised else 0
                self.rides[f"beam-{a['id']}"] = a["id"]
                out.append((f"beam-{a['id']}", "axle", moved(solids_of(a["envelope"]), [0, 0, up]), 0))
        for h in c["hardware"]:
            if h["id"] not in self.stripped and h.get("envelope"):
                if "unsprung_axle" in h:
                    self.rides[h["id"]] = h["unsprung_axle"]
                out.append((h["id"], "axle" if "unsprung_axle" in h else "hardware", solids_of(h["envelope"]), 0))
        return out

    def tyres(self):
        for a in self.c["axle"]:
            t = a["tyres"]
            band = t["width_mm"] + (t.get("dual_spacing_mm", 0) if t["dual"] else 0)
            up = a["suspension"]["jounce_mm"] if a["id"] in self.raised else 0
            for side, s in (("left", -1), ("right", 1)):
                p = [np.array([a["x_mm"], s * (a["track_mm"] / 2 + e * band / 2), t["loaded_radius_mm"] + up]) for e in (-1, 1)]
                yield a, f"tyre-{a['id']}-{side}", ("cyl", p[0], p[1], t["diameter_mm"] / 2)

    @staticmethod
    def asks(item, v):
        k = int(np.argmax(np.abs(v)))
        return item["asked"][(("front", "rear"), ("left", "right"), ("bottom", "top"))[k][int(v[k] > 0)]]

    def between(self, a, b, v):
        asked = max(self.asks(a, v), self.asks(b, -v))
        for one, two in ((a, b), (b, a)):
            for rule in one["part"].get("keep_away", []):
                if rule["kind"] == two["part"]["kind"]:
                    asked = max(asked, rule["mm"])
        return asked

    def gaps(self):
        """Check -> list of (names, distance, asked, exact, how much less the program may find)."""
        hard = [i for i in self.items if not i["soft"]]
        out = {k: [] for k in ("part-gap", "frame-gap", "tyre-gap", "tyre-sweep", "suspension-travel",
                               "cab-opening", "trailer-swing", "landing-legs")}
        def add(check, names, found, slack=0.0):
            g, asked = found
            if g[0] <= asked + LISTED:
                out[check].append((names, g[0], asked, g[2], slack))
        def near(lo, hi, solids, reach=600):
            l, h = bounds(solids)
            return (l < hi + reach).all() and (lo - reach < h).all()
        bodies = self.bodies()
        kept = [(h["id"], h["unsprung_axle"], h.get("drive_axle", False), solids_of(h["envelope"]))
                for h in self.c["hardware"] if "unsprung_axle" in h and h.get("envelope") and h["id"] not in self.stripped]
        # What stays on an axle that cannot come off, at design height: its travel begins there.
        kept += [(f"beam-{a['id']}", a["id"], True, solids_of(a["envelope"])) for a in self.c["axle"] if a.get("envelope")]
        if self.by or self.c.get("fifth_wheel", {}).get("ahead_mm") != self.donor.get("fifth_wheel", {}).get("ahead_mm"):
            out["moved-chassis"] = []
            donor = Truck({**self.plan, "changes": {k: v for k, v in self.plan.get("changes", {}).items() if k in ("stripped", "raised")},
                           "shafts": [], "placed": []})
            close = lambda p, q: near(*bounds(p), q, 1200)
            for names, found in rails_and_turns.moved_pairs(self, donor, (bounds, Truck.room_between, close)):
                add("moved-chassis", names, found, 0.1 + 3)
        for n, a in enumerate(hard):
            own = lambda least: lambda v: max(least, self.asks(a, v))
            for b in hard[n + 1:]:
                same = a["tag"] in b["joined"] or b["tag"] in a["joined"] or any(
                    x["beam"] and x["beam"] in (y["beam"], y["drives"]) for x, y in ((a, b), (b, a)))
                if a["beam"] or b["beam"] or same or not near(a["lo"], a["hi"], b["solids"], 1200):
                    continue
                add("part-gap", f"{a['tag']}.{b['tag']}", worst(a["solids"], b["solids"], lambda v: self.between(a, b, v)))
            for name, kind, solids, asked in bodies:
                if kind == "axle" or a["beam"] or not near(a["lo"], a["hi"], solids):
                    continue
                add("frame-gap", f"{a['tag']}.{name}", worst(a["solids"], solids, (lambda v: 0) if kind == "rail" else own(asked)))
            for axle, name, tyre in self.tyres():
                if axle["id"] in (a["beam"], a["drives"]) or not near(a["lo"], a["hi"], [tyre]):
                    continue
                add("tyre-gap", f"{a['tag']}.{name}", worst(a["solids"], [tyre], own(75)))
                add("tyre-sweep", f"{a['tag']}.{name}", self.swept_tyre(a, axle, tyre, own(25)), 0.1 + bulge(a["solids"]))
            for name, on, is_axle, solids in kept:
                if a["drives"] == on or not near(a["lo"], a["hi"], solids):
                    continue
                label = f"{a['tag']}.{name}"
                if a["beam"] == on:
                    if not is_axle:
                        add("suspension-travel", label, worst(a["solids"], solids, lambda v: 0))
                    continue
                add("suspension-travel", label, self.travelling(a["solids"], a["beam"], solids, on, own(25)),
                    bulge(solids) + (bulge(a["solids"]) if a["beam"] else 0))
            if a["beam"]:
                for b in hard:
                    if b["tag"] == a["tag"] or b["beam"] == a["beam"] or b["drives"] == a["beam"] or (b["beam"] and b["tag"] < a["tag"]):
                        continue
                    if near(a["lo"], a["hi"], b["solids"]) and a["tag"] not in b["joined"]:
                        add("suspension-travel", f"{a['tag']}.{b['tag']}",
                            self.travelling(a["solids"], a["beam"], b["solids"], b["beam"], lambda v: max(25, self.between(a, b, v))))
                for name, kind, solids, _ in bodies:
                    if kind != "axle" and near(a["lo"], a["hi"], solids):
                        add("suspension-travel", f"{a['tag']}.{name}", self.travelling(a["solids"], a["beam"], solids, None, own(25)))
            if self.c["cab"].get("opening"):
                add("cab-opening", f"{a['tag']}.opening of hood and cab",
                    worst(a["solids"], solids_of(self.c["cab"]["opening"]), own(50)))
        if self.trailer:
            self.behind(hard, bodies, add)
        return out

    def room_between(self, a, b):
        """Two things of the chassis: the nearest over travel and lock, and what is asked there."""
        own = max(a["asked"], b["asked"])
        if a["tyre"] or b["tyre"]:
            wheel, other = (a, b) if a["tyre"] else (b, a)
            asked = max(25, other["asked"])
            item = dict(solids=self.down(other), beam=None)
            # Riding things are taken where they stand: the tyre's own travel is what the check asks for.
            return self.swept_tyre(item, wheel["tyre"], wheel["solids"][0], lambda v: asked)
        if a["axle"] or b["axle"]:
            return self.travelling(self.down(a), a["axle"], self.down(b), b["axle"], lambda v: max(25, own))
        return worst(a["solids"], b["solids"], lambda v: own)

    def down(self, thing):
        """Where it stands with its axle at design height."""
        up = self.axle(thing["axle"])["suspension"]["jounce_mm"] if thing["id"].startswith("beam-") and thing["axle"] in self.raised else 0
        return moved(thing["solids"], [0, 0, -up])

    def travelling(self, first, beam, second, other, asked):
        """Worst over the travel of one axle or of both, in steps."""
        def heights(axle, steps):
            if not axle:
                return [0.0]
            s = self.axle(axle)["suspension"]
            return np.linspace(-s["rebound_mm"], s["jounce_mm"], steps)
        return min((worst(moved(first, [0, 0, z]), moved(second, [0, 0, w]), asked)
                    for z in heights(beam, 37) for w in heights(other, 37 if not beam else 7)),
                   key=lambda f: (f[0][0] >= 0, f[0][0] - f[1]))

    def swept_tyre(self, a, axle, tyre, asked):
        """Worst of the part's solids, each at the nearest height and angle of the tyre: a grid that
        is drawn in about its best point three times."""
        s = axle["suspension"]
        low, high = -s["rebound_mm"], s["jounce_mm"]
        if a["beam"]:
            t = self.axle(a["beam"])["suspension"]
            low, high = low - t["jounce_mm"], high + t["rebound_mm"]
        lock = math.radians(axle.get("steer_angle_deg", 0))
        def at(solid, z, angle):
            here = moved([tyre], [0, 0, z - (s["jounce_mm"] if axle["id"] in self.raised else 0)])[0]
            return gap(solid, yawed_cylinder(here, angle))
        found = []
        for solid in a["solids"]:
            zs, angles = np.linspace(low, high, 10), np.linspace(-lock, lock, 41) if lock else [0.0]
            for _ in range(4):
                g, z, angle = min(((at(solid, z, q), z, q) for z in zs for q in angles), key=lambda f: f[0][0])
                dz, dq = zs[1] - zs[0], angles[1] - angles[0] if lock else 0.0
                zs = np.clip(np.linspace(z - dz, z + dz, 9), low, high)
                angles = np.clip(np.linspace(angle - dq, angle + dq, 9), -lock, lock) if lock else [0.0]
                if zs[1] == zs[0]:
                    zs = np.linspace(zs.min(), zs.max() + 1e-6, 9)
            found.append((g, asked(g[1])))
        return min(found, key=lambda f: (f[0][0] >= 0, f[0][0] - f[1]))

    def behind(self, hard, bodies, add):
        t, x = self.trailer, self.pin_x
        side = t["width_mm"] / 2
        assert self.c["fifth_wheel"]["articulation_deg"] == 90
        nose = [("cyl", np.array([x, 0, t["nose_z_mm"]], float), np.array([x, 0, t["top_z_mm"]], float), math.hypot(t["nose_ahead_mm"], side))]
        far = math.hypot(t["rear_mm"], side)
        box = [("box", np.array([x - side, -far, t["nose_z_mm"]]), np.array([x + far, far, t["top_z_mm"]]))]
        def larger(item, least):
            return lambda v: max(least, self.asks(item, v))
        things = [(i["tag"], i["solids"], larger(i, t["swing_clearance_mm"])) for i in hard]
        for name, kind, solids, asked in bodies:
            if kind not in ("rail", "fifth-wheel"):
                things.append((name, solids, lambda v, asked=asked: max(asked, t["swing_clearance_mm"])))
        for name, solids, asked in things:
            both = [(worst(solids, s, asked), w) for s, w in ((nose, "swing of the trailer nose"), (box, "turning trailer"))]
            # FCL knows no depth in the round nose; which of the two is deeper is known from above.
            ahead = both[0][0][0]
            if ahead[0] < 0 and not ahead[2]:
                both[0] = (((self.depth_in_nose(solids, nose[0]), *ahead[1:]), both[0][0][1]), both[0][1])
            found, which = min(both, key=lambda f: (f[0][0][0] >= 0, f[0][0][0] - f[0][1]))
            add("trailer-swing", f"{name}.{which}", found)
        legs = t["legs"]
        front = x - legs["width_mm"] / 2
        things = [(i["tag"], i["lo"], i["hi"], larger(i, legs["clearance_mm"])) for i in hard]
        things += [(b[0], *bounds(b[2]), lambda v, asked=b[3]: max(asked, legs["clearance_mm"])) for b in bodies]
        things += [(name, *bounds([tyre]), lambda v: max(75, legs["clearance_mm"])) for _, name, tyre in self.tyres()]
        for name, lo, hi, asked in things:
            if hi[2] <= legs["bottom_z_mm"] or lo[2] >= t["nose_z_mm"] or hi[0] <= front:
                continue
            corners = [np.array([px - x, py, 0]) for px in (max(lo[0], front), hi[0]) for py in (lo[1], hi[1])]
            found = [((legs["behind_kingpin_mm"] - np.linalg.norm(v), v, True), asked(v)) for v in corners]
            add("landing-legs", f"{name}.landing legs", min(found, key=lambda f: (f[0][0] >= 0, f[0][0] - f[1])))

    @staticmethod
    def depth_in_nose(solids, nose):
        """Least way out of the upright cylinder, sideways or up and down, of the deepest box; negative."""
        deepest = -1e-3
        for solid in solids:
            lo, hi = bounds([solid])
            away = np.maximum(np.maximum(lo[:2] - nose[1][:2], nose[1][:2] - hi[:2]), 0)
            inside = np.minimum(nose[1][:2] - lo[:2], hi[:2] - nose[1][:2]).min()
            aside = nose[3] - np.linalg.norm(away) if away.any() else nose[3] + inside
            upright = min(hi[2] - nose[1][2], nose[2][2] - lo[2])
            deepest = min(deepest, -min(aside, upright))
        return deepest

    def extents(self):
        out, c = {}, self.c
        hard = [i for i in self.items if not i["soft"]]
        cab = c["cab"]
        for i in hard:
            tag = i["tag"]
            out["ground-clearance", tag] = i["lo"][2]
            out["overall-width", tag] = 2 * max(-i["lo"][1], i["hi"][1])
            if (i["hi"][1] > -cab["width_mm"] / 2 and i["lo"][1] < cab["width_mm"] / 2 and i["hi"][2] > cab["floor_z_mm"]
                    and i["lo"][2] < cab["roof_z_mm"] and (i["lo"][0] + i["hi"][0]) / 2 > self.boc):
                out["behind-cab", tag] = i["lo"][0] - self.boc
            if i["zone"]:
                lo, hi = self.zones[i["zone"]]
                out["zone-fit", tag] = float(max((lo - i["lo"]).max(), (i["hi"] - hi).max()))
        for z in self.zones:
            inside = [i for i in self.items if i["zone"] == z]
            if inside:
                out["zone-mass", z] = sum(i["mass"] + i["full"] * i["fill"] for i in inside)
        return out


# ---- comparison --------------------------------------------------------------------------------

def program(plan):
    with tempfile.NamedTemporaryFile("w", suffix=".json", delete=False) as f:
        json.dump(plan, f)
    try:
        r = subprocess.run([PROGRAM, "evaluate", f.name, "--format", "json"], capture_output=True, text=True)
    finally:
        os.unlink(f.name)
    return json.loads(r.stdout) if r.stdout else r.stderr.strip()


def compare(label, plan, scan=False):
    bad, count = [], 0
    def same(what, mine, theirs, tolerance=1e-6):
        nonlocal count
        count += 1
        if theirs is None or not abs(mine - theirs) <= tolerance * max(1, abs(mine)):
            bad.append(f"{label}: {what}: here {mine:.4f}, program {theirs}")
    answer = program(plan)
    if isinstance(answer, str):
        return [f"{label}: refused: {answer}"], 1
    t = Truck(plan)
    for case in answer["cases"]:
        mine, name = t.case(case["case"]), case["case"]
        for g in case["groups"]:
            for k, v in zip(("load_kg", "left_kg", "right_kg"), mine["groups"][g["id"]]):
                same(f"{name} {g['id']} {k}", v, g[k])
        for k, v in zip(("mass_kg", "x_mm", "y_mm", "z_mm"), mine["cg"]):
            same(f"{name} truck {k}", v, case["truck"][k])
        for k, v in zip(("mass_kg", "x_mm", "y_mm", "z_mm"), mine["sprung"]):
            same(f"{name} sprung {k}", v, case["sprung"][k])
        whole = sum(a["load_kg"] for a in case["axles"])
        same(f"{name} sum of axles", case["truck"]["mass_kg"] + (case["kingpin_kg"] or 0), whole, 1e-9)
        for key, field in (("kingpin", "kingpin_kg"), ("trailer", "trailer_axles_kg"), ("gross", "gross_kg")):
            if key in mine:
                same(f"{name} {field}", mine[key], case[field])
    top = t.case(answer["case"])
    same("mass on top", top["cg"][0] + top.get("kingpin", 0), answer["mass_kg"])
    same("axles on top", answer["mass_kg"], sum(a["load_kg"] for a in answer["axles"]))
    states = [t.bridge(t.case(c["case"])) for c in answer["cases"] if c["case"] not in ("donor", "stripped")]
    with_bridge = t.law and "bridge" in t.law
    if with_bridge:
        same("bridge groups", float(len(states[0])), float(len(answer["bridge"])))
    for row in answer["bridge"] if with_bridge else []:
        length, allowed, *_ = states[0][row["group"]]
        same(f"bridge {row['group']} length", length, row["length_mm"])
        same(f"bridge {row['group']} allowed", allowed, row["allowed_kg"])
        same(f"bridge {row['group']} actual", max(s[row["group"]][2] for s in states), row["actual_kg"])
    if not t.foreign and answer["payload"]:
        mine = t.payloads()
        theirs = {(r[0], round(r[3], 3)): r for r in answer["payload"]["limits"]}
        for k, kg in mine.items():
            near = min((r[3] for r in theirs.values() if r[0] == k), key=lambda v: abs(v - kg), default=None)
            same(f"payload at {k}", kg, near, 1e-6)
        for name, by, _, kg in answer["payload"]["limits"]:
            if by != "length by road law":
                same(f"payload at {name} ({by})", mine.get(name, math.nan), kg, 1e-6)
    if answer["frame"]["missing"] is None:
        rails_and_turns.frame(t, answer, same)
    if answer["moving"]["kerb_circle_mm"] is not None:
        rails_and_turns.moving(t, answer, same, bounds)
        ends_and_ramps.compare(t, answer["moving"], same, fcl_object)
    found = {}
    for f in answer["findings"]:
        found.setdefault(f["id"], []).append(f)
    if t.whole_law:
        places.best(t, t.whole_law, answer, same, scan)
        if t.foreign:
            places.payload(t, t.whole_law, answer, same)
        places.holding(t, t.whole_law, found, same)
    for f in found.get("fifth-wheel-position", []):
        if f["severity"] != "not-assessed":
            span = places.range_ends(t, t.whole_law) if t.foreign else t.fifth_wheel_range()
            same("fifth wheel possible", float(span != "none"), float(f["limit"] is not None))
            if span != "none" and f["limit"] is not None:
                same("fifth wheel end", min(span, key=lambda e: abs(e - f["limit"])), f["limit"])
    for check, gaps in t.gaps().items():
        theirs = {f["subject"]: f for f in found.get(check, []) if f["measured"] is not None}
        fails = {g[0]: g for g in gaps if g[1] - g[2] < -0.05}
        worst = min(gaps, key=lambda g: g[1] - g[2], default=None)
        expected = fails or ({worst[0]: worst} if worst else {})
        for k in expected.keys() | theirs.keys():
            count += 1
            if k not in theirs or k not in expected:
                f, e = theirs.get(k), expected.get(k)
                ties = worst and f and f["severity"] == "holds" and abs(f["margin"] - (worst[1] - worst[2])) < 0.1
                ties = ties or (e and any(abs(f2["margin"] - (e[1] - e[2])) < 0.1 for f2 in theirs.values()))
                # The nose and the turning trailer overlap a part by the same height.
                alike = lambda n: n.split(".")[0] == k.split(".")[0]
                ties = ties or (f and any(alike(n) and abs(f["margin"] - (x[1] - x[2])) < 0.1 for n, x in expected.items()))
                if not ties:
                    bad.append(f"{label}: {check} {k}: here {e and e[1:3]}, program {f and (f['measured'], f['limit'])}")
                continue
            _, distance, asked, exact, slack = expected[k]
            f = theirs[k]
            if exact:
                # The program's sweeps may be a little larger than the real thing, never smaller.
                nearest_to = min(max(f["measured"], distance - slack), distance)
                same(f"{check} {k} distance", nearest_to, f["measured"], 0.15 / max(1, abs(distance)))
            elif f["measured"] >= 0:
                bad.append(f"{label}: {check} {k}: overlaps here, program {f['measured']}")
            if exact:
                same(f"{check} {k} asked", asked, f["limit"])
    ext = t.extents()
    for check in ("ground-clearance", "overall-width", "behind-cab", "zone-fit", "zone-mass"):
        for f in (f for f in found.get(check, []) if f["measured"] is not None):
            same(f"{check} {f['subject']}", ext.get((check, f["subject"]), math.nan), f["measured"])
    return bad, count


def variants(plan):
    yield "", plan
    if "template" not in plan["chassis"]:
        return
    c = CHASSIS[plan["chassis"]["template"]]
    def changed(**kw):
        new = copy.deepcopy(plan)
        new.setdefault("changes", {}).update(kw)
        return new
    wheelbase = c["dimensions"]["wheelbase_mm"]
    yield "+400", changed(wheelbase_mm=wheelbase + 400)
    yield "-200", changed(wheelbase_mm=wheelbase - 200)
    if "fifth_wheel" in c:
        for end in ("min", "max"):
            yield f"fifth wheel {end}", changed(fifth_wheel_ahead_mm=c["fifth_wheel"][f"ahead_{end}_mm"])
    lifts = [a["id"] for a in c["axle"] if a["kind"] == "lift"]
    if lifts:
        yield "lift up", changed(raised=lifts)
        yield "lift up in the driven group", in_one_group(changed(raised=lifts), c)
    if "fifth_wheel" in c:
        new = copy.deepcopy(plan)
        new["loads"]["payload"] = dict(mass_kg=700, at=dict(cg=dict(x_mm=2500, y_mm=120, z_mm=1300)))
        yield "a load on the tractor too", new
    if any(PARTS.get(p["part"], {}).get("contents") for p in plan["placed"]):
        new = copy.deepcopy(plan)
        for p in new["placed"]:
            p["fill"] = 0.0
        yield "tanks empty", new


def in_one_group(plan, chassis):
    """The same chassis with all its axles behind the first in one group, weighed as one."""
    c = copy.deepcopy(chassis)
    first, *rest = c["group"][1:]
    c["group"] = c["group"][:1] + [first]
    rows = {t["group"]: t for t in c["ticket"]["axle"]}
    for g in rest:
        first["axles"] += g["axles"]
        first["gawr_kg"] += g["gawr_kg"]
        for k in ("load_kg", "left_kg", "right_kg"):
            rows[first["id"]][k] += rows[g["id"]][k]
        c["ticket"]["axle"].remove(rows[g["id"]])
    plan["chassis"] = dict(inline=c)
    return plan


def main():
    files = [pathlib.Path(a) for a in sys.argv[1:]]
    files = files or [f for d in ("examples", "examples/wrong") for f in sorted((ROOT / d).glob("*.json"))
                      if not f.name.endswith(".schema.json")]
    bad, count = [], 0
    for file in files:
        for name, plan in variants(json.loads(file.read_text())):
            b, n = compare(f"{file.stem}{' ' + name if name else ''}", plan, scan=not name)
            bad, count = bad + b, count + n
            print("".join(line + "\n" for line in b), end="", flush=True)
    print(f"{count} numbers compared, {len(bad)} differ")
    sys.exit(bool(bad))


if __name__ == "__main__":
    main()
