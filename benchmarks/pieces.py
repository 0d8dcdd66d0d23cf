"""Ten million pieces with vectorised NumPy: the model of slowproof.trial.forecast, eight draws per piece.

Two starts, travel, two readings, reference, moment of the cut, draw of the curve. Usage: see pieces.sh.
"""
import sys
import time

try:
    import numpy as np
except ImportError:
    sys.exit("NumPy is not installed here: nothing to compare with")

pieces, mean, curve_u, reference_u, start, travel, step, trigger, length, tolerance = map(float, sys.argv[1:])
random = np.random.default_rng(1)
curve = mean + curve_u * random.standard_normal(2000)


def run(n):
    outside = 0
    total = 0.0
    squares = 0.0
    chunk = 1 << 16  # stays in the cache, which is faster than whole arrays
    while n > 0:
        k = min(chunk, n)
        n -= k
        error = curve[random.integers(0, 2000, k)]
        error += start * random.standard_normal(k)
        error += start * random.standard_normal(k)
        error += travel * random.standard_normal(k)
        error += step * (random.random(k) - random.random(k))
        error += reference_u * random.standard_normal(k)
        deviation = -error / (1 + error / length)
        deviation += trigger * random.standard_normal(k)
        outside += np.count_nonzero(np.abs(deviation) > tolerance)
        total += error.sum()
        squares += (deviation * deviation).sum()
    return outside, total, squares


best = processor = float("inf")
for _ in range(5):
    begin, begun = time.perf_counter(), time.process_time()
    run(int(pieces))
    best = min(best, time.perf_counter() - begin)
    processor = min(processor, time.process_time() - begun)
outside, total, squares = run(1_000_000)
print(f"NumPy      {best:7.3f} s, processor {processor:7.3f} s  mean error {total / 1e6:+.5f} mm")
print(f"seconds={best}\nprocessor={processor}", file=sys.stderr)
