"""What any law in the form of the law files allows, and where fifth wheel and trailer axles stand best.

The second road for payload and places: every rule of a law is read from its file again, the room to
every limit is worked out at two payloads from loads that are solved anew, and places are tried one by
one. The program takes no place: it works out where straight lines cross. Used by `second_road.py`.
"""

import copy
import math

LB, IN = 0.45359237, 25.4
SLACK_MM = 1e-6
# Longest steps at which a slider is tried between its ends, mm.
TRIED_MM = 25.0


def kg(figure):
    units = {"lb": LB, "t": 1000.0, "kg": 1.0}
    return next((figure[k] * f for k, f in units.items() if k in figure), None) if figure else None


def mm(figure):
    units = {"in": IN, "m": 1000.0, "mm": 1.0}
    return next((figure[k] * f for k, f in units.items() if k in figure), None) if figure else None


class Road:
    """A truck on the road under its law: its axles front to rear, and what each set of them may weigh."""

    def __init__(self, t, law):
        self.t, self.law = t, law
        self.axles = []
        for a in t.c["axle"]:
            if a["id"] in t.raised:
                continue
            mine = [h for h in t.donor["hardware"] if h.get("drive_axle") and h.get("unsprung_axle") == a["id"]]
            off = any(h["id"] in t.stripped for h in mine)
            driven = any(i["beam"] == a["id"] for i in t.items) or (a["kind"] == "drive" and not off)
            group = next(g for g in t.c["group"] if a["id"] in g["axles"])
            share = dict(zip(group["axles"], t.shares(t.c, group)))
            down = sum(v for k, v in share.items() if k not in t.raised)
            self.axles.append(dict(
                id=a["id"], x=a["x_mm"], group=group["id"], share=share[a["id"]] / down, trailer=False, driven=driven,
                steered=a["kind"] == "steer", friendly=a["tyres"]["dual"] and a["suspension"]["kind"] == "air",
                width=a["tyres"]["width_mm"] * (4 if a["tyres"]["dual"] else 2)))
        if t.trailer:
            n, r = t.trailer["axle_count"], t.trailer
            width = r["tyre_width_mm"] * r["tyres_per_axle"] if "tyre_width_mm" in r and "tyres_per_axle" in r else None
            for i in range(n):
                x = t.pin_x + r["kingpin_to_axles_mm"] + (i - (n - 1) / 2) * r["axle_spacing_mm"]
                self.axles.append(dict(id=f"trailer-{i + 1}", x=x, group=None, share=1 / n, trailer=True, driven=False,
                                       steered=False, friendly=False, width=width))
        self.axles.sort(key=lambda a: a["x"])
        self.allowance = self.claimed()
        self.gross = self.gross_kg(True) or math.inf

    # ---- the law's own rules ----

    def claimed(self):
        choice = self.t.plan.get("law", {})
        rows = self.law.get("allowance", []) if choice.get("allowance") else []
        which = choice.get("which")
        row = next((a for a in rows if which in (None, a["id"])), None)
        fuels = [i["part"]["power_source"].get("fuel") for i in self.t.items if "power_source" in i["part"]]
        words = {"natural-gas": "gas-generator", "diesel": "diesel-generator", "hydrogen": "hydrogen"}
        powers = [words[f] for f in fuels] if fuels else ["battery"]
        named = row and all(p in row["names"] + row.get("possible", []) for p in powers)
        return row if named else None

    def more(self, what):
        a = self.allowance
        return kg(a["adds"]) if a and what in a["raises"] else 0.0

    def gross_kg(self, whole):
        """Of truck and trailer, or of a truck that pulls one; None where the law does not say."""
        truck = [a for a in self.axles if not a["trailer"]]
        behind = [a for a in self.axles if a["trailer"]]
        driven = [a for a in truck if a["driven"]]
        friendly = bool(driven) and all(a["friendly"] for a in driven)
        of = "combination" if whole and self.t.trailer else "motor-vehicle"
        found = []
        for rule in self.law.get("gross", []):
            fits = rule.get("of") == of or (whole and "of" not in rule)
            fits &= rule.get("truck_axles") in (None, len(truck)) and rule.get("trailer_axles") in (None, len(behind))
            fits &= len(self.axles) >= rule.get("axles_from", 0)
            fits &= sum(a["steered"] for a in truck) >= rule.get("steered_from", 0)
            fits &= friendly or not rule.get("road_friendly")
            fits &= bool(self.t.plan.get("law", {}).get("intermodal")) or not rule.get("intermodal")
            if "trailer_above" in rule:
                fits &= bool(self.t.trailer) and self.t.trailer["axle_spacing_mm"] > mm(rule["trailer_above"])
            if fits:
                found.append(kg(rule["limit"]))
        if not found:
            return None
        base = max(found)
        ceiling = kg((self.allowance or {}).get("ceiling")) or math.inf
        return min(base + self.more("gross"), max(ceiling, base))

    def one_kg(self, a):
        limits = []
        figure = self.law.get("driven_axle") if a["driven"] and "driven_axle" in self.law else self.law.get("single_axle")
        if kg(figure) is not None:
            limits.append(kg(figure) + self.more("single-axle"))
        width = self.law.get("tyre_width", {}).get("steered" if a["steered"] else "others")
        if width and a["width"]:
            limits.append(width["lb_per_in"] * LB / IN * a["width"] if "lb_per_in" in width else width["kg_per_mm"] * a["width"])
        return min(limits, default=None)

    def step(self, part):
        spread = part[-1]["x"] - part[0]["x"]
        between = min(b["x"] - a["x"] for a, b in zip(part, part[1:]))
        sides = {a["trailer"] for a in part}
        of = None if len(sides) > 1 else "trailer" if True in sides else "motor-vehicle"
        for group in self.law.get("group", []):
            at = spread if group.get("measured") == "first-to-last" else between
            if group.get("axles") not in (None, len(part)) or group.get("of") not in (None, of):
                continue
            for s in group["step"]:
                if ("below" not in s or at < mm(s["below"]) - SLACK_MM) and ("to" not in s or at <= mm(s["to"]) + SLACK_MM):
                    return s
        return None

    def class_kg(self, part):
        if len(part) == 1:
            return self.one_kg(part[0])
        s = self.step(part)
        if s is None:
            return None
        driven = [a for a in part if a["driven"]]
        limit = kg(s["limit"])
        if driven and all(a["friendly"] for a in driven) and "road_friendly" in s:
            limit = kg(s["road_friendly"])
        return limit + self.more("single-axle" if s.get("counts_as") == "single-axle" else "tandem")

    def group_kg(self, part):
        found = self.class_kg(part)
        if found is None and len(part) > 1 and "bridge" in self.law:
            rule, n, feet = self.law["bridge"], len(part), (part[-1]["x"] - part[0]["x"]) / IN / 12
            short = {r["axles"]: r["lb"] for r in rule["short"]}
            if n in short and feet < rule["short_below_ft"] - 1e-9:
                pounds = short[n]
            else:
                exact = rule["factor_lb"] * (feet * n / (n - 1) + rule["per_axle"] * n + rule["constant"])
                below = math.floor(exact / rule["round_lb"]) * rule["round_lb"]
                pounds = below + rule["round_lb"] if round(exact - below, 4) > rule["round_lb"] / 2 else below
            single = kg(self.law["single_axle"]) / LB
            pounds = min(pounds, n * single)
            pair = rule.get("tandem_pair")
            steps = [self.step(part[:2]), self.step(part[-2:])]
            tandems = all(s and s.get("counts_as", "tandem") == "tandem" for s in steps)
            if pair and n == 4 and tandems and feet >= pair["from_ft"] - 1e-9:
                pounds = max(pounds, 2 * pair["each_lb"])
            found = pounds * LB + self.more("bridge")
        return None if found is None else min(found, self.gross) if len(part) > 1 else found

    def fullest_kg(self, members):
        """The load of a whole group at which the first of its axles, or sets of neighbours, is full."""
        least = math.inf
        for i in range(len(members)):
            for j in range(i + 1, len(members) + 1):
                part = members[i:j]
                limit, share = self.class_kg(part), sum(a["share"] for a in part)
                if limit is None:
                    if len(part) == 1:
                        return math.inf
                elif share > 0:
                    least = min(least, limit / share)
        return least

    # ---- rooms ----

    def rooms(self, payload):
        """Room to every limit, kg (lengths in mm), by name, with this payload."""
        t, law, out = self.t, self.law, {}
        if not t.trailer:
            t = loaded(t, payload)
        base = copy.copy(t)
        base.law = None
        limits = base.limits()
        for g in limits:
            limits[g] = min(limits[g], self.fullest_kg([a for a in self.axles if a["group"] == g]))
        weighed = {r["group"]: r["load_kg"] for r in t.donor["ticket"]["axle"]}
        ratings, last = t.c["ratings"], "coupled" if t.trailer else "laden"
        pin, behind = 0.0, 0.0
        if t.trailer:
            pin = t.pin_empty + payload * t.pin_share
            behind = t.trailer["tare_kg"] + payload - pin
        for case in ("unladen", "half-tanks", last):
            masses = t.masses(case) + ([(pin, t.pin_x, 0, 0)] if case == "coupled" else [])
            loads = t.reactions(t.c, masses, weighed)
            whole, full = sum(m[0] for m in masses), case == last
            for g, v in loads.items():
                out[case, g] = limits[g] - v
                out[case, g, "lifts off"] = v
            on = [(behind if full else 0.0) * a["share"] if a["trailer"] else loads[a["group"]] * a["share"] for a in self.axles]
            for i in range(len(on)):
                for j in range(i + 2, len(on) + 1):
                    allowed = self.group_kg(self.axles[i:j])
                    if allowed is not None:
                        out[case, "axles", i + 1, j] = allowed - sum(on[i:j])
            mine = lambda what: sum(v for v, a in zip(on, self.axles) if a[what] and not a["trailer"])
            out[case, "steered"] = mine("steered") - 0.2 * whole
            if "gvwr_kg" in ratings:
                out[case, "gvwr"] = ratings["gvwr_kg"] - whole
            alone = self.gross_kg(False) if t.trailer else None
            if alone is not None:
                out[case, "truck alone"] = alone - whole
            if not full:
                continue
            gross = whole + behind
            if "driven_share" in law:
                out["driven"] = mine("driven") - law["driven_share"]["least"] * gross
            if "steered_share" in law:
                out["steered by law"] = mine("steered") - law["steered_share"]["least"] * whole
            out["gross"] = self.gross - gross
            if t.trailer:
                out["fifth wheel"] = t.c["fifth_wheel"]["rating_kg"] - pin
                legal = self.fullest_kg([a for a in self.axles if a["trailer"]])
                out["trailer axles"] = min(legal, t.trailer["axles_rating_kg"]) - behind
                out["trailer"] = t.trailer["payload_max_kg"] - payload
                if "gcwr_kg" in ratings:
                    out["gcwr"] = ratings["gcwr_kg"] - gross
        if t.trailer:
            hard = [i for i in t.items if not i["soft"]]
            front = min([-t.c["dimensions"]["bumper_to_axle_mm"]] + [i["lo"][0] for i in hard])
            rear = max([t.end, t.pin_x + t.trailer["rear_mm"]] + [i["hi"][0] for i in hard])
            sizes, n = law.get("sizes", {}), t.trailer["axle_count"]
            farthest = t.to_axles() + (n - 1) / 2 * t.trailer["axle_spacing_mm"]
            for key, size in (("articulated", rear - front), ("kingpin_to_rear_axle", farthest)):
                if mm(sizes.get(key)) is not None:
                    out[key] = mm(sizes[key]) + 0.5 - size
        return out

    def fills(self):
        """Payload at which each limit is reached, kg; None when one is passed that payload does not mend."""
        empty, some = self.rooms(0.0), self.rooms(1000.0)
        out = {}
        for k, room in empty.items():
            slope = (room - some[k]) / 1000
            if slope > 1e-9:
                out[k] = room / slope
            elif room < -1e-6:
                return None
        return out

    def most(self):
        found = self.fills()
        least = min(found.values(), default=math.inf) if found is not None else -1.0
        return least if 0 <= least < math.inf else None


