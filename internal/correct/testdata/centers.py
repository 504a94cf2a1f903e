"""Writes centers.txt: best slides found by a linear program, independent of this
package. Run: python3 centers.py > centers.txt (needs numpy and scipy).

For gaps c at even positions, limits lo and hi, and a slide (x, y) in a box, the
program maximizes the margin s subject to
    c_i - x cos - y sin - lo >= s      and      hi - c_i + x cos + y sin >= s.
Units: thousandths of an inch.
"""
import numpy as np
import scipy
from scipy.optimize import linprog

rng = np.random.default_rng(20)
print("# scipy", scipy.__version__,
      "linprog(c, A_ub=A, b_ub=b, bounds=box + [(None, None)], method='highs'), see centers.py")
print("# n least most away toward other ninety | gaps | margin; a dash is no limit; thousandths of an inch")
for case in range(60):
    n = int(rng.choice([8, 9, 12, 16]))
    theta = 2 * np.pi * np.arange(n) / n
    off = rng.uniform(-300, 300, 2)
    gaps = np.round(500 + rng.uniform(-60, 60) + off[0] * np.cos(theta) + off[1] * np.sin(theta)
                    + rng.uniform(0, 60) * np.cos(int(rng.integers(2, 5)) * theta + rng.uniform(0, 6))
                    + rng.uniform(-20, 20, n)).astype(int)
    least, most = [(375, 625), (375, None), (None, 625), (400, 700)][case % 4]
    box = [None] * 4
    if case % 3 == 1:
        box = [int(v) for v in rng.integers(0, 250, 4)]
    A, b = [], []
    for g, t in zip(gaps, theta):
        if least is not None:
            A.append([np.cos(t), np.sin(t), 1]); b.append(g - least)
        if most is not None:
            A.append([-np.cos(t), -np.sin(t), 1]); b.append(most - g)
    bounds = [(-box[0], box[1]), (-box[2], box[3])] if box[0] is not None else [(None, None)] * 2
    res = linprog([0, 0, -1], A_ub=A, b_ub=b, bounds=bounds + [(None, None)], method="highs")
    assert res.status == 0
    dash = lambda v: "-" if v is None else str(v)
    print(n, *map(dash, [least, most] + box), "|", *gaps, "|", f"{-res.fun:.6f}")
