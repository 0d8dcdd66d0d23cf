"""Independent values for the error curve, the variance components and the dropout regression.

General-purpose tools only: NumPy, scipy.optimize, scipy.integrate, and a differential-evolution Markov chain
(ter Braak, Stat. Comput. 16 (2006) 239) that knows nothing of gradients. Run as
    python3 crosscheck.py > ../resources/slowproof/trial/curve/crosscheck.csv
The curve: x = ln v, eps = b + s exp(g), g falls by exp(h) dx from node to node, priors as documented at ShapeModel.
"""
import math
import sys

import numpy as np
import scipy
from scipy import integrate, optimize

rng = np.random.default_rng(20260730)
print(f"# written by crosscheck.py with Python {sys.version.split()[0]}, NumPy {np.__version__}, SciPy {scipy.__version__}")


def put(name, values):
    print(name + "," + ",".join(repr(float(v)) for v in np.atleast_1d(values)))


# ---- error curve -------------------------------------------------------------------------------------------------
SPEEDS = np.array([40.0, 46.0, 53.0, 61.0, 70.0, 81.0])
STROKE, ACCELERATION, KAPPA, SIGN = 900.0, 450.0, 2.0, -1
truth = lambda v: 0.0005 - 0.02 / (1 + math.exp((v - 48) / 6))
U = np.full(6, 0.012)


def true_error(V):
    ramps = integrate.quad(lambda u: truth(u) * u * 2 / ACCELERATION, 0, V, epsabs=1e-12)[0]
    return ramps + truth(V) * (STROKE - V * V / ACCELERATION)


y = np.round([true_error(V) + 0.012 * rng.standard_normal() for V in SPEEDS], 4)
nodes = []
for a, b in zip(SPEEDS, SPEEDS[1:]):
    parts = max(1, math.ceil(math.log(b / a) / 0.08 - 1e-9))
    nodes += [a * (b / a) ** (p / parts) for p in range(parts)]
nodes = np.array(nodes + [SPEEDS[-1]])
x = np.log(nodes)
dx = np.diff(x)


def hat(k, v):
    """Hat function in ln v, held constant outside the nodes."""
    return np.interp(math.log(v), x, np.eye(len(x))[k])


X = np.zeros((6, len(nodes)))
for j, V in enumerate(SPEEDS):
    for k in range(len(nodes)):
        breaks = [n for n in nodes if n < V]
        X[j, k] = integrate.quad(lambda u: hat(k, u) * u * 2 / ACCELERATION, 0, V, points=breaks, epsabs=1e-11, limit=200)[0]
        X[j, k] += hat(k, V) * (STROKE - V * V / ACCELERATION)


def curve(theta):
    """theta = b, g0, h; plain parameters, one row per walker."""
    theta = np.atleast_2d(theta)
    g = theta[:, [1]] - np.hstack([np.zeros((len(theta), 1)), np.cumsum(np.exp(theta[:, 2:]) * dx, axis=1)])
    return theta[:, [0]] + SIGN * np.exp(g)


def minus_log_posterior(theta):
    theta = np.atleast_2d(theta)
    with np.errstate(over="ignore", invalid="ignore"):
        r = (curve(theta) @ X.T - y) / U
        h = theta[:, 2:]
        steps = KAPPA * np.sqrt(0.5 * (dx[1:] + dx[:-1]))
        wall = np.maximum(h - 6, 0) ** 2 + np.maximum(-8 - h, 0) ** 2
        f = 0.5 * ((r**2).sum(1) + (theta[:, 0] / 0.02) ** 2 + ((theta[:, 1] - math.log(0.01)) / 2) ** 2
                   + ((h[:, 0] + 1) / 4) ** 2 + ((np.diff(h, axis=1) / steps) ** 2).sum(1) + 2 * wall.sum(1))
    return np.where(np.isfinite(f), f, np.inf)


best = None
for start_h in (0.5, 1.5, 2.0):
    start = np.concatenate([[0.0004, math.log(0.015)], np.full(len(dx), start_h)])
    found = start
    for _ in range(6):
        found = optimize.minimize(lambda t: minus_log_posterior(t)[0], found, method="BFGS", options=dict(gtol=1e-8, maxiter=4000)).x
        found = optimize.minimize(lambda t: minus_log_posterior(t)[0], found, method="Nelder-Mead",
                                  options=dict(maxiter=20000, maxfev=20000, xatol=1e-9, fatol=1e-11, adaptive=True)).x
    if best is None or minus_log_posterior(found)[0] < minus_log_posterior(best)[0]:
        best = found
put("speeds_mm_s", SPEEDS)
put("stroke_mm", STROKE)
put("acceleration_mm_s2", ACCELERATION)
put("sign", SIGN)
put("kappa", KAPPA)
put("error_mm", y)
put("u_mm", U)
put("nodes_mm_s", nodes)
put("distances_first_row_mm", X[0])
put("distances_last_row_mm", X[-1])
put("mode_value", minus_log_posterior(best)[0])
put("mode_curve", curve(best)[0])

