#!/usr/bin/env bash
# The forecast for a line through the launcher: given, read from a log, refused with what is wrong and where. Run by ./check.
set -u
root=$(CDPATH='' cd -P -- "$(dirname -- "$0")/.." && pwd -P)
. "$root/e2e/shared/trial.sh"

# says NAME FILE TEXT: one test that a stream of the last command has a text in it.
says() {
    if grep -qF -- "$3" "$scratch/$2"; then
        echo "ok $1"
    else
        echo "FAILED $1"
        echo "      no \"$3\" in:"
        sed 's/^/      /' "$scratch/$2"
    fi
}
# silent NAME FILE: one test that a stream of the last command is empty.
silent() {
    if [ ! -s "$scratch/$2" ]; then echo "ok $1"; else echo "FAILED $1" && sed 's/^/      /' "$scratch/$2"; fi
}

cat >"$scratch/line.yaml" <<'Y'
line: "Cross-cutter, felt"
piece: {length_mm: 2500, tolerance_mm: 5}
cycle:
  - {ramp_to_mm_s: 200, acceleration_mm_s2: 500}
  - {hold_rest: true}
  - {ramp_to_mm_s: 0, acceleration_mm_s2: 500}
Y
status 'a forecast is given' 0 slow forecast "$trial" --line "$scratch/line.yaml"
says 'with the name of the line' out 'Cross-cutter, felt'
status 'as JSON too' 0 slow forecast "$trial" --line "$scratch/line.yaml" --json
says 'with the files that took part' out '"line.yaml"'
status 'in German' 0 slow forecast "$trial" --line "$scratch/line.yaml" --lang de
cp "$scratch/out" "$scratch/first"
status 'the same input gives the same forecast' 0 slow forecast "$trial" --line "$scratch/line.yaml" --lang de
cp "$scratch/out" "$scratch/second"
status 'to the letter' 0 cmp "$scratch/first" "$scratch/second"

printf 'Zeit [s];Geschwindigkeit [m/min]\n0;0\n0,5;12\n12,5;12\n13;0\n14;0\n' >"$scratch/log.csv"
printf 'piece: {length_mm: 2500, tolerance_mm: 5}\nprofile: log.csv\n' >"$scratch/logged.yaml"
status 'a logged line is read as it is written' 0 slow forecast "$trial" --line "$scratch/logged.yaml"
says 'and how it was read is told' err 'decimal ","'

sed 's/hold_rest/hold_resst/' "$scratch/line.yaml" >"$scratch/broken.yaml"
status 'a misspelt step is refused' 2 slow forecast "$trial" --line "$scratch/broken.yaml"
says 'with its place' err 'broken.yaml, line 5'
says 'and the word that was meant' err 'hold_rest'
silent 'and nothing is printed as a result' out
sed 's/hold_rest: true/hold_mm: 9000/' "$scratch/line.yaml" >"$scratch/long.yaml"
status 'a cycle longer than its piece is refused' 2 slow forecast "$trial" --line "$scratch/long.yaml"
says 'with both lengths' err 'only 2500 mm'
printf 'time_s,speed_m_min\n0,0\n1,12\n1,12\n2,0\n' >"$scratch/log.csv"
status 'a log whose time stands still is refused' 2 slow forecast "$trial" --line "$scratch/logged.yaml"
says 'with the line of the log' err 'log.csv, line 4'
printf 'line: [\n' >"$scratch/half.yaml"
status 'half a line file is refused' 2 slow forecast "$trial" --line "$scratch/half.yaml"
says 'with its name' err 'half.yaml'
status 'a line file that is not there is refused' 2 slow forecast "$trial" --line "$scratch/none.yaml"
status 'a forecast without a line is refused' 2 slow forecast "$trial"
sed 's/^line:.*/&\nmaterial: "acoustic flet"/' "$scratch/line.yaml" >"$scratch/other.yaml"
status 'a material that was not tried is refused' 2 slow forecast "$trial" --line "$scratch/other.yaml"
says 'with the one that was' err 'acoustic felt'
