"""The frame, the turning circle and the moved chassis for `second_road.py`, from the definitions.

Frame: each rail is a list of loads and of pushes at the mounts; shear and moment at a place are the sums
over everything ahead of it (the program runs from piece to piece). Places are every load's own, both ends
of what is spread, and a grid of 1 mm between them. Loads on several mounts are shared by the least sum of
squares (numpy), which is what equal springs do.

Turn: the two balances of side forces and of their moments are solved as they stand; radii are the largest
and smallest over points on everything's outline (scipy's convex hull, its edges cut into 2 mm), and the
turn within a stated radius is found by bisection.

Moved chassis: every pair of what rides, turns and stays is measured on the donor and on the finished
truck; a pair counts when it has come nearer and when the two have not moved alike.
"""

import math

import numpy as np
from scipy.optimize import brentq
from scipy.spatial import ConvexHull

G = 9.80665
ROUND = 0.95  # what round corners leave of a channel


# ---- the frame ---------------------------------------------------------------------------------

class Rails:
    """What lies on the rails in one case: point loads (x, kg, share on the right, couple in kg mm) and
    spread ones (from, to, kg, share on the right)."""

    def __init__(self, truck, case):
        self.t, self.case = truck, case
        self.points, self.spreads = [], []
        d, rail = truck.donor["dimensions"], truck.donor["rail"]
        self.apart = d["frame_width_mm"] - rail["wall_mm"]
        self.front, self.end = rail["front_x_mm"], truck.end
        self.donor()
        self.unlisted()
        self.aboard()

    def right(self, y):
        return min(max(0.5 + y / self.apart, 0.0), 1.0)

    def point(self, kg, x, y, rows=None):
        share = self.right(y)
        if not rows:
            self.points.append((x, kg, share, 0.0))
            return
        forces, left = on_mounts(kg, kg * x, rows)
        for n, (row, force) in enumerate(zip(rows, forces)):
            self.points.append((row, force, share, left if n == 0 else 0.0))

    def donor(self):
        t = self.t
        far = lambda x: x + t.by if t.by and x > t.splice else x
        for k in t.donor.get("kept", []):
            if k.get("unsprung"):
                continue
            y = k["cg"].get("y_mm", 0)
            if "spread_mm" not in k:
                self.point(k["mass_kg"], far(k["cg"]["x_mm"]), y)
                continue
            a, b = k["spread_mm"]
            whole = self.right(y)
            if not t.by or t.splice <= a or t.splice >= b:
                by = t.by if t.by and t.splice <= a else 0
                self.spreads.append((a + by, b + by, k["mass_kg"], whole))
            else:
                first = k["mass_kg"] * (t.splice - a) / (b - a)
                self.spreads.append((a, t.splice, first, whole))
                self.spreads.append((t.splice + t.by, b + t.by, k["mass_kg"] - first, whole))
        for h in t.donor["hardware"]:
            if "unsprung_axle" not in h and h["id"] not in t.stripped:
                self.point(h["mass_kg"], far(h["cg"]["x_mm"]), h["cg"]["y_mm"])
        if t.by:
            r = t.donor["rail"]
            area = r["depth_mm"] * r["wall_mm"] + 2 * (r["flange_mm"] - r["wall_mm"]) * r["wall_mm"]
            ends = sorted((t.splice, t.splice + t.by))
            self.spreads.append((*ends, 2 * area * 7850e-9 * t.by, 0.5))
        old, new = t.donor.get("fifth_wheel"), t.c.get("fifth_wheel")
        if old and old["ahead_mm"] != new["ahead_mm"]:
            x = t.c["dimensions"]["wheelbase_mm"]
            self.point(-old["mass_kg"], x - old["ahead_mm"], 0)
            self.point(old["mass_kg"], x - new["ahead_mm"], 0)

    def so_far(self):
        kg = sum(p[1] for p in self.points) + sum(s[2] for s in self.spreads)
        moment = sum(p[0] * p[1] for p in self.points) + sum((s[0] + s[1]) / 2 * s[2] for s in self.spreads)
        return kg, moment

    def unlisted(self):
        """Evenly on each half of the rails, until mass and moment are the scale's."""
        t = self.t
        chassis = [m for m in t.masses("unladen") if m is not None]
        # The scale, the strip-out and what the new wheelbase moved; parts are not among them.
        parts = sum(i["mass"] + i["full"] * i["fill"] for i in t.items)
        at = sum(i["mass"] * i["cg"][0] + i["full"] * i["fill"] * (i["lo"][0] + i["hi"][0]) / 2 for i in t.items)
        kg = sum(m[0] for m in chassis) - parts
        moment = sum(m[0] * m[1] for m in chassis) - at
        for a in t.c["axle"]:
            kg -= self.own_unsprung(a)
            moment -= self.own_unsprung(a) * a["x_mm"]
        listed = self.so_far()
        kg, moment = kg - listed[0], moment - listed[1]
        half = (self.front + self.end) / 2
        a = np.array([[1, 1], [(self.front + half) / 2, (half + self.end) / 2]])
        ahead, behind = np.linalg.solve(a, [kg, moment])
        self.spreads += [(self.front, half, ahead, 0.5), (half, self.end, behind, 0.5)]
        self.missing_kg = kg

    def own_unsprung(self, axle):
        off = sum(h["mass_kg"] for h in self.t.donor["hardware"]
                  if h.get("unsprung_axle") == axle["id"] and h["id"] in self.t.stripped)
        return axle["unsprung_kg"] - off

    def aboard(self):
        t, loads = self.t, self.t.plan.get("loads", {})
        for i in t.items:
            rows = self.rows(i)
            if not i["beam"]:
                self.point(i["mass"], i["cg"][0], i["cg"][1], rows)
            if i["full"]:
                middle = (i["lo"] + i["hi"]) / 2
                fill = 0.5 if self.case == "half-tanks" else i["fill"]
                self.point(i["full"] * fill, middle[0], middle[1], rows)
        if self.case != "unladen" and "driver_kg" in loads:
            s = t.c["driver_seat"]
            self.point(loads["driver_kg"], s["x_mm"], s["y_mm"])
        if self.case in ("laden", "coupled") and "payload" in loads:
            at, kg = loads["payload"]["at"], loads["payload"]["mass_kg"]
            if "level" in at:
                self.spreads.append((at["level"]["front_x_mm"], at["level"]["rear_x_mm"], kg, 0.5))
            else:
                self.point(kg, at["cg"]["x_mm"], at["cg"]["y_mm"])
        if self.case == "coupled":
            self.point(t.pin_empty + t.payload * t.pin_share, t.pin_x, 0)

    @staticmethod
    def rows(i):
        low, high = i["lo"][0], i["hi"][0]
        stated = i["part"].get("mounts", {}).get("rows_mm", [])
        if stated and i["turn"] % 2 == 0:
            return [low + r if i["turn"] == 0 else high - r for r in stated]
        quarter = (high - low) / 4
        return [low + quarter, high - quarter] if high - low > 1 else [i["cg"][0]]

    def pushes(self, side, totals):
        """What the suspensions push one rail up with: (x, kg, couple)."""
        t, out = self.t, []
        more_kg = sum(p[1] * (p[2] - 0.5) for p in self.points) + sum(s[2] * (s[3] - 0.5) for s in self.spreads)
        more = sum((p[0] * p[1] + p[3]) * (p[2] - 0.5) for p in self.points)
        more += sum((s[0] + s[1]) / 2 * s[2] * (s[3] - 0.5) for s in self.spreads)
        none = t.reactions(t.c, [], {})
        pair = t.reactions(t.c, [(1.0, 0.0)], {})
        lever = t.reactions(t.c, [(1.0, 1000.0)], {})
        sign = 1 if side == "right" else -1
        for g in t.c["group"]:
            one = pair[g["id"]] - none[g["id"]]
            per_mm = (lever[g["id"]] - none[g["id"]] - one) / 1000
            extra = sign * (more_kg * one + more * per_mm)
            down = [(s, t.axle(n)) for s, n in zip(t.shares(t.c, g), g["axles"]) if n not in t.raised]
            whole, force, moment = sum(s for s, _ in down), 0.0, 0.0
            members = [(s / whole if n not in t.raised else 0.0, t.axle(n))
                       for s, n in zip(t.shares(t.c, g), g["axles"])] if down else [
                           (1 / len(g["axles"]), t.axle(n)) for n in g["axles"]]
            for share, a in members:
                kg, m = self.own_unsprung(a), self.own_unsprung(a) * a["x_mm"]
                for i in t.items:
                    if i["beam"] == a["id"]:
                        kg, m = kg + i["mass"], m + i["mass"] * i["cg"][0]
                load = totals[g["id"]] * share if down else 0.0
                f = (load - kg) / 2 + extra * share
                mm = (load * a["x_mm"] - m) / 2 + extra * share * a["x_mm"]
                if g.get("mounts_mm"):
                    force, moment = force + f, moment + mm
                    continue
                self.up(out, f, mm, [a["x_mm"] + r for r in a["suspension"].get("mounts_mm", []) or [0.0]])
            if g.get("mounts_mm"):
                middle = np.mean([t.axle(n)["x_mm"] for n in g["axles"]])
                self.up(out, force, moment, [middle + r for r in g["mounts_mm"]])
        return out

    @staticmethod
    def up(out, force, moment, rows):
        forces, left = on_mounts(force, moment, rows)
        out += [(row, f, left if n == 0 else 0.0) for n, (row, f) in enumerate(zip(rows, forces))]

    def beam(self, side, totals):
        """Places, shear just ahead and just behind, moment just ahead and just behind."""
        part = (lambda r: r) if side == "right" else (lambda r: 1 - r)
        ups = self.pushes(side, totals)
        px = np.array([p[0] for p in self.points] + [u[0] for u in ups])
        pf = np.array([p[1] * part(p[2]) for p in self.points] + [-u[1] for u in ups]) * G
        pc = np.array([p[3] * part(p[2]) for p in self.points] + [-u[2] for u in ups]) * G
        spread = [(a, b, kg * part(r) * G) for a, b, kg, r in self.spreads if b - a > 1e-9]
        edges = np.unique(np.concatenate([px, [e for s in spread for e in s[:2]]] + [
            np.arange(self.front, self.end, 1.0), self.sections_ends()]))
        edges = edges[(edges >= self.front) & (edges <= self.end)]
        shear, moment = [], []
        for after in (False, True):
            ahead = (px[None, :] <= edges[:, None]) if after else (px[None, :] < edges[:, None])
            arm = edges[:, None] - px[None, :]
            v = -(ahead * pf).sum(1)
            m = (ahead * (pc - pf * arm)).sum(1)
            for a, b, n in spread:
                on = np.clip(edges - a, 0, b - a)
                v = v - n / (b - a) * on
                m = m - n / (b - a) * on * (edges - a - on / 2)
            shear.append(v)
            moment.append(m)
        left_over = pf.sum() + sum(s[2] for s in spread)
        return edges, np.array(shear), np.array(moment), left_over

    def sections_ends(self):
        out = [self.front, self.end]
        for r in reinforcements(self.t):
            out += [r["from_x_mm"], r["to_x_mm"]]
        for x in joints(self.t):
            out += [x - 100, x + 100]
        return np.array(out, float)


