"""Approach, breakover and departure, and the trailer on a ramp, tried out.

The program turns the line to a wheel's centre by the angle whose sine is radius over distance, looks
for the least sum between two axles by thirds, and stands a polygon of 24 sides around what is round.
Here a straight road is tilted about each tyre until it touches (halving), every place of an edge is
tried in steps down to a millimetre, and round things are round: the program may find up to what its polygon adds
less, never more. The pitched trailer is a turned box in FCL. Used by `second_road.py`.
"""

import math

import fcl
import numpy as np

POLYGON = 1 / math.cos(math.pi / 24)  # how much larger the program draws what is round and lies across
REACH_MM = 150.0  # farther on a ramp is not listed
LEG_MM = 150.0


def lowest(t, grown):
    """Low edges of everything hard but the tyres on the road: (x from, x to, z, rides on an axle, whose)."""
    out = []
    d = t.c["dimensions"]
    if "bumper_bottom_mm" in d:
        out.append((-d["bumper_to_axle_mm"], -d["bumper_to_axle_mm"], d["bumper_bottom_mm"], False, "bumper"))
    things = [(i["tag"], i["solids"], i["beam"] is not None) for i in t.items if not i["soft"]]
    things += [(b[0], b[2], b[1] == "axle") for b in t.bodies()]
    things += [(name, [tyre], True) for axle, name, tyre in t.tyres() if axle["id"] in t.raised]
    for name, solids, rides in things:
        for s in solids:
            if s[0] == "cyl":
                if s[1][0] == s[2][0] and s[1][2] == s[2][2]:
                    r = s[3] * (POLYGON if grown else 1)
                    for q in np.linspace(math.pi, 2 * math.pi, 181):
                        x = s[1][0] + r * math.cos(q)
                        out.append((x, x, s[1][2] + r * math.sin(q), rides, name))
                    continue
                v = (s[2] - s[1]) / np.linalg.norm(s[2] - s[1])
                reach = s[3] * np.sqrt(np.maximum(0, 1 - v * v))
                lo, hi = np.minimum(s[1], s[2]) - reach, np.maximum(s[1], s[2]) + reach
            else:
                lo, hi = s[1], s[2]
            out.append((lo[0], hi[0], lo[2], rides, name))
    return out


def tilted(away, z, radius):
    """Degrees by which a road that rolls about the tyre has to be tilted to touch points so far from the
    axle at this height (arrays); infinite within the tyre's silhouette."""
    away, z = np.asarray(away, float), np.asarray(z, float)
    clear = (away > 0) & (np.hypot(away, z - radius) > radius)
    low, high = np.full(away.shape, -math.pi / 2 + 1e-9), np.full(away.shape, math.pi - 1e-9)
    for _ in range(60):
        q = (low + high) / 2
        # The road touches the tyre at (r sin q, r - r cos q) and goes on in the direction (cos q, sin q).
        above = np.cos(q) * (z - radius + radius * np.cos(q)) - np.sin(q) * (away - radius * np.sin(q)) > 0
        low, high = np.where(above, q, low), np.where(above, high, q)
    return np.where(clear, np.degrees((low + high) / 2), np.inf)


def ends(t, grown, only=None):
    """Approach, breakover, departure, of everything or of one thing alone; None where nothing stands."""
    axles = sorted((a for a in t.c["axle"] if a["id"] not in t.raised), key=lambda a: a["x_mm"])
    d = t.c["dimensions"]
    low = [p for p in lowest(t, grown) if only in (None, p[4])]
    rise = (d["frame_top_unladen_mm"] - d["frame_top_laden_mm"]) / max(d["wheelbase_mm"], 1)
    a, b, z = (np.array([p[k] for p in low], float) for k in range(3))
    sprung = np.array([not p[3] for p in low])

    def end(axle, way):
        x = a if way < 0 else b
        both = [tilted(way * (x - axle["x_mm"]), h, axle["tyres"]["loaded_radius_mm"]) for h in (z, z + sprung * rise * x)]
        least = np.minimum(*both).min(initial=np.inf)
        return float(least) if least < np.inf else None

    def between():
        least = np.inf
        for front, rear in zip(axles, axles[1:]):
            def both(x, h):
                one = tilted(x - front["x_mm"], h, front["tyres"]["loaded_radius_mm"])
                return one + tilted(rear["x_mm"] - x, h, rear["tyres"]["loaded_radius_mm"])

            lo, hi = np.maximum(a, front["x_mm"]), np.minimum(b, rear["x_mm"])
            edges = [(p, q, h) for p, q, h in zip(lo, hi, z) if p <= q]
            if not edges:
                continue
            # Each edge every 20 mm, and those that come near the least of all every millimetre.
            tried = [np.append(np.arange(p, q, 20.0), q) for p, q, _ in edges]
            found = both(np.concatenate(tried), np.concatenate([np.full(x.shape, e[2]) for x, e in zip(tried, edges)]))
            found = [part.min() for part in np.split(found, np.cumsum([len(x) for x in tried])[:-1])]
            for (p, q, h), coarse in zip(edges, found):
                if coarse < min(found) + 1.0:
                    x = np.append(np.arange(p, q, 1.0), q)
                    least = min(least, float(both(x, np.full(x.shape, h)).min()))
        return least if least < np.inf else None

    return {"approach": end(axles[0], -1) if "bumper_bottom_mm" in d else None, "breakover": between(),
            "departure": end(axles[-1], 1)}


