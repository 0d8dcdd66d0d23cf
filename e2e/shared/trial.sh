# What end-to-end tests of one trial share: the small sample in a scratch folder, and how a test is counted. To be sourced, with
# "root" set.
scratch=$(mktemp -d)
trap 'rm -rf -- "$scratch"' EXIT
cp -R "$root/docs/samples/first-trial" "$scratch/trial"
trial=$scratch/trial/trial.yaml

# status NAME WANTED COMMAND...: one test of an exit status; what the command prints is kept in "out" and "err".
status() {
    local name=$1 wanted=$2
    shift 2
    "$@" >"$scratch/out" 2>"$scratch/err" </dev/null
    local got=$?
    if [ "$got" = "$wanted" ]; then
        echo "ok $name"
    else
        echo "FAILED $name"
        echo "      status $got, not $wanted"
        sed 's/^/      /' "$scratch/out" "$scratch/err"
    fi
}

slow() { "$root/slowproof" "$@"; }
