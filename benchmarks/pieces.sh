#!/usr/bin/env bash
# Times ten million pieces of a forecast beside the same model in vectorised NumPy, by turns, in one run on one machine, and prints
# the ratios of all turns and their median. On a machine that does other work too the processor time is the steadier figure of the two.
# Usage: benchmarks/pieces.sh [PIECES] [TURNS]
set -eu
pieces=${1:-10000000}
turns=${2:-7}
here=$(cd "$(dirname "$0")/.." && pwd)
"$here/slowproof" --version >/dev/null # builds when there is no build
java=$(sed -n 2p "$here/.build/current")
build=$(sed -n 1p "$here/.build/current")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$here/slowproof" demo --once --folder "$folder" >/dev/null 2>&1
# a web that is cut on the fly at 100 mm/s and stops twice in each piece
{
    echo time_s,speed_mm_s
    t=0
    for step in "0 100" "200 0" "1000 0" "800 400" "2600 400" "800 0" "1000 0" "800 400" "2750 400" "800 0" "1000 0" "200 100"; do
        set -- $step
        t=$((t + $1))
        printf '%d.%03d,%s\n' $((t / 1000)) $((t % 1000)) "$2"
    done
} >"$folder/log.csv"
cat >"$folder/line.yaml" <<'Y'
line: benchmark
material: acoustic felt
piece: {length_mm: 2800, tolerance_mm: 2}
profile: log.csv
trigger_jitter_s: 0.0005
Y
classpath=$(find "$build" -name '*.jar' | tr '\n' ':')
"$(dirname "$java")/javac" -cp "$classpath" -d "$folder/classes" "$here/benchmarks/Pieces.java"
for _ in $(seq "$turns"); do
    "$java" -cp "$folder/classes:$classpath" Pieces "$folder/trial.yaml" "$folder/line.yaml" "$pieces" 2>"$folder/java"
    grep '^figures=' "$folder/java" >/dev/null || { cat "$folder/java" >&2; exit 1; }
    # shellcheck disable=SC2046 # the figures are words
    python3 "$here/benchmarks/pieces.py" $(sed -n 's/^figures=//p' "$folder/java") 2>"$folder/numpy" ||
        { cat "$folder/numpy"; exit 0; }
    awk -F= '{v[$1, FILENAME ~ /numpy/] = $2}
        END {printf "%.1f %.1f\n", v["seconds", 1] / v["seconds", 0], v["processor", 1] / v["processor", 0]}' \
        "$folder/java" "$folder/numpy" >>"$folder/ratios"
done
# told WORDS COLUMN: median, least and greatest of a column of the ratios
told() {
    sort -n -k"$2,$2" "$folder/ratios" | awk -v words="$1" -v k="$2" '{ v[NR] = $k }
        END { printf "NumPy takes %.1f times %s (median of %d turns, %.1f to %.1f)\n", v[int((NR + 1) / 2)], words, NR, v[1], v[NR] }'
}
told 'as long' 1
told 'the processor time' 2
if [ -r /proc/loadavg ]; then echo "Load of the machine: $(cut -d' ' -f1 /proc/loadavg) on $(nproc) cores"; fi