def loaded(t, payload):
    """The same truck with this payload on itself."""
    new = copy.copy(t)
    new.plan = copy.deepcopy(t.plan)
    loads = new.plan.setdefault("loads", {})
    if "payload" in loads:
        loads["payload"]["mass_kg"] = payload
    else:
        b = t.c["body"]
        loads["payload"] = dict(mass_kg=payload, at=dict(level=dict(
            front_x_mm=b["front_x_mm"], rear_x_mm=b["rear_x_mm"], z_mm=b["floor_z_mm"])))
    return new


def standing(t, law, ahead=None, axles=None):
    """With the fifth wheel and the trailer's axles there; where they are planned when not said."""
    if axles is not None and axles != t.to_axles():
        plan = copy.deepcopy(t.plan)
        plan["loads"]["trailer"]["kingpin_to_axles_mm"] = axles
        t = type(t)(plan)
    return Road(t if ahead is None else t.at_ahead(ahead), law)


def notches(fw):
    """Places to try: every notch, or every 25 mm and both ends."""
    low, high = fw["ahead_min_mm"], fw["ahead_max_mm"]
    step = fw.get("step_mm", TRIED_MM)
    count = int((high - low) / step + 1e-6)
    return sorted({low + i * step for i in range(count + 1)} | (set() if "step_mm" in fw else {high}))


