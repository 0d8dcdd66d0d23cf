#!/usr/bin/env bash
# What the launcher promises, each promise tried in a copy of the clone. Run by ./check.
# shellcheck disable=SC2016 # the conditions for `all` are expanded when they are tried
set -u
root=$(CDPATH='' cd -P -- "$(dirname -- "$0")/.." && pwd -P)
scratch=$(mktemp -d)
trap 'rm -rf -- "$scratch"' EXIT
chmod 755 "$scratch"

# that NAME COMMAND...: one test; what the command prints is shown when it fails.
that() {
    local name=$1
    shift
    if "$@" >"$scratch/said" 2>&1; then
        echo "ok $name"
    else
        echo "FAILED $name"
        sed 's/^/      /' "$scratch/said"
    fi
}

# run NAME COMMAND...: runs with everything it prints in NAME.out and NAME.err and its status in NAME.status.
run() {
    local name=$1
    shift
    "$@" >"$scratch/$name.out" 2>"$scratch/$name.err" </dev/null
    echo $? >"$scratch/$name.status"
}

ended() { [ "$(cat "$scratch/$1.status")" = "$2" ] || { echo "status $(cat "$scratch/$1.status"), not $2"; cat "$scratch/$1.err"; return 1; }; }
silent() { [ ! -s "$scratch/$1" ] || { echo "$1 should be empty:"; cat "$scratch/$1"; return 1; }; }
same() { cmp -- "$scratch/$1" "$scratch/$2" || { head -5 -- "$scratch/$1" "$scratch/$2"; return 1; }; }
holds() { grep -qF -- "$2" "$scratch/$1" || { echo "$1 does not hold: $2"; cat "$scratch/$1"; return 1; }; }
lacks() { if grep -F -- "$2" "$scratch/$1"; then return 1; fi; }
all() { local step; for step in "$@"; do eval "$step" || return 1; done; }

# copy_clone FOLDER: the sources as they are here, without history and without anything built.
copy_clone() {
    mkdir -p -- "$1"
    tar -C "$root" --exclude=./.git --exclude=./.build --exclude='./*/target' -cf - . | tar -C "$1" --no-same-owner -xf -
}

listing() { (cd -- "$1" && find . -mindepth 1 -path ./.build -prune -o -printf '%p %s %T@ %m\n' | sort); }

