#!/usr/bin/env bash
# A one-clock log that is larger than the memory given to Slowproof: thirty million rows (about 1 GB), made on the fly, evaluated
# with a heap of 256 MB and with one that holds everything. Prints wall time, processor time and the peak of memory that
# is the process's own, and of file pages that the system may take back at any time; both results must be the same.
# Usage: benchmarks/large-log.sh FOLDER [HEAP] [ROWS]; the log is made in FOLDER when it is not there. Linux.
set -eu
folder=$1
heap=${2:-256m}
rows=${3:-30000000}
here=$(cd "$(dirname "$0")/.." && pwd)
SLOWPROOF_CACHE=off "$here/slowproof" findings "$here/docs/samples/first-trial/trial.yaml" >/dev/null # builds when there is no build
build=$(sed -n 1p "$here/.build/current")
java=$(sed -n 2p "$here/.build/current")
mkdir -p "$folder"
"$(dirname "$java")/javac" -d "$folder/classes" "$here/benchmarks/src/jmh/java/slowproof/benchmarks/LongLog.java"
[ -s "$folder/long.csv" ] || "$java" -cp "$folder/classes" slowproof.benchmarks.LongLog "$folder" "$rows" 8
touch -d '1 hour ago' "$folder/long.csv"
printf 'log of %d MB\n' "$(($(stat -c %s "$folder/long.csv") >> 20))"

# evaluated HEAP: one evaluation without a cache, watched from outside
evaluated() {
    SLOWPROOF_CACHE=off /usr/bin/time -o "$folder/time" -f '%e %U %S' \
        "$java" "-Xmx$1" -Xlog:disable -Xlog:all=error:stderr --enable-native-access=ALL-UNNAMED -Djava.awt.headless=true \
        -jar "$build/slowproof.jar" findings "$folder/trial.yaml" >"$folder/out.$1" &
    watched=$!
    own=0
    pages=0
    while kill -0 "$watched" 2>/dev/null; do
        for process in $(pgrep -P "$watched"); do
            set -- "$1" $(awk '/RssAnon|RssFile/ { print $2 }' "/proc/$process/status" 2>/dev/null || true)
            [ "${2:-0}" -le "$own" ] || own=$2
            [ "${3:-0}" -le "$pages" ] || pages=$3
        done
        sleep 0.1
    done
    wait "$watched"
    awk -v heap="$1" -v own="$own" -v pages="$pages" '{
        printf "heap %-6s %7.2f s wall %7.2f s processor %6d MB own %6d MB file pages\n", heap, $1, $2 + $3, own / 1024, pages / 1024
    }' "$folder/time"
}
evaluated "$heap"
evaluated 4g
cmp "$folder/out.$heap" "$folder/out.4g"
echo 'same findings'