def holes(trailer):
    s = trailer.get("slider")
    return [s["from_mm"] + i * s["step_mm"] for i in range(int((s["to_mm"] + 0.5 - s["from_mm"]) / s["step_mm"]) + 1)] if s else []


def best(t, law, answer, same, scan):
    """What is said to be possible at each best place is so, and with `scan` no place that is tried beats it."""
    rows = {r["place"]: r for r in answer["best"]}
    for name, row in rows.items():
        found = standing(t, law, row["fifth_wheel_ahead_mm"], row["kingpin_to_axles_mm"]).most()
        same(f"best, {name}", -1.0 if found is None else found, row["payload_kg"])
    if not scan:
        return
    tries = {"as planned": [(None, None)]}
    if t.trailer:
        fw = t.c["fifth_wheel"]
        slide, pins = notches(fw), holes(t.trailer)
        if fw["ahead_min_mm"] < fw["ahead_max_mm"]:
            tries["fifth wheel slid"] = [(a, None) for a in slide]
        if pins:
            tries["trailer axles slid"] = [(None, h) for h in pins]
            if "fifth wheel slid" in tries:
                # Both: at the best place that was found, and at every fourth otherwise.
                tries["both slid"] = [(a, h) for h in pins for a in slide[::4]]
    for name, places in tries.items():
        found = [m for m in (standing(t, law, *p).most() for p in places) if m is not None]
        said = rows.get(name)
        top = max(found, default=None)
        # A place that nobody tried may be better than all that were, never worse.
        if said is None:
            same(f"no best, {name}", -1.0 if top is None or not t.trailer else top, -1.0)
        elif top is not None:
            same(f"best of those tried, {name}", max(top, said["payload_kg"]), said["payload_kg"], 0.06 / max(1, top))


