# Builds Slowproof once. Read by `slowproof` when there is no build, or an old one; sets the variables it starts
# Java with. The sources are copied into a temporary folder and built there, so the clone may be read-only, and
# nobody ever sees half a build: the last step renames one small file, `current`, that names the finished folder.
#
# A state folder (.build in the clone, or the one in the person's cache) holds:
#   lock        held while somebody builds
#   current     seven lines: build folder, java, JAVA_HOME at the time, version, commit, options for Java, class archive
#   build.XXX/  slowproof.jar, lib/, since (its time is that of the newest source built), java-chosen, classes.jsa, long.aot,
#               native/
#   build.log   what Maven said last

. "$here/launch/machine.sh"

give_up() {
    say "$*"
    exit 1
}

# choose_state: sets `state` to the first folder that can be written.
choose_state() {
    for state in "$in_clone" "$in_cache"; do
        [ -n "$state" ] && (umask 022 && mkdir -p -- "$state") 2>/dev/null && touch "$state/lock" 2>/dev/null && return 0
    done
    give_up "neither $in_clone nor ${in_cache:-a folder of yours} can be written. Set XDG_CACHE_HOME to the full path of one that can."
}

# lock_state: one build at a time in a state folder; the others wait. The kernel drops the lock if we are killed.
lock_state() {
    command -v flock >/dev/null 2>&1 || return 0
    exec 9>"$state/lock"
    if ! flock -n 9; then
        say 'waiting for another first run to finish building'
        flock 9
    fi
}

unlock_state() {
    exec 9>&-
}

# build_once: leaves a finished build of the present sources in the variables of `slowproof`, or exits with 1.
build_once() {
    choose_state
    lock_state
    # somebody else may have built while we waited
    if ! take_build "$state" || ! same_java; then
        started=$(date +%s)
        umask_then=$(umask)
        umask 022
        need_build_tools || exit 1
        if [ -e "$state/current" ]; then
            say "the sources have changed: building again (log: $state/build.log)"
        else
            say "first run: building, about a minute (log: $state/build.log)"
        fi
        rm -rf -- "$state"/work.*
        work=$(mktemp -d "$state/work.XXXXXX") || give_up "no temporary folder could be made in $state"
        trap 'rm -rf -- "$work"' EXIT
        trap 'exit 130' INT TERM HUP
        copy_sources
        compile
        build=$(mktemp -d "$state/build.XXXXXX") && chmod 755 "$build" || give_up "no folder could be made in $state"
        mv -- "$work/src/app/target/slowproof.jar" "$work/src/app/target/lib" "$work/since" "$build/"
        java=$jdk/bin/java
        describe_sources
        unpack_native
        train
        publish
        rm -rf -- "$work"
        trap - EXIT INT TERM HUP
        umask "$umask_then"
        say "built in $(($(date +%s) - started)) s"
    fi
    unlock_state
}

# choose_java_again: the build is good, but another JDK may be there now, or the folder has been moved.
choose_java_again() {
    state=${build%/*}
    if ! find_jdk; then
        need_build_tools || exit 1
    fi
    if [ "$moved" = false ] && [ "$java" = "$jdk/bin/java" ] && ! [ /usr/lib/jvm -nt "$build/java-chosen" ]; then
        return 0 # another JAVA_HOME, but the same JDK is still the best
    fi
    java=$jdk/bin/java
    archive=
    # without the right to write there the program still runs, only without the class archive
    if touch "$state/lock" 2>/dev/null; then
        lock_state
        umask_then=$(umask)
        umask 022
        rm -rf -- "$build/classes.jsa" "$build/long.aot" "$build/native"
        unpack_native
        train
        publish
        umask "$umask_then"
        unlock_state
    fi
}

# copy_sources: what the build needs, with its times, to $work/src. $work/since gets the time of the newest source
# or of now, whichever is later: a file changed while we build is newer, one dated in the future is not for ever.
copy_sources() {
    mkdir "$work/src"
    touch "$work/since"
    (cd "$here" && cp -R --preserve=timestamps --parents -- pom.xml .mvn */pom.xml */src/main "$work/src") ||
        give_up 'the sources could not be copied'
    chmod -R u+w "$work/src"
    newest=$(find "$work/src" -newer "$work/since" -printf '%T@ %p\n' | sort -n | tail -n 1)
    [ -z "$newest" ] || touch -r "${newest#* }" "$work/since"
}