def pitch(t, percent):
    last = max(a["x_mm"] for a in t.c["axle"] if a["id"] not in t.raised)
    # The kingpin is past the break already, so the trailer pitches with the tractor by its share.
    share = (last - t.pin_x) / t.trailer["kingpin_to_axles_mm"]
    return math.atan(percent / 100) - math.atan(percent / 100 * share)


def ramp(t, sign, percent, fcl_object):
    """Least room between tractor and pitched trailer; negative when they overlap, None when far off."""
    r, angle = t.trailer, sign * pitch(t, percent)
    pin = np.array([t.pin_x, 0, t.c["fifth_wheel"]["top_z_mm"]])
    c, s = math.cos(angle), math.sin(angle)
    turn = np.array([[c, 0, -s], [0, 1, 0], [s, 0, c]])
    half, legs = r["width_mm"] / 2, r["legs"]
    x = t.pin_x + legs["behind_kingpin_mm"]
    boxes = [((t.pin_x - r["nose_ahead_mm"], -half, r["nose_z_mm"]), (t.pin_x + r["rear_mm"], half, r["top_z_mm"])),
             ((x, -legs["width_mm"] / 2, legs["bottom_z_mm"]), (x + LEG_MM, legs["width_mm"] / 2, r["nose_z_mm"]))]
    things = [i["solids"] for i in t.items if not i["soft"]]
    things += [b[2] for b in t.bodies() if b[1] != "fifth-wheel"] + [[tyre] for _, _, tyre in t.tyres()]
    least = math.inf
    for lo, hi in boxes:
        lo, hi = np.array(lo, float), np.array(hi, float)
        middle = pin + turn @ ((lo + hi) / 2 - pin)
        box = fcl.CollisionObject(fcl.Box(*(hi - lo)), fcl.Transform(turn, middle))
        for solid in (s for solids in things for s in solids):
            other = fcl_object(solid)
            if fcl.collide(other, box, fcl.CollisionRequest(), fcl.CollisionResult()):
                return -1.0
            least = min(least, fcl.distance(other, box, fcl.DistanceRequest(), fcl.DistanceResult()))
    return least if least <= REACH_MM else None


def compare(t, answer, same, fcl_object):
    real, larger = ends(t, False), ends(t, True)
    for name, mine in real.items():
        theirs = answer[name]
        if mine is None or theirs is None:
            same(f"{name}: is there one", float(mine is not None), float(theirs is not None))
            continue
        # Between the round thing and a circle that holds the whole polygon.
        low, high = sorted((mine, larger[name]))
        same(f"{name} angle", min(max(theirs["deg"], low), high), theirs["deg"], 2e-4)
        who = theirs["limited_by"]
        if any(i["tag"] == who for i in t.items):
            low, high = sorted((ends(t, False, who)[name], ends(t, True, who)[name]))
            same(f"{name} by {who}", min(max(theirs["deg"], low), high), theirs["deg"], 2e-4)
    if not t.trailer:
        return
    percent = t.plan.get("moving", {}).get("ramp_percent", 11.0)
    for name, sign in (("ramp_dip_mm", 1), ("ramp_crest_mm", -1)):
        mine, theirs = ramp(t, sign, percent, fcl_object), answer[name]
        if mine is None or theirs is None:
            same(f"{name}: near", -1.0 if mine is None else mine, -1.0 if theirs is None else theirs, 1e-4)
        elif mine < 0 or theirs < 0:
            same(f"{name}: strikes", float(mine < 0), float(theirs < 0))
        else:
            same(name, mine, theirs, 1e-4)
