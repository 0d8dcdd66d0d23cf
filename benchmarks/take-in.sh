#!/usr/bin/env bash
# Takes a long log in with the pages of a server whose heap is bounded, looks at windows of it, and prints how long each
# step takes and the most memory that the server held.
# Usage: benchmarks/take-in.sh FOLDER [ROWS] [HEAP_MIB] [SEED]; the log is made in FOLDER when it is not there.
set -eu
folder=$1
rows=${2:-10000000}
heap=${3:-512}
seed=${4:-1}
here=$(cd "$(dirname "$0")/.." && pwd)
"$here/slowproof" --version >/dev/null # builds when there is no build
java=$(sed -n 2p "$here/.build/current")
mkdir -p "$folder"
classes=$folder/classes
source=$here/benchmarks/src/jmh/java/slowproof/benchmarks
"$(dirname "$java")/javac" -d "$classes" "$source/LongLog.java" "$source/TakeIn.java"
[ -s "$folder/long.csv" ] || "$java" -cp "$classes" slowproof.benchmarks.LongLog "$folder" "$rows" 8
archive=$(mktemp -d "$folder/archive.XXXXXX")
server=
trap '[ -z "$server" ] || kill "$server" 2>/dev/null || true; rm -rf "$archive"' EXIT
port=7392
SLOWPROOF_CACHE=off JDK_JAVA_OPTIONS="-Xmx${heap}m" \
    "$here/slowproof" serve --archive "$archive" --port "$port" >"$folder/server.log" 2>&1 &
server=$!
until (exec 3<>"/dev/tcp/127.0.0.1/$port") 2>/dev/null; do sleep 0.05; done
: >"$folder/memory"
# without mapped files: the system takes their pages back when it needs them
while sed -n 's/^RssAnon:[[:space:]]*\([0-9]*\) kB/\1/p' "/proc/$server/status" >>"$folder/memory" 2>/dev/null; do sleep 0.2; done &
"$java" -cp "$classes" slowproof.benchmarks.TakeIn "http://127.0.0.1:$port" "$folder/long.csv" "$seed"
echo "heap allowed $heap MiB; most memory of the server, mapped files left out: $(($(sort -n "$folder/memory" | tail -n 1) / 1024)) MiB"