walkers, steps, burn = 240, 150000, 15000
d = len(best)
z = best + 0.05 * rng.standard_normal((walkers, d)) * np.concatenate([[1e-3], np.ones(d - 1)])
f = minus_log_posterior(z)
sum1 = np.zeros(len(nodes)); sum2 = np.zeros(len(nodes)); count = 0
halves = []
for step in range(steps):
    # each half of the walkers moves along differences of the other half, so a whole half moves at once
    for own, other in ((slice(0, walkers // 2), slice(walkers // 2, walkers)), (slice(walkers // 2, walkers), slice(0, walkers // 2))):
        pool = z[other]
        i = rng.integers(0, len(pool), (2, len(pool)))
        gamma = 1.0 if step % 10 == 0 else 2.38 / math.sqrt(2 * d)
        move = gamma * (pool[i[0]] - pool[i[1]]) + 1e-7 * rng.standard_normal(pool.shape)
        trial = z[own] + move
        ft = minus_log_posterior(trial)
        take = np.log(rng.random(len(pool))) < f[own] - ft
        z[own] = np.where(take[:, None], trial, z[own])
        f[own] = np.where(take, ft, f[own])
    if step >= burn and step % 5 == 0:
        e = curve(z)
        sum1 += e.sum(0); sum2 += (e * e).sum(0); count += len(e)
        if step == burn + (steps - burn) // 2:
            halves.append(sum1 / count)
mean = sum1 / count
put("posterior_mean", mean)
put("posterior_sd", np.sqrt(sum2 / count - mean**2))
print(f"# half the chain differs by at most {np.max(np.abs(halves[0] - mean) / np.sqrt(sum2 / count - mean**2)):.3f} posterior sd")

# ---- variance components -----------------------------------------------------------------------------------------
READ = 0.0002
rows = []
for stroke in (150.0, 1200.0):
    for s in range(8):
        offset = 0.02 * rng.standard_normal()
        ends = math.sqrt(READ) * rng.standard_normal(7)
        for i in range(6):
            sign = 1 if i % 2 == 0 else -1
            e = offset + 0.03 * rng.standard_normal() + 0.04 * math.sqrt(stroke / 1000) * rng.standard_normal() + sign * (ends[i + 1] - ends[i])
            rows.append((stroke, s, i, sign, round(e, 4)))
n = len(rows)
e = np.array([r[4] for r in rows])
K = [np.eye(n), np.diag([r[0] / 1000 for r in rows]), np.array([[float(a[:2] == b[:2]) for b in rows] for a in rows])]
R = np.zeros((n, n))
for i in range(n):
    R[i, i] = 2 * READ
    if i and rows[i][:2] == rows[i - 1][:2]:
        R[i, i - 1] = R[i - 1, i] = -rows[i][3] * rows[i - 1][3] * READ
F = np.zeros((n, 4))
for i, r in enumerate(rows):
    F[i, (0 if r[0] < 500 else 2) + (0 if r[3] > 0 else 1)] = 1


def restricted(log_theta):
    V = R + sum(math.exp(t) * k for t, k in zip(log_theta, K))
    Vi = np.linalg.inv(V)
    G = F.T @ Vi @ F
    P = Vi - Vi @ F @ np.linalg.solve(G, F.T @ Vi)
    return 0.5 * (np.linalg.slogdet(V)[1] + np.linalg.slogdet(G)[1] + e @ P @ e)


fit = min((optimize.minimize(restricted, np.log(np.square(s)), method="Nelder-Mead", options=dict(xatol=1e-10, fatol=1e-13, maxiter=20000))
           for s in ([0.03, 0.04, 0.02], [0.01, 0.06, 0.03], [0.05, 0.01, 0.01])), key=lambda r: r.fun)
put("components_reading_variance_mm2", READ)
put("components_stroke_mm", [r[0] for r in rows])
put("components_series", [r[1] for r in rows])
put("components_error_mm", e)
put("components_sd", np.sqrt(np.exp(fit.x)))

# ---- bias-reduced logistic regression ----------------------------------------------------------------------------
share = np.round(np.exp(rng.uniform(-2, 2.5, 30)), 3)
outside = (rng.random(30) < 1 / (1 + (share / 2.5) ** -2.5)).astype(float)
lx = np.log(share + 0.05)


def firth(beta):
    eta = beta[0] + beta[1] * lx
    p = 1 / (1 + np.exp(-eta))
    w = p * (1 - p)
    info = np.array([[w.sum(), (w * lx).sum()], [(w * lx).sum(), (w * lx * lx).sum()]])
    return -(np.sum(outside * eta - np.logaddexp(0, eta)) + 0.5 * np.linalg.slogdet(info)[1])


b = optimize.minimize(firth, [0.0, 0.5], method="Nelder-Mead", options=dict(xatol=1e-11, fatol=1e-14, maxiter=20000)).x
put("logistic_x", lx)
put("logistic_outside", outside)
put("logistic_coefficients", b)
