# Reads JUnit's XML reports as Surefire writes them (one tag per line), with awk alone. Used by `check`.

# report_figures REPORT...: prints the numbers of tests run, in error, failed and skipped. Only the first <testsuite>
# of a file counts: the text of a failure may hold anything, another <testsuite> too.
report_figures() {
    awk '
        function figure(name) {
            return match($0, " " name "=\"[0-9]+\"") ? substr($0, RSTART + length(name) + 3, RLENGTH - length(name) - 4) : 0
        }
        FNR == 1 { counted = 0 }
        /^<testsuite / && !counted {
            counted = 1
            sub(/>.*/, "")
            run += figure("tests"); errors += figure("errors"); failures += figure("failures"); skipped += figure("skipped")
        }
        END { print run + 0, errors + 0, failures + 0, skipped + 0 }' /dev/null "$@"
}

# skipped_tests REPORT...: prints one line for each skipped test: class, name, reason.
skipped_tests() {
    awk '
        function attribute(name) {
            return match($0, " " name "=\"[^\"]*\"") ? substr($0, RSTART + length(name) + 3, RLENGTH - length(name) - 4) : ""
        }
        function plain(text) {
            gsub(/&#10;/, " ", text); gsub(/&lt;/, "<", text); gsub(/&gt;/, ">", text); gsub(/&quot;/, "\"", text)
            gsub(/&apos;/, "'\''", text); gsub(/&amp;/, "\\&", text)
            return text
        }
        /^ *<testcase / { class = attribute("classname"); name = attribute("name") }
        /^ *<skipped/ {
            reason = plain(attribute("message"))
            if (reason == "" && match($0, /<!\[CDATA\[/)) {
                reason = substr($0, RSTART + RLENGTH)
                sub(/\]\]>.*/, "", reason)
                sub(/^[A-Za-z0-9_.]*: /, "", reason)
            }
            sub(/^Assumption failed: /, "", reason)
            print class " " plain(name) ": " reason
        }' /dev/null "$@"
}