def payload(t, law, answer, same):
    """Under a law that only this file reads: the least of all limits, and every figure of the list."""
    found = standing(t, law).fills()
    if found is None or not answer["payload"]:
        return
    for name, by, _, said in answer["payload"]["limits"]:
        near = min(found.values(), key=lambda v: abs(v - said))
        same(f"payload at {name} ({by})", near, said)
    least = min(said for _, _, _, said in answer["payload"]["limits"])
    same("payload, least of all", min(found.values()), least)


def holding(t, law, answer_findings, same):
    """Which places of the fifth wheel, and which holes, keep every limit with the planned load."""
    fits = lambda road: all(room >= -1e-6 for room in road.rooms(t.payload).values())
    for f in answer_findings.get("trailer-axle-position", []):
        if f["severity"] == "not-assessed":
            continue
        good = [h for h in holes(t.trailer) if fits(standing(t, law, None, h))]
        same("some hole holds", float(bool(good)), float(f["limit"] is not None))
        if good:
            near = min((good[0], good[-1]), key=lambda h: abs(h - f["limit"]))
            same("end of the holes", near, f["limit"])
            same("hole as planned", float(any(abs(h - t.to_axles()) < 1 for h in good)), float(f["severity"] != "fails"))


def range_ends(t, law):
    """Ends of every stretch of the fifth wheel's slider on which all limits hold: a scan, then halving."""
    fw = t.c["fifth_wheel"]
    fits = lambda a: all(room >= -1e-6 for room in standing(t, law, a).rooms(t.payload).values())
    count = 41
    low, high = fw["ahead_min_mm"], fw["ahead_max_mm"]
    places = [low + (high - low) * i / (count - 1) for i in range(count)]
    good = [fits(a) for a in places]
    ends = [e for e, g in ((places[0], good[0]), (places[-1], good[-1])) if g]
    for k, (a, b) in enumerate(zip(places, places[1:])):
        if good[k] != good[k + 1]:
            for _ in range(40):
                m = (a + b) / 2
                a, b = (m, b) if fits(m) == good[k] else (a, m)
            ends.append((a + b) / 2)
    return ends or "none"