def on_mounts(force, moment, rows):
    """Least squares: equal springs on a stiff thing. What one row cannot take is left over."""
    a = np.array([np.ones(len(rows)), rows])
    if len(rows) == 1:
        return [force], moment - force * rows[0]
    scale = np.array([1.0, 1000.0])
    found = np.linalg.lstsq(a / scale[:, None], np.array([force, moment]) / scale, rcond=None)[0]
    return list(found), 0.0


def joints(t):
    if abs(t.by) < 0.5:
        return []
    return [t.splice, t.splice + t.by] if t.by > 0 else [t.splice]


def reinforcements(t):
    out = []
    for r in t.donor.get("reinforcement", []):
        if not t.by:
            out.append(r)
            continue
        if min(r["to_x_mm"], t.splice) > r["from_x_mm"]:
            out.append({**r, "to_x_mm": min(r["to_x_mm"], t.splice)})
        cut = max(t.splice, t.splice - t.by)
        if r["to_x_mm"] > max(r["from_x_mm"], cut):
            out.append({**r, "from_x_mm": max(r["from_x_mm"], cut) + t.by, "to_x_mm": r["to_x_mm"] + t.by})
    return out + t.plan.get("frame", {}).get("reinforcements", [])


def inertia(p):
    b, d, w = p.get("flange_mm"), p["depth_mm"], p["wall_mm"]
    if b is None:
        return w * d ** 3 / 12
    # Web and two flanges, each about its own middle and moved (Steiner).
    return w * d ** 3 / 12 + 2 * ((b - w) * w ** 3 / 12 + (b - w) * w * ((d - w) / 2) ** 2)