# tools FOLDER: a PATH of one folder with all the usual commands, but neither Maven nor sudo.
tools() {
    mkdir -p "$1"
    ln -sf /usr/bin/* /bin/* /usr/sbin/* "$1/" 2>/dev/null
    rm -f "$1/mvn" "$1/sudo" "$1/su"
}

fake() { # fake FILE LINE...: a command that does the lines
    local file=$1
    shift
    rm -f -- "$file"
    printf '%s\n' '#!/bin/sh' "$@" >"$file"
    chmod 755 "$file"
}

# A person without rights: another user when this runs as root, else the one who runs it.
home=$scratch/home
mkdir -p "$home"
if [ "$(id -u)" = 0 ]; then
    chown 65534:65534 "$home"
    plain() { setpriv --reuid=65534 --regid=65534 --clear-groups -- env -u XDG_CACHE_HOME HOME="$home" "$@"; }
else
    plain() { env -u XDG_CACHE_HOME HOME="$home" "$@"; }
fi

# No build may be started by what follows: these stand before the real ones and leave a trace.
fakes=$scratch/fakes
mkdir "$fakes"
fake "$fakes/mvn" "touch '$scratch/called'" 'exit 1'
fake "$fakes/git" "touch '$scratch/called'" 'exit 1'
chmod 777 "$scratch/fakes"
warm() { PATH=$fakes:$PATH run "$@"; }
called() { [ -e "$scratch/called" ]; }

# --- choosing a Java
chosen() { (cd / && JAVA_HOME=$1 PATH=$PATH sh -c '. "$0"; find_jdk && printf "%s\n" "$jdk"' "$root/launch/machine.sh"); }
best=$(chosen '')
fake_jdk() { # fake_jdk FOLDER VERSION STATUS
    mkdir -p "$1/bin"
    printf 'IMPLEMENTOR="nobody"\nJAVA_VERSION="%s"\n' "$2" >"$1/release"
    fake "$1/bin/java" "exit $3"
    cp "$1/bin/java" "$1/bin/javac"
}
fake_jdk "$scratch/jdk 26" 26.0.1 0
fake_jdk "$scratch/jdk 16" 16.0.2 0
fake_jdk "$scratch/jdk 25 broken" 25.0.9 1
fake_jdk "$scratch/jdk 25" 25 0
fake_jdk "$scratch/jre 25" 25.0.1 0
rm "$scratch/jre 25/bin/javac"
that 'a JDK newer than 25 is not chosen' test "$(chosen "$scratch/jdk 26")" = "$best"
that 'a JDK older than 17 is not chosen' test "$(chosen "$scratch/jdk 16")" = "$best"
that 'a JDK that does not start is not chosen' test "$(chosen "$scratch/jdk 25 broken")" = "$best"
that 'a Java without a compiler is not chosen' test "$(chosen "$scratch/jre 25")" = "$best"
that 'JAVA_HOME with JDK 25 is chosen, blanks in its path and all' test "$(chosen "$scratch/jdk 25")" = "$scratch/jdk 25"

# --- two first runs at once, LC_ALL=C, no history, a path with blanks, quotes and letters beyond ASCII
clone="$scratch/a place with spaces, \"quotes\" & ünï/clone"
copy_clone "$clone"
listing "$clone" >"$scratch/before"
run first env LC_ALL=C "$clone/slowproof" --help &
run second env LC_ALL=C "$clone/slowproof" --help &
wait
listing "$clone" >"$scratch/after"
that 'two first runs at once both succeed' all 'ended first 0' 'ended second 0'
that 'two first runs at once build once' test "$(cat "$scratch/first.err" "$scratch/second.err" | grep -c 'built in')" = 1
that 'the first run leaves the sources untouched' same before after
run usual "$clone/slowproof" --help
that 'a warm run prints nothing on standard error' all 'ended usual 0' 'silent usual.err'
that 'building puts nothing on standard output' all 'same first.out usual.out' 'same second.out usual.out'
that 'help is not empty' test -s "$scratch/usual.out"
that 'without history the commit is unknown' test "$(sed -n 5p "$clone/.build/current")" = unknown
that 'a class archive for fast starts was made' test -s "$(sed -n 7p "$clone/.build/current")"

# --- the warm path
warm again "$clone/slowproof" --help
that 'a warm run calls neither Maven nor git' all '! called' 'same again.out usual.out'
(cd -- "$clone/docs" 2>/dev/null || cd -- "$clone/app" && warm below ../slowproof --help)
that 'it starts from another folder' all '! called' 'ended below 0' 'same below.out usual.out'
ln -s "$clone/slowproof" "$scratch/link"
warm linked "$scratch/link" --help
that 'it starts through a symbolic link' all '! called' 'ended linked 0' 'same linked.out usual.out'
chmod 700 "$clone"
if [ "$(id -u)" = 0 ]; then
    chmod 755 "$clone" "$scratch"/a*
    warm visitor plain "$clone/slowproof" --help
    that 'built by root, it starts for a plain user without a build' all '! called' 'ended visitor 0' 'same visitor.out usual.out' 'silent visitor.err'
else
    echo 'skipped built by root, it starts for a plain user without a build: not run by root'
fi
mv -- "$clone" "$scratch/elsewhere"
clone=$scratch/elsewhere
warm moved "$clone/slowproof" --help
that 'a moved clone starts without a build' all '! called' 'ended moved 0' 'same moved.out usual.out'
that 'a moved clone has its class archive again' test -s "$(sed -n 7p "$clone/.build/current")"
if [ "$(uname -s -m)" = 'Linux x86_64' ]; then
    that 'and the own code of its database' test -s "$(sed -n 1p "$clone/.build/current")/native/libsqlitejdbc.so"
fi

# --- the sample through the launcher
sample=$clone/docs/samples/first-trial
if [ -r "$sample/trial.yaml" ]; then
    mkdir "$scratch/Prüfung µ 20°"
    cp -R "$sample/." "$scratch/Prüfung µ 20°/"
    warm json env LC_ALL=C "$clone/slowproof" findings --json "$scratch/Prüfung µ 20°/trial.yaml"
    that '--json prints one document and nothing else' all 'ended json 0' 'silent json.err' \
        '[ "$(head -c 1 "$scratch/json.out")" = "{" ]' '[ "$(tail -n 1 "$scratch/json.out" | tail -c 2 | tr -d "\n")" = "}" ]'
    # a recording large enough for what Java learnt while building
    mkdir "$scratch/long log"
    cat >"$scratch/long log/trial.yaml" <<'END'
sensor: {distance_per_count_mm: 0.05}
reference: {kind: axis, expanded_uncertainty_mm: 0.01}
limit: {relative_pct: 0.15}
recordings:
  - {material: "invented felt", file: long.csv}
END
    awk 'BEGIN {
        print "time_s,count,reference_mm"
        for (row = 0; row < 200000; row++) {
            t = row % 20000
            x = t < 1000 ? 0 : t < 10000 ? (t - 1000) / 10 : t < 11000 ? 900 : t < 20000 ? (20000 - t) / 10 : 0
            printf "%.3f,%d,%.4f\n", row / 1000, x * 19.98, x
        }
    }' >"$scratch/long log/long.csv"
    warm long env SLOWPROOF_CACHE=off "$clone/slowproof" findings --json "$scratch/long log/trial.yaml"
    that 'a long recording prints one document and nothing else' all 'ended long 0' 'silent long.err' \
        '[ "$(head -c 1 "$scratch/long.out")" = "{" ]' 'holds long.out "\"speed_mm_s\" : 100"'
    run drawn "$clone/slowproof" findings "$clone/docs/samples/first-trial/trial.yaml" --charts "$scratch/charts of it"
    that 'charts are written as SVG with their words as text' all 'ended drawn 0' 'silent drawn.err' \
        'holds "charts of it/acoustic-felt-error-speed.svg" "error of indication in %"' \
        'holds "charts of it/acoustic-felt-residuals.svg" "number of the pass"' 'lacks "charts of it/acoustic-felt-residuals.svg" "<image"'
    run undrawn "$clone/slowproof" findings "$clone/docs/samples/first-trial/trial.yaml" --charts "$clone/LICENSE"
    that 'charts into a file instead of a folder end with 2, and the file is left alone' all 'ended undrawn 2' 'silent undrawn.out' 'holds undrawn.err "--charts"' 'cmp "$clone/LICENSE" "$root/LICENSE"'
    warm wrong env LC_ALL=C "$clone/slowproof" findings "$scratch/Prüfung µ 21°.yaml"
    that 'a file name with µ and ° survives LC_ALL=C' all 'ended wrong 2' 'silent wrong.out' 'holds wrong.err "Prüfung µ 21°.yaml"'
else
    echo 'skipped --json prints one document and nothing else: no sample trial here'
fi

# --- changed and broken sources
main=$clone/app/src/main/java/slowproof/app/Main.java
cp -p -- "$main" "$scratch/Main.java"
echo 'this is not Java' >>"$main"
run broken "$clone/slowproof" --help
that 'a broken source ends with 1, says why and where the log is, and prints nothing' all 'ended broken 1' 'silent broken.out' \
    'holds broken.err "$main"' "holds broken.err '$clone/.build/build.log'"
cp -- "$scratch/Main.java" "$main"
touch -d '2 years' -- "$main"
run mended "$clone/slowproof" --help
that 'a changed source is built again' all 'ended mended 0' 'same mended.out usual.out' 'holds mended.err "built in"'
that 'nothing half built stays behind' test -z "$(find "$clone/.build" -maxdepth 1 -name 'work.*')"
warm future "$clone/slowproof" --help
that 'a file dated in the future is not built for ever' all '! called' 'ended future 0'

# --- stopped in the middle of the first build
stopped=$scratch/stopped
copy_clone "$stopped"
setsid "$stopped/slowproof" --help >"$scratch/stopped.out" 2>"$scratch/stopped.err" </dev/null &
process=$!
for _ in $(seq 200); do
    [ -s "$stopped/.build/build.log" ] || [ -d "$(echo "$stopped"/.build/work.*)/src/app" ] && break
    sleep 0.1
done
kill -TERM -- "-$process"
wait "$process"
that 'a first build that is stopped leaves nothing half done' all 'silent stopped.out' \
    'test -z "$(find "$stopped/.build" -mindepth 1 -type d)"' '[ ! -e "$stopped/.build/current" ]'
that 'and does not lock out the next one' flock -n "$stopped/.build/lock" true

# --- which compilers a command gets: a Java that only says how it is started
cp "$clone/.build/current" "$scratch/current"
cat >"$scratch/saying java" <<'END'
#!/bin/sh
printf '<%s>\n' "$@"
END
chmod 755 "$scratch/saying java"
sed "2s|.*|$scratch/saying java|" "$scratch/current" >"$clone/.build/current"
mkdir "$scratch/small" "$scratch/large"
touch "$scratch/small/trial.yaml" "$scratch/large/trial.yaml"
head -c 5000000 /dev/zero >"$scratch/large/log.csv"
run small "$clone/slowproof" findings "$scratch/small/trial.yaml"
that 'a small trial starts with one compiler' all 'ended small 0' 'holds small.out "<-XX:TieredStopAtLevel=1>"'
run large "$clone/slowproof" findings "$scratch/large/trial.yaml"
that 'a trial beside large logs starts with both' all 'ended large 0' 'lacks large.out TieredStopAtLevel'
mkdir "$scratch/kept"
note=$scratch/kept/$(cd -P -- "$scratch/large" && pwd -P | tr / %)%trial.yaml.seen
touch "$scratch/kept/one.passes"
echo one.passes >"$note"
# the build is that of a source dated in the future
touch -d '3 years' -- "$note"
run seen env SLOWPROOF_CACHE="$scratch/kept" "$clone/slowproof" findings "$scratch/large/trial.yaml"
that 'with one only where what came of them is kept' all 'ended seen 0' 'holds seen.out "<-XX:TieredStopAtLevel=1>"'
(cd -- "$scratch/large" && run beside env SLOWPROOF_CACHE="$scratch/kept" "$clone/slowproof" findings trial.yaml)
that 'also from its own folder' all 'ended beside 0' 'holds beside.out "<-XX:TieredStopAtLevel=1>"'
run drawn env SLOWPROOF_CACHE="$scratch/kept" "$clone/slowproof" findings "$scratch/large/trial.yaml" --charts charts
that 'but with both where charts are wanted, for which rows may be needed' all 'ended drawn 0' 'lacks drawn.out TieredStopAtLevel'
rm "$scratch/kept/one.passes"
run gone env SLOWPROOF_CACHE="$scratch/kept" "$clone/slowproof" findings "$scratch/large/trial.yaml"
that 'and with both again once it is gone' all 'ended gone 0' 'lacks gone.out TieredStopAtLevel'
touch "$scratch/kept/one.passes"
touch -d '4 years' -- "$scratch/large/log.csv"
run touched env SLOWPROOF_CACHE="$scratch/kept" "$clone/slowproof" findings "$scratch/large/trial.yaml"
that 'or once a log has changed' all 'ended touched 0' 'lacks touched.out TieredStopAtLevel'
run pages "$clone/slowproof" serve
that 'the pages start with one compiler' all 'ended pages 0' 'holds pages.out "<-XX:TieredStopAtLevel=1>"'
native=$(sed -n 1p "$clone/.build/current")/native
case $(uname -s -m) in
    'Linux x86_64' | 'Linux aarch64')
        that 'the own code of the database is unpacked once, and where it lies is one word' all \
            '[ -r "$native/libsqlitejdbc.so" ]' 'holds pages.out "<-Dorg.sqlite.lib.path=$native>"'
        ;;
esac
run blanks "$clone/slowproof" findings 'a trial with  blanks.yaml' ''
that 'words with blanks, and empty ones, stay whole' all 'holds blanks.out "<a trial with  blanks.yaml>"' '[ "$(tail -n 1 "$scratch/blanks.out")" = "<>" ]'
cp "$scratch/current" "$clone/.build/current"

# --- a clone that cannot be written
bare=$scratch/bare
copy_clone "$bare"
if [ "$(id -u)" != 0 ]; then chmod -R a-w "$bare"; fi
listing "$bare" >"$scratch/before"
# the plain user gets a Maven repository of its own, filled from ours; the files are only linked
repository=$scratch/repository
cp -al -- "$HOME/.m2/repository" "$repository" 2>/dev/null || { rm -rf "$repository"; cp -a -- "$HOME/.m2/repository" "$repository"; }
if [ "$(id -u)" = 0 ]; then find "$repository" -type d -exec chown 65534:65534 {} +; fi
run reader plain MAVEN_OPTS="-Dmaven.repo.local=$repository" "$bare/slowproof" --help
listing "$bare" >"$scratch/after"
that 'a clone that cannot be written is built in the cache of the user' all 'ended reader 0' 'same reader.out usual.out' \
    'same before after' '[ ! -e "$bare/.build" ]' '[ -r "$home/.cache/slowproof$bare/current" ]'
warm reader2 plain "$bare/slowproof" --help
that 'and only once' all '! called' 'ended reader2 0' 'silent reader2.err'

run homeless plain HOME= XDG_CACHE_HOME= "$bare/slowproof" --help
that 'without any folder to write in it says which setting helps' all 'ended homeless 1' 'silent homeless.out' 'holds homeless.err XDG_CACHE_HOME'

# --- nothing installed
rm -rf "$home/.cache"
tools "$scratch/bin"
if [ -x /usr/bin/apt-get ]; then
    run poor plain PATH="$scratch/bin" "$bare/slowproof" --help
    that 'without rights the exact line to type is printed' all 'ended poor 1' 'silent poor.out' \
        "holds poor.err \"su -c 'apt-get update && apt-get install -y --no-install-recommends maven'\""
    fake "$scratch/bin/sudo" 'exit 1'
    run asked plain PATH="$scratch/bin" "$bare/slowproof" --help
    that 'a sudo that wants a password is not used, but named' all 'ended asked 1' 'silent asked.out' \
        "holds asked.err \"sudo sh -c 'apt-get update && apt-get install -y --no-install-recommends maven'\""
    fake "$scratch/bin/sudo" 'shift; exec "$@"'
    fake "$scratch/bin/apt-get" '[ "$1" = update ]'
    run offline plain PATH="$scratch/bin" "$bare/slowproof" --help
    that 'an update that reports success without a network does not hide the failed installation' all 'ended offline 1' \
        'silent offline.out' 'holds offline.err "could not be installed"' 'holds offline.err "Is there a network?"'
    fake "$scratch/bin/apt-get" "[ \"\$1\" = update ] || ln -s '$fakes/mvn' '$scratch/bin/mvn'"
    chmod 777 "$scratch/bin" "$scratch"
    run equipped plain PATH="$scratch/bin" "$bare/slowproof" --help
    that 'what is missing is installed, then the build starts' all called 'ended equipped 1' 'holds equipped.err "installing maven"'
    rm -f "$scratch/called"
else
    echo 'skipped without rights the exact line to type is printed: not a Debian machine'
fi

# --- the commit
commit_of() { (cd / && PATH=${2:-$PATH} sh -c 'here=$1 in_clone=$1/.build in_cache=/none; . "$1/launch/build.sh"; describe_sources; echo "$version $commit"' sh "$1"); }
if [ -e "$root/.git" ] && command -v git >/dev/null; then
    git -c safe.directory='*' clone -q --no-hardlinks -- "$root" "$scratch/history"
    copy_clone "$scratch/history"
    git -C "$scratch/history" add -A
    git -C "$scratch/history" -c user.name=tester -c user.email=tester@localhost commit -q --allow-empty -m 'As it is here'
    head=$(git -C "$scratch/history" rev-parse HEAD)
    that 'the commit is that of the clone' test "$(commit_of "$scratch/history")" = "$(commit_of "$bare" | sed 's/ .*//') $head"
    that 'inside a hook of another repository too' test "$(GIT_DIR=/none commit_of "$scratch/history")" = "$(commit_of "$scratch/history")"
    echo >>"$scratch/history/pom.xml"
    that 'a changed build file is told' test "$(commit_of "$scratch/history" | sed 's/.* //')" = "$head-modified"
    git -C "$scratch/history" checkout -q -- pom.xml
    echo >>"$scratch/history/app/src/main/java/slowproof/app/Main.java"
    that 'changed sources are told' test "$(commit_of "$scratch/history" | sed 's/.* //')" = "$head-modified"
    rm -f "$scratch/bin/git"
    that 'without git the commit is unknown' test "$(commit_of "$scratch/history" "$scratch/bin" | sed 's/.* //')" = unknown
    copy_clone "$scratch/history/inner"
    that 'the history of a surrounding repository is not ours' test "$(commit_of "$scratch/history/inner" | sed 's/.* //')" = unknown
else
    echo 'skipped the commit is that of the clone: no history or no git here'
fi
