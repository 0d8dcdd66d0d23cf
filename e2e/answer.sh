#!/usr/bin/env bash
# The written answer through the launcher: written, checked, changed, refused. Run by ./check.
set -u
root=$(CDPATH='' cd -P -- "$(dirname -- "$0")/.." && pwd -P)
. "$root/e2e/shared/trial.sh"

missing() { [ ! -e "$1" ]; }

status 'the answer is written as PDF' 0 slow report "$trial" -o "$scratch/a.pdf"
status 'the same input gives the same PDF' 0 slow report "$trial" -o "$scratch/b.pdf"
status 'byte for byte' 0 cmp "$scratch/a.pdf" "$scratch/b.pdf"
status 'the answer is written as HTML in German' 0 slow report "$trial" -o "$scratch/a.html" --lang de --paper letter
status 'a PDF is the same as its raw files' 0 slow verify "$scratch/a.pdf" --trial "$trial"
status 'HTML in another language too' 0 slow verify "$scratch/a.html" --trial "$trial"
status 'without raw files the data are found intact' 0 slow verify "$scratch/a.pdf"
status 'a release is written' 0 slow report "$trial" -o "$scratch/r.pdf" --release 'Jo Example' --date 2026-11-26
status 'a released answer is not overwritten' 2 slow report "$trial" -o "$scratch/r.pdf"
status 'a release without a date is refused' 2 slow report "$trial" -o "$scratch/x.pdf" --release 'Jo Example'
status 'a date that is none is refused' 2 slow report "$trial" -o "$scratch/x.pdf" --release 'Jo' --date 2026-02-30
status 'another suffix is refused' 2 slow report "$trial" -o "$scratch/x.doc"
status 'a trial that is not there is refused' 2 slow report "$scratch/none.yaml" -o "$scratch/x.pdf"
status 'nothing was written for what was refused' 0 missing "$scratch/x.pdf"
status 'a trial file is no written answer' 2 slow verify "$trial"
head -c 2000 "$scratch/a.pdf" >"$scratch/half.pdf"
status 'half a PDF is no written answer' 2 slow verify "$scratch/half.pdf"
cat >"$scratch/line.yaml" <<'Y'
line: "Cross-cutter"
piece: {length_mm: 2500, tolerance_mm: 12}
cycle:
  - {ramp_to_mm_s: 190, acceleration_mm_s2: 500}
  - {hold_rest: true}
  - {ramp_to_mm_s: 0, acceleration_mm_s2: 500}
Y
line=$scratch/line.yaml
status 'the answer for a line is released' 0 slow report "$trial" --line "$line" -o "$scratch/l.pdf" \
    --release 'Jo Example' --date 2026-11-26
status 'it is the same as its raw files' 0 slow verify "$scratch/l.pdf" --trial "$trial" --line "$line"
status 'a reason without an answer to supersede is refused' 2 slow report "$trial" --line "$line" -o "$scratch/x.pdf" --reason 'slip'
sed 's/tolerance_mm: 12/tolerance_mm: 8/' "$line" >"$scratch/line8.yaml"
status 'it is amended with a reason' 0 slow report "$trial" --line "$scratch/line8.yaml" -o "$scratch/l2.html" \
    --supersedes "$scratch/l.pdf" --reason 'the tolerance was misread' --release 'Jo Example' --date 2026-11-27
status 'which stands in it' 0 grep -q 'Reason: the tolerance was misread' "$scratch/l2.html"
status 'with the figures of the line that differ' 0 grep -q 'forecast.outside_tolerance_ppm' "$scratch/l2.html"
status 'a line that is not that of the answer is found' 3 slow verify "$scratch/l.pdf" --trial "$trial" --line "$scratch/line8.yaml"
# the data of an HTML file are links in base64: one digit of the forecast is changed in them
grep -o 'application/json;base64,[^"]*' "$scratch/l2.html" | cut -d, -f2 | while read -r data; do
    printf '%s' "$data" | base64 -d >"$scratch/data.json"
    grep -q expected_error_mm "$scratch/data.json" || continue
    other=$(sed '0,/"expected_error_mm"/ s/\("expected_error_mm" : -\{0,1\}\)[0-9]/\19/' "$scratch/data.json" | base64 -w 0)
    printf 's|%s|%s|\n' "$data" "$other"
done >"$scratch/change.sed"
sed -f "$scratch/change.sed" "$scratch/l2.html" >"$scratch/l3.html"
status 'a changed digit in the data inside is found' 3 slow verify "$scratch/l3.html" --trial "$trial" --line "$scratch/line8.yaml"
cp "$scratch/out" "$scratch/found"
status 'and named' 0 grep -q 'forecast.expected_error_mm' "$scratch/found"
readings=$(find "$scratch/trial" -name '*.csv' | head -1)
sed -i '$ s/[0-9]\([^0-9]*\)$/7\1/' "$readings"
status 'a changed digit in a raw file is found' 3 slow verify "$scratch/a.pdf" --trial "$trial"
status 'in the answer for a line too' 3 slow verify "$scratch/l.pdf" --trial "$trial" --line "$line"
status 'an amendment says what changed' 0 slow report "$trial" -o "$scratch/r2.html" --supersedes "$scratch/r.pdf"
status 'and names the figures' 0 grep -q 'supersedes one with the SHA-256' "$scratch/r2.html"
