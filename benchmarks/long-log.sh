#!/usr/bin/env bash
# Measures whole processes on a one-clock log of ten million rows (about 350 MB), in turn, in one run: findings without a
# cache, findings that fill the cache, findings from the cache, DuckDB loading the same file into a table, and the least that a
# program in Java can do with it; then findings and DuckDB ten times within one process, which leaves the work itself,
# compiled. Prints the least and the middle of wall time, the middle of processor time, the peak memory, and ratios.
# Usage: benchmarks/long-log.sh FOLDER [RUNS] [ROWS] [SPEEDS]; the log is made in FOLDER when it is not there.
set -euo pipefail
folder=$1
runs=${2:-7}
rows=${3:-10000000}
speeds=${4:-8}
here=$(cd "$(dirname "$0")/.." && pwd)
command -v /usr/bin/time >/dev/null || { echo 'GNU time is needed: apt-get install time' >&2; exit 1; }
SLOWPROOF_CACHE=off "$here/slowproof" findings "$here/docs/samples/first-trial/trial.yaml" >/dev/null # builds when there is no build
build=$(sed -n 1p "$here/.build/current")
java=$(sed -n 2p "$here/.build/current")
mkdir -p "$folder"
classes=$folder/classes
source=$here/benchmarks/src/jmh/java/slowproof/benchmarks
"$(dirname "$java")/javac" -d "$classes" -cp "$build/slowproof.jar:$build/lib/*" "$source/LongLog.java" "$source/DuckDbLoad.java" \
    "$source/BareLoad.java" "$here/benchmarks/FindingsAgain.java"
[ -s "$folder/long.csv" ] || "$java" -cp "$classes" slowproof.benchmarks.LongLog "$folder" "$rows" "$speeds"
touch -d '1 hour ago' "$folder/long.csv"
cat "$folder/long.csv" >/dev/null # into the page cache, for all alike
figures=$folder/figures
cache=$folder/cache
rm -f "$figures".*

# measured NAME COMMAND...: wall s, processor s and peak kB to a file
measured() {
    name=$1
    shift
    /usr/bin/time -o "$folder/time" -f '%e %U %S %M' "$@" >"$folder/out.$name" 2>"$folder/err.$name"
    tail -n 1 "$folder/time" | awk '{ print $1, $2 + $3, $4 }' >>"$figures.$name"
}
bare=("$java" -XX:+UseParallelGC -XX:-UsePerfData -cp "$classes" slowproof.benchmarks.BareLoad "$folder/long.csv")
for _ in $(seq "$runs"); do
    rm -rf "$cache"
    measured plain env SLOWPROOF_CACHE=off "$here/slowproof" findings "$folder/trial.yaml"
    measured duckdb "$java" -cp "$classes:$build/lib/*" slowproof.benchmarks.DuckDbLoad "$folder/long.csv"
    awk '{ print $1 / 1000, 0, 0 }' "$folder/out.duckdb" >>"$figures.load"
    measured bare "${bare[@]}"
    measured hashed "${bare[@]}" hash
    measured first env SLOWPROOF_CACHE="$cache" "$here/slowproof" findings "$folder/trial.yaml"
    measured second env SLOWPROOF_CACHE="$cache" "$here/slowproof" findings "$folder/trial.yaml"
done
cmp "$folder/out.plain" "$folder/out.second"
middle() { sort -n -k"$2,$2" "$figures.$1" | awk -v k="$2" '{ v[NR] = $k } END { print v[int((NR + 1) / 2)] }'; }
least() { sort -n -k"$2,$2" "$figures.$1" | awk -v k="$2" 'NR == 1 { print $k }'; }
printf '%-44s %8s %8s %10s %8s\n' '' least middle processor peak
line() {
    printf '%-44s %7.2fs %7.2fs %9.2fs %5.0f MB\n' "$2" "$(least "$1" 1)" "$(middle "$1" 1)" "$(middle "$1" 2)" \
        "$(awk "BEGIN { print $(middle "$1" 3) / 1024 }")"
}
line plain 'findings, no cache'
line first 'findings, filling the cache'
line second 'findings, from the cache'
line duckdb 'DuckDB, whole process'
printf '%-44s %7.2fs %7.2fs\n' 'DuckDB, the load alone' "$(least load 1)" "$(middle load 1)"
line bare 'bare Java, numbers into arrays'
line hashed 'bare Java, the same and the fingerprint'
ratio() { awk "BEGIN { printf \"%.2f\", $(least "$1" 1) / $(least "$2" 1) }"; }
echo "ratios of the least: findings over DuckDB's whole process $(ratio plain duckdb), over its load alone $(ratio plain load), second over first $(ratio second first)"

# again NAME CLASS FILE: the last five of ten turns within one process, in s
again() {
    "$java" -cp "$classes:$build/slowproof.jar:$build/lib/*" --enable-native-access=ALL-UNNAMED "$2" "$3" 10 2>/dev/null |
        tail -n 5 | awk '{ print $1 / 1000, 0, 0 }' >"$figures.$1"
}
again again FindingsAgain "$folder/trial.yaml"
again reload slowproof.benchmarks.DuckDbLoad "$folder/long.csv"
both() { printf '%-44s %7.2fs %7.2fs\n' "$2" "$(least "$1" 1)" "$(middle "$1" 1)"; }
both again 'findings, within a process that has done it'
both reload 'DuckDB, the load, within such a process'
echo "ratio of the least: findings over load $(ratio again reload)"
