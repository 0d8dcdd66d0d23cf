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
readings=$(find "$scratch/trial" -name '*.csv' | head -1)
sed -i '$ s/[0-9]\([^0-9]*\)$/7\1/' "$readings"
status 'a changed digit in a raw file is found' 3 slow verify "$scratch/a.pdf" --trial "$trial"
status 'an amendment says what changed' 0 slow report "$trial" -o "$scratch/r2.html" --supersedes "$scratch/r.pdf"
status 'and names the figures' 0 grep -q 'supersedes one with the SHA-256' "$scratch/r2.html"