def resists(t, x):
    """Moment at which one rail yields there, N mm, and its section modulus, mm³."""
    rail = t.donor["rail"]
    own = rail["section_modulus_mm3"] * rail["depth_mm"] / 2 if "section_modulus_mm3" in rail else ROUND * inertia(rail)
    here = [r for r in reinforcements(t) if r["from_x_mm"] <= x <= r["to_x_mm"]]
    profiles = [next(iter(r["profile"].values())) for r in here]
    whole = own + sum(inertia(p) for p in profiles)
    loss = t.plan.get("frame", {}).get("weld_loss", 0.15)
    left = 1 - loss if any(abs(x - j) < 100 for j in joints(t)) else 1.0
    limits = [rail["yield_mpa"] * 2 * whole / rail["depth_mm"]]
    limits += [r.get("yield_mpa", rail["yield_mpa"]) * 2 * whole / p["depth_mm"] for r, p in zip(here, profiles)]
    return min(limits) * left, 2 * whole / rail["depth_mm"]


def frame(t, answer, same):
    """Peaks of shear and moment of both rails in each case, and where the rails are used most."""
    rows = answer["frame"]["cases"]
    if not rows:
        return
    worst = None
    for case in dict.fromkeys(r["case"] for r in rows):
        rails = Rails(t, case)
        same(f"frame {case} unlisted", rails.missing_kg, answer["frame"]["unlisted_kg"], 1e-4)
        pin = t.pin_empty + t.payload * t.pin_share if case == "coupled" else 0
        weighed = {r["group"]: r["load_kg"] for r in t.donor["ticket"]["axle"]}
        totals = t.reactions(t.c, t.masses(case) + ([(pin, t.pin_x, 0, 0)] if pin else []), weighed)
        for row in (r for r in rows if r["case"] == case):
            x, v, m, left_over = rails.beam(row["rail"], totals)
            name = f"frame {case} {row['rail']}"
            same(f"{name} balance", 0.0, left_over / 1e6)
            peak = np.unravel_index(np.argmax(np.abs(m)), m.shape)
            # A grid of 1 mm misses the top of a parabola by less than a millionth of it.
            same(f"{name} peak", m[peak] / 1000, row["peak_nm"], 1e-5)
            shear = np.unravel_index(np.argmax(np.abs(v)), v.shape)
            same(f"{name} shear", abs(v[shear]), abs(row["shear_n"]), 1e-6)
            if "yield_mpa" not in t.donor["rail"]:
                continue
            # Where two sections meet, the weaker one counts.
            ends = np.unique(np.clip(rails.sections_ends(), x[0], x[-1]))
            held = np.array([resists(t, (a + b) / 2)[0] for a, b in zip(ends, ends[1:])])
            last = len(held) - 1
            ahead = np.clip(np.searchsorted(ends, x, "left") - 1, 0, last)
            behind = np.clip(np.searchsorted(ends, x, "right") - 1, 0, last)
            used = np.abs(m).max(0) / np.minimum(held[ahead], held[behind])
            k = int(np.argmax(used))
            if worst is None or used[k] > worst[0]:
                worst = (used[k], x[k], np.abs(m[:, k]).max())
    theirs = answer["frame"]["worst"]
    if worst and theirs:
        same("frame factor", 1 / worst[0], theirs["factor"], 1e-4)
        same("frame worst moment", worst[2] / 1000, abs(theirs["moment_nm"]), 1e-3)
        stress = [worst[2] / resists(t, worst[1] + e)[1] for e in (-1e-6, 0, 1e-6)]
        nearest = min(stress, key=lambda s: abs(s - theirs["stress_mpa"]))
        same("frame stress", nearest, theirs["stress_mpa"], 1e-3)


