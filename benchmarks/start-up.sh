#!/usr/bin/env bash
# Compares the start of a small trial's findings with a bare `java -version` of the same JDK, in turn, in one run.
# Prints the least and the middle of each and their ratios. Usage: benchmarks/start-up.sh [RUNS]
set -eu
runs=${1:-15}
here=$(cd "$(dirname "$0")/.." && pwd)
sample=$here/docs/samples/first-trial/trial.yaml
"$here/slowproof" findings "$sample" >/dev/null # builds when there is no build, and warms the caches
java=$(sed -n 2p "$here/.build/current")
times=$(mktemp)
trap 'rm -f "$times"' EXIT
for _ in $(seq "$runs"); do
    t0=$(date +%s%N)
    "$java" -version >/dev/null 2>&1
    t1=$(date +%s%N)
    "$here/slowproof" findings "$sample" >/dev/null
    t2=$(date +%s%N)
    echo "$(((t1 - t0) / 1000)) $(((t2 - t1) / 1000))"
done >"$times"
# figures in microseconds: least and median of a column
least() { cut -d' ' -f"$1" "$times" | sort -n | head -n 1; }
median() { cut -d' ' -f"$1" "$times" | sort -n | sed -n "$(((runs + 1) / 2))p"; }
tenths() { echo "$(($1 / $2)).$(($1 * 10 / $2 % 10))"; }
echo "java -version            least $(($(least 1) / 1000)) ms, median $(($(median 1) / 1000)) ms"
echo "findings, small trial    least $(($(least 2) / 1000)) ms, median $(($(median 2) / 1000)) ms"
echo "ratio                    least $(tenths "$(least 2)" "$(least 1)"), median $(tenths "$(median 2)" "$(median 1)")"
