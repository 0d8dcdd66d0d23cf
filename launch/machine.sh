# What the machine has and lacks: a JDK, Maven, Debian packages. Read by `slowproof` (only when it builds) and by
# `check`; plain POSIX shell. Messages go to standard error.

oldest_java=17
newest_java=25

say() {
    printf '%s: %s\n' "${0##*/}" "$*" >&2
}

# java_major FOLDER: the major version of the JDK in the folder, from its own note (no Java is started).
java_major() {
    sed -n 's/^JAVA_VERSION="\{0,1\}\([0-9][0-9]*\).*/\1/p' "$1/release" 2>/dev/null
}

# find_jdk: sets `jdk` to the folder of the newest usable JDK and `jdk_major` to its version, or fails.
# Looks at JAVA_HOME, /usr/lib/jvm and the javac on the PATH; of two equal versions the first wins.
find_jdk() {
    jdk=
    jdk_major=0
    on_path=$(command -v javac 2>/dev/null) && on_path=$(readlink -f -- "$on_path") && on_path=${on_path%/bin/javac}
    for candidate in "${JAVA_HOME-}" /usr/lib/jvm/* "$on_path"; do
        [ -n "$candidate" ] && [ -x "$candidate/bin/javac" ] && [ -x "$candidate/bin/java" ] || continue
        major=$(java_major "$candidate")
        [ -n "$major" ] && [ "$major" -ge $oldest_java ] && [ "$major" -le $newest_java ] || continue
        [ "$major" -gt "$jdk_major" ] || continue
        # a JDK of another processor type, or half removed, does not start
        "$candidate/bin/java" -version >/dev/null 2>&1 || continue
        jdk=$(CDPATH='' cd -P -- "$candidate" && pwd -P)
        jdk_major=$major
    done
    [ -n "$jdk" ]
}

# missing_tools: prints the Debian packages that the build lacks.
missing_tools() {
    find_jdk || printf 'default-jdk-headless '
    command -v mvn >/dev/null 2>&1 || printf 'maven '
}

# install_packages WHY PACKAGE...: installs Debian packages, as root or by a sudo that asks nothing; otherwise prints
# the line to type. Succeeds only when the installation did: `apt-get update` reports success even without a network.
install_packages() {
    why=$1
    shift
    line="apt-get update && apt-get install -y --no-install-recommends $*"
    if ! command -v apt-get >/dev/null 2>&1; then
        say "$why is missing. Install a JDK of $oldest_java to $newest_java with javac, and Maven 3.8 or newer, then run this again."
        return 1
    fi
    if [ "$(id -u)" = 0 ]; then
        become=
        typed=$line
    elif command -v sudo >/dev/null 2>&1; then
        become='sudo -n'
        typed="sudo sh -c '$line'"
    else
        become=none
        typed="su -c '$line'"
    fi
    if [ "$become" = none ] || { [ -n "$become" ] && ! sudo -n true >/dev/null 2>&1; }; then
        say "$why is missing, and installing it needs more rights than you have. Type this line, then run this again:"
        printf '  %s\n' "$typed" >&2
        return 1
    fi
    install_log=${install_log:-$(mktemp)}
    say "installing $* (log: $install_log)"
    $become apt-get update >"$install_log" 2>&1 </dev/null
    if $become env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=600 install -y \
        --no-install-recommends "$@" >>"$install_log" 2>&1 </dev/null; then
        return 0
    fi
    say "$why could not be installed. The end of $install_log:"
    tail -n 8 "$install_log" | sed 's/^/  /' >&2
    say 'Is there a network? Type this line, then run this again:'
    printf '  %s\n' "$typed" >&2
    return 1
}

# need_build_tools: a JDK (in `jdk`, `jdk_major`) and Maven, installed if they are missing; or fails with the reason said.
need_build_tools() {
    missing=$(missing_tools)
    if [ -n "$missing" ]; then
        case $missing in
            default-jdk-headless\ maven*) why='A JDK with Maven' ;;
            default*) why="A JDK of $oldest_java to $newest_java" ;;
            *) why='Maven' ;;
        esac
        # shellcheck disable=SC2086 # package names are words
        install_packages "$why" $missing || return 1
        hash -r
    fi
    if ! find_jdk; then
        say "there is still no JDK of $oldest_java to $newest_java with javac on this machine."
        return 1
    fi
}