# compile: Maven, without the tests and without the strict checks, which `check` runs.
compile() {
    set -- -B -q -Dstyle.color=never -f "$work/src/pom.xml" -pl app -am -Dmaven.test.skip=true package
    maven_options=${MAVEN_OPTS-}
    # Maven keeps what it fetches at home; without a home, or for a user the machine has no record of, keep it here
    if [ "$maven_options" = "${maven_options#*maven.repo.local}" ] &&
        { ! [ -w "${HOME:-/nonexistent}" ] || ! getent passwd "$(id -u)" >/dev/null; }; then
        set -- "-Dmaven.repo.local=$state/repository" "$@"
    fi
    # The serial collector and one compiler: a build is short, and the machine may be small.
    if ! JAVA_HOME=$jdk MAVEN_OPTS="-XX:+UseSerialGC -XX:TieredStopAtLevel=1 $maven_options" \
        mvn "$@" >"$state/build.log" 2>&1 </dev/null 9>&-; then
        say "the build failed. The end of $state/build.log:"
        # with the paths of the sources, not of their copies; without Maven's advice and its repetitions
        FROM=$work/src TO=$here awk '
            { gsub(/\033\[[0-9;]*m/, "") }
            /^(WARNING|$)/ { next }
            /^\[ERROR\] (-> \[Help|To see the full|Re-run Maven|For more info|\[Help 1\]|After correcting|  mvn|$)/ { next }
            {
                at = index($0, ENVIRON["FROM"])
                if (at) $0 = substr($0, 1, at - 1) ENVIRON["TO"] substr($0, at + length(ENVIRON["FROM"]))
                if (!seen[$0]++) print "  " $0
            }' "$state/build.log" | tail -n 20 >&2
        if grep -q -e 'Could not transfer' -e 'Unknown host' -e 'Could not resolve dependencies' "$state/build.log"; then
            say 'The first build fetches libraries from Maven Central: is there a network?'
        fi
        exit 1
    fi
}

# describe_sources: version, and the commit with "-modified" when the sources differ from it; "unknown" without git.
describe_sources() {
    version=$(sed -n 's:^ *<version>\(.*\)</version>.*:\1:p' "$here/pom.xml" | head -n 1)
    commit=unknown
    # only this clone's own history: a folder that merely lies inside another repository has none
    if [ -e "$here/.git" ] && command -v git >/dev/null 2>&1; then
        commit=$(ask_git rev-parse HEAD) || commit=unknown
        if [ "$commit" != unknown ] &&
            [ -n "$(ask_git status --porcelain -- pom.xml .mvn '*/pom.xml' '*/src/main/*')" ]; then
            commit=$commit-modified
        fi
    fi
}

# safe.directory: the clone may belong to somebody else than the one who builds
ask_git() {
    env -u GIT_DIR -u GIT_WORK_TREE -u GIT_INDEX_FILE git --no-optional-locks -c safe.directory='*' -C "$here" "$@" 2>/dev/null
}

# unpack_native: the embedded database's own code, for this machine. Without it the library unpacks it at every start, which
# takes as long as Java itself; where it is not known which one fits, that is how it stays.
unpack_native() {
    case $(uname -s -m) in
        'Linux x86_64' | 'Linux aarch64') ;;
        *) return 0 ;;
    esac
    ! grep -q '^LIBC="musl"' "$jdk/release" 2>/dev/null || return 0
    inside=org/sqlite/native/Linux/$(uname -m)
    part=$build/native.part
    mkdir "$part" && (cd "$part" && "$jdk/bin/jar" xf "$build"/lib/sqlite-jdbc-*.jar "$inside/libsqlitejdbc.so") 2>/dev/null &&
        mv -- "$part/$inside" "$build/native"
    rm -rf -- "$part"
}

