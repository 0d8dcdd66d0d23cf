#!/usr/bin/env bash
# Compares the time from starting the server to its first page with a bare `java -version` of the same JDK, in turn,
# in one run; then asks a running server for its pages and prints how long each takes.
# Usage: benchmarks/first-page.sh [RUNS]
set -eu
runs=${1:-15}
here=$(cd "$(dirname "$0")/.." && pwd)
"$here/slowproof" --version >/dev/null # builds when there is no build
java=$(sed -n 2p "$here/.build/current")
folder=$(mktemp -d)
server=
trap '[ -z "$server" ] || kill "$server" 2>/dev/null; rm -rf "$folder"' EXIT
port=7391

# ask METHOD PATH [BODY]: one request over a bare socket; prints the answer.
ask() {
    exec 3<>"/dev/tcp/127.0.0.1/$port" || return 1
    printf '%s %s HTTP/1.1\r\nHost: 127.0.0.1:%s\r\nOrigin: http://127.0.0.1:%s\r\nConnection: close\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: %s\r\n\r\n%s' \
        "$1" "$2" "$port" "$port" "${#3}" "$3" >&3
    cat <&3
    exec 3>&-
}

serve() {
    "$here/slowproof" serve --archive "$folder/archive" --port "$port" >"$folder/log" 2>&1 &
    server=$!
    until { ask GET / ''; } 2>/dev/null | grep -q '</html>'; do sleep 0.002; done
}

stop() {
    kill "$server"
    wait "$server" 2>/dev/null || true
    server=
}

serve && stop # makes the archive, and warms the caches
times=$folder/times
for _ in $(seq "$runs"); do
    t0=$(date +%s%N)
    "$java" -version >/dev/null 2>&1
    t1=$(date +%s%N)
    serve
    t2=$(date +%s%N)
    stop
    echo "$(((t1 - t0) / 1000)) $(((t2 - t1) / 1000))" >>"$times"
done
# figures in microseconds: least and median of a column
least() { cut -d' ' -f"$1" "$2" | sort -n | head -n 1; }
median() { cut -d' ' -f"$1" "$2" | sort -n | sed -n "$((($(wc -l <"$2") + 1) / 2))p"; }
tenths() { echo "$(($1 / $2)).$(($1 * 10 / $2 % 10))"; }
echo "java -version            least $(($(least 1 "$times") / 1000)) ms, median $(($(median 1 "$times") / 1000)) ms"
echo "start to first page      least $(($(least 2 "$times") / 1000)) ms, median $(($(median 2 "$times") / 1000)) ms"
echo "ratio                    least $(tenths "$(least 2 "$times")" "$(least 1 "$times")"), median $(tenths "$(median 2 "$times")" "$(median 1 "$times")")"

serve
location=$(ask POST /trials '' | tr -d '\r' | sed -n 's/^Location: //p')
trial=${location#http://*/}
trial=/${trial#/}
trial=${trial%/bench}
ask POST "$trial/series" 'speed=50&from=0&to=600&start=0.0' >/dev/null
for n in $(seq 10); do
    ask POST "$trial/readings" "reading=600.$n&confirmed=600.$n" >/dev/null
    ask POST "$trial/readings" "reading=0.$n&confirmed=0.$n" >/dev/null
done
# page NAME METHOD PATH BODY: asks 200 times, so that the compiler has come to rest, and times the last 100
page() {
    for n in $(seq 200); do
        t0=$(date +%s%N)
        ask "$2" "$3" "$4" >/dev/null
        t1=$(date +%s%N)
        [ "$n" -le 100 ] || echo "$(((t1 - t0) / 1000))"
    done >"$folder/page"
    printf '%-24s least %s ms, median %s ms\n' "$1" "$(tenths "$(least 1 "$folder/page")" 1000)" "$(tenths "$(median 1 "$folder/page")" 1000)"
}
echo
echo "Answers of a warm server, request and answer over a socket of the shell included:"
page 'first page' GET / ''
page 'first figure' POST /answer 'moved=600&speed=50&went_from=0.0&went_to=600.6&back=0.3'
page 'bench sheet, 20 passes' GET "$trial/bench" ''
page 'trial, 20 passes' GET "$trial" ''
page 'list of trials' GET /trials ''
page 'keystroke kept' POST "$trial/draft" 'reading=600.'
stop
