#!/usr/bin/env python3
"""Makes tests/published/energy/cross_flow.toml: effectiveness of a cross-flow heat exchanger, both
streams unmixed, by the library `ht`.

Two columns. `approximate` is the library's own reading of the textbook's closed relation, the one that
the planner uses: the two must agree to rounding. `exact` is the library's integral of Mason's solution:
the distance between the two columns is what the closed relation costs, and the test holds it to what the
planner says about it.

    pip install ht==1.2.0 scipy
    python3 tests/generators/exchangers.py
"""

import pathlib

import ht
import scipy
from ht import effectiveness_from_NTU as effectiveness

OUT = pathlib.Path(__file__).resolve().parent.parent / "published" / "energy" / "cross_flow.toml"
UNITS = (0.1, 0.3, 0.662, 1.0, 1.5, 2.0, 3.0, 5.0)
RATIOS = (0.1, 0.25, 0.4255, 0.5035, 0.75, 1.0)

lines = [
    "# Effectiveness of a cross-flow heat exchanger, both streams unmixed. Made by",
    f"# tests/generators/exchangers.py with ht {ht.__version__} and scipy {scipy.__version__}; computed.",
    "# ntu, ratio of the heat-capacity flows, closed relation, exact solution.",
    "rows = [",
]
for ntu in UNITS:
    for ratio in RATIOS:
        closed = effectiveness(ntu, ratio, subtype="crossflow approximate")
        exact = effectiveness(ntu, ratio, subtype="crossflow")
        lines.append(f"    [{ntu}, {ratio}, {closed:.12f}, {exact:.12f}],")
OUT.write_text("\n".join(lines + ["]", ""]))
worst = max(
    abs(effectiveness(n, r, subtype="crossflow approximate") / effectiveness(n, r, subtype="crossflow") - 1)
    for n in UNITS
    for r in RATIOS
)
print(f"closed relation and exact solution differ by at most {worst:.4f}")