# ---- the turn ----------------------------------------------------------------------------------

def outline(t, bounds):
    """Points of everything hard as seen from above."""
    d, out = t.c["dimensions"], []
    def add(lo, hi):
        out.extend((a, b) for a in (lo[0], hi[0]) for b in (lo[1], hi[1]))
    half = d["overall_width_mm"] / 2
    add((-d["bumper_to_axle_mm"], -half), (max(t.boc, 0), half))
    for name, kind, solids, _ in t.bodies():
        if solids:
            add(*bounds(solids))
    for _, _, tyre in t.tyres():
        add(*bounds([tyre]))
    for i in t.items:
        for solid in i["solids"] if not i["soft"] else []:
            add(*bounds([solid]))
    return np.array(out)


def moving(t, answer, same, bounds):
    """Circles at full lock and within the stated radius, off-tracking, swing of the tail."""
    row = answer["moving"]
    down = [a for a in t.c["axle"] if a["id"] not in t.raised]
    first = down[0]
    stiff = np.array([4.0 if a["tyres"]["dual"] else 2.0 for a in down])
    xs = np.array([float(a["x_mm"]) for a in down])
    lock = lambda a: math.tan(math.radians(a["steer_angle_deg"])) if a["kind"] == "steer" else 0.0
    steer = np.array([lock(a) / lock(first) for a in down])
    # Slip of each axle for a unit of steer: steer − (c − x) k; side forces and their moments vanish.
    balance = np.array([[-(stiff).sum(), (stiff * xs).sum()], [-(stiff * xs).sum(), (stiff * xs * xs).sum()]])
    ck, k = np.linalg.solve(balance, -np.array([(stiff * steer).sum(), (stiff * xs * steer).sum()]))
    centre, wheelbase = ck / k, 1 / k
    same("turning centre", centre, row["turning_centre_mm"])
    same("equivalent wheelbase", wheelbase, row["equivalent_wheelbase_mm"])
    offset = first.get("steer_offset_mm", 0.0)
    pivots = first["track_mm"] - 2 * offset
    inner = lambda r: math.degrees(math.atan2(wheelbase, r - pivots / 2)) - first["steer_angle_deg"]
    radius = brentq(inner, pivots / 2 + 1, 1e6, xtol=1e-9)
    if "steer_outer_deg" in first:
        outer = lambda r: math.degrees(math.atan2(wheelbase, r + pivots / 2)) - first["steer_outer_deg"]
        radius = max(radius, brentq(outer, 1, 1e6, xtol=1e-9))
    kerb = math.hypot(radius + pivots / 2, centre) + offset + first["tyres"]["width_mm"] / 2
    same("circle between kerbs", 2 * kerb, row["kerb_circle_mm"])
    points = outline(t, bounds)
    if not t.plan.get("moving", {}).get("turn_left"):
        points = points * [1, -1]
    far = lambda r: np.hypot(points[:, 0] - centre, points[:, 1] + r).max()
    same("circle between walls", 2 * far(radius), row["wall_circle_mm"])
    law = t.sizes.get("turning_outer", {})
    stated = t.plan.get("moving", {}).get("turn_outer_mm", law.get("m", 0) * 1000 or 13716.0)
    if far(radius) < stated:
        radius = brentq(lambda r: far(r) - stated, radius, 1e6, xtol=1e-9)
    same("stated turn outermost", far(radius), row["stated_outer_mm"])
    hull = points[ConvexHull(points).vertices]
    edge = np.concatenate([np.linspace(a, b, max(2, int(np.linalg.norm(b - a) / 2)))
                           for a, b in zip(hull, np.roll(hull, -1, axis=0))])
    near = np.hypot(edge[:, 0] - centre, edge[:, 1] + radius).min()
    if row["stated_inner_mm"] > 0:
        same("stated turn innermost", near, row["stated_inner_mm"], 1e-6)
    side = points[:, 1].max()
    tail = points[points[:, 0] > centre]
    swing = max([0.0] + list(np.hypot(radius + tail[:, 1], tail[:, 0] - centre) - radius - side))
    same("swing of the tail", swing, row["tail_swing_mm"], 1e-6)
    front = math.hypot(radius, centre)
    last = radius
    if t.trailer:
        pin = math.hypot(radius, centre - t.pin_x)
        n, gap, long = t.trailer["axle_count"], t.trailer["axle_spacing_mm"], t.to_axles()
        places = long + gap * (np.arange(n) - (n - 1) / 2)
        turn = (places ** 2).mean() / long  # axles that do not steer: no moment about the kingpin's side force
        same("needs a path", float(pin <= turn), float(row["needs_path"]))
        if pin <= turn:
            return
        last = math.sqrt(pin ** 2 - turn ** 2)
    same("off-tracking", front - last, row["steady_off_tracking_mm"])


