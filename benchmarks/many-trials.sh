#!/usr/bin/env bash
# Fills an archive with ten thousand small invented trials and two thousand questions, and measures how long the pages that search
# them take: the list of trials with each filter and order, and the question desk. Prints least, median and 90 % of a hundred
# requests each, by one client that waits for each answer.
# Usage: benchmarks/many-trials.sh [TRIALS] [SEED] [FOLDER]; an archive that is in FOLDER already is used again.
set -eu
trials=${1:-10000}
seed=${2:-1}
here=$(cd "$(dirname "$0")/.." && pwd)
"$here/slowproof" --version >/dev/null # builds when there is no build
build=$(sed -n 1p "$here/.build/current")
java=$(sed -n 2p "$here/.build/current")
server=
temporary=
folder=${3:-}
[ -n "$folder" ] || { temporary=$(mktemp -d); folder=$temporary; }
trap '[ -z "$server" ] || kill "$server" 2>/dev/null || true; [ -z "$temporary" ] || rm -rf "$temporary"' EXIT
classpath="$build/slowproof.jar:$build/lib/*"
[ -e "$folder/archive/slowproof.db" ] ||
    "$java" --enable-native-access=ALL-UNNAMED -cp "$classpath" "$here/benchmarks/ManyTrials.java" fill "$folder/archive" "$trials" "$seed"
port=7393
"$here/slowproof" serve --archive "$folder/archive" --port "$port" >"$folder/log" 2>&1 &
server=$!
until (exec 3<>"/dev/tcp/127.0.0.1/$port") 2>/dev/null; do sleep 0.05; done
"$java" -cp "$classpath" "$here/benchmarks/ManyTrials.java" measure "http://127.0.0.1:$port" "$trials"
if [ -r /proc/loadavg ]; then echo "Load of the machine: $(cut -d' ' -f1 /proc/loadavg) on $(nproc) cores"; fi