# train: chooses Java's options and makes a class archive for fast starts from what a few short runs load. A list of
# classes merged from several runs, dumped once, starts faster than an archive of one run; works from JDK 17 to 25.
train() {
    archive=
    # Libraries look round before they work, which takes time at every start: the one that reads the words looks in all others for
    # a language that is not there, the server asks the platform's beans how wide a line of the processor's cache is (16
    # short references; only speed hangs on it), and the one for databases gets ready for a recorder of events nobody asked for.
    java_options='-Dpicocli.disable.closures=true -Dorg.eclipse.jetty.util.referencesPerCacheLine=16 -Djfr.unsupported.vm=true'
    if [ "$jdk_major" -ge 24 ]; then
        # newer Java warns about native code and unsafe memory, which libraries for databases and ports use
        java_options="$java_options --enable-native-access=ALL-UNNAMED --sun-misc-unsafe-memory-access=allow"
    fi
    touch "$build/java-chosen"
    if [ /usr/lib/jvm -nt "$build/java-chosen" ]; then
        touch -r /usr/lib/jvm "$build/java-chosen"
    fi
    lists=$(mktemp -d "$build/lists.XXXXXX") || return 0
    sample=$here/docs/samples/first-trial
    learn --help
    if [ -r "$sample/trial.yaml" ]; then
        learn findings "$sample/trial.yaml"
        learn findings "$sample/trial.yaml" --json
        learn reply "$sample/trial.yaml"
        learn findings "$sample/no-such-file.yaml"
        if [ -r "$sample/line.yaml" ]; then
            learn forecast "$sample/trial.yaml" --line "$sample/line.yaml" --pieces 100
        fi
    fi
    learn serve --rehearse
    learn_long "$lists"
    learn findings "$lists/trial.yaml"
    # The numbers that newer Java gives the classes differ from run to run; constants resolved beforehand (@cp) would
    # link classes of an old format, which then stay out of the archive.
    sed -e '/^#/d' -e '/^@cp/d' -e 's/ id: [0-9]*$//' "$lists"/*.list 2>/dev/null | awk '!seen[$0]++' >"$lists/all"
    # shellcheck disable=SC2086
    if "$java" -Xshare:dump "-XX:SharedClassListFile=$lists/all" \
        "-XX:SharedArchiveFile=$build/classes.jsa" $java_options -cp "$build/slowproof.jar" >"$lists/log" 2>&1 </dev/null 9>&-; then
        archive=$build/classes.jsa
    fi
    rm -rf -- "$lists"
}

# learn_long FOLDER: evaluates a long invented recording and keeps what comes of it. From JDK 25 on Java learns from that what is
# called often; later runs over long recordings need not find it out again, which saves a quarter of a short one's time.
learn_long() {
    cat >"$1/trial.yaml" <<'END'
trial: "invented"
sensor: {distance_per_count_mm: 0.05, counter_bits: 32}
reference: {kind: axis, expanded_uncertainty_mm: 0.01}
limit: {relative_pct: 0.15}
recordings:
  - {material: "invented felt", file: long.csv}
END
    awk 'BEGIN {
        print "time_s,count,reference_mm,dropout_pct"
        speeds = split("30 50 80 130 210 340", speed)
        dt = 0.001; ramp = 1000; x = 50; sense = 1
        for (row = 0; row < 650000; pass++) {
            top = speed[1 + int(pass / 2) % speeds]
            short = 1 - 0.3 / top
            way = 900; v = 0; from = x
            for (rest = 0; rest < 800; rest++) row += put(row)
            while (way > 0) {
                v = v * v / (2 * ramp) >= way ? v - ramp * dt : v + ramp * dt
                v = v > top ? top : v < 1 ? 1 : v
                way -= v * dt
                x = from + sense * (900 - (way < 0 ? 0 : way))
                seen += sense * v * dt * short
                row += put(row)
            }
            sense = -sense
        }
    }
    function put(row) {
        printf "%.6f,%d,%.5f,%.2f\n", row * dt, 1000000 + int(seen / 0.05), x + 0.002 * rand(), rand() < 0.0001 ? 12.5 : 0
        return 1
    }' >"$1/long.csv"
    # a file written just now would not be remembered
    touch -d '1 hour ago' "$1/long.csv"
    learns=
    [ "$jdk_major" -lt 25 ] || learns=$build/long.aot
    # shellcheck disable=SC2086
    SLOWPROOF_CACHE="$1/kept" timeout 120 "$java" ${learns:+"-XX:AOTCacheOutput=$learns"} -Xlog:disable -XX:+UseParallelGC \
        $java_options -Dfile.encoding=UTF-8 -Djava.awt.headless=true \
        -jar "$build/slowproof.jar" findings "$1/trial.yaml" >"$1/long.log" 2>&1 </dev/null 9>&- || rm -f -- "$build/long.aot"
}

# learn WORDS: runs one command and notes the classes it loads; what it prints does not matter.
learn() {
    # shellcheck disable=SC2086
    SLOWPROOF_CACHE="$lists/kept" timeout 60 "$java" "-XX:DumpLoadedClassList=$(mktemp "$lists/XXXXXX.list")" -Xlog:disable -XX:+UseSerialGC \
        -XX:TieredStopAtLevel=1 $java_options "-Dorg.sqlite.lib.path=$build/native" -Dfile.encoding=UTF-8 -Djava.awt.headless=true \
        -jar "$build/slowproof.jar" "$@" >/dev/null 2>&1 </dev/null 9>&-
}

# publish: makes the finished build the current one, for everybody who may read it, and clears older ones away.
publish() {
    java_home_then=${JAVA_HOME-}
    previous=$(head -n 1 "$state/current" 2>/dev/null)
    printf '%s\n' "$build" "$java" "$java_home_then" "$version" "$commit" "$java_options" "$archive" >"$state/current.new"
    # built by root in somebody's clone: it is theirs
    if [ "$(id -u)" = 0 ] && [ "$state" = "$in_clone" ]; then
        chown -R --reference="$here" -- "$state"
    fi
    mv -f -- "$state/current.new" "$state/current"
    # the one before stays: it may still be running
    for old in "$state"/build.*/; do
        old=${old%/}
        if [ "$old" != "$build" ] && [ "$old" != "$previous" ]; then
            rm -rf -- "$old"
        fi
    done
}