# ---- the moved chassis -------------------------------------------------------------------------

def moved_pairs(t, donor, tools):
    """(names, distance, asked, exact, slack) of pairs of the chassis that have come nearer."""
    bounds, gap_of, near = tools
    new, old = movers(t), movers(donor)
    out = []
    for i, a in enumerate(new):
        for j in range(i + 1, len(new)):
            b = new[j]
            alike = lambda p, q: tuple(round(float(p_ - q_), 3) for p_, q_ in zip(
                (bounds(p["solids"])[0][0], bounds(p["solids"])[1][0]), (bounds(q["solids"])[0][0], bounds(q["solids"])[1][0])))
            if alike(a, old[i]) == alike(b, old[j]) or (a["axle"] and a["axle"] == b["axle"]):
                continue
            if a["tyre"] and b["tyre"] or not near(a["solids"], b["solids"]):
                continue
            now = gap_of(t, a, b)
            was = gap_of(donor, old[i], old[j])
            if now is None or (was is not None and now[0][0] > was[0][0] - 0.05):
                continue
            out.append((f"{a['id']}.{b['id']}", now))
    return out


def movers(t):
    out = [dict(id=name, tyre=axle, axle=axle["id"], solids=[tyre], asked=75, travel=None)
           for axle, name, tyre in t.tyres()]
    fixed = []
    for name, kind, solids, asked in t.bodies():
        if kind == "rail":
            continue
        on = t.rides.get(name)
        one = dict(id=name, tyre=None, axle=on, solids=solids, asked=asked, travel=on)
        (out if on else fixed).append(one)
    return out + fixed
