#!/usr/bin/env bash
# The sum that ./check prints: read from reports as the test runner writes them. Run by ./check.
set -u
root=$(CDPATH='' cd -P -- "$(dirname -- "$0")/.." && pwd -P)
. "$root/launch/reports.sh"
scratch=$(mktemp -d)
trap 'rm -rf -- "$scratch"' EXIT

equal() { # equal NAME WANTED GOT
    if [ "$2" = "$3" ]; then
        echo "ok $1"
    else
        echo "FAILED $1"
        printf '      wanted: %s\n      got:    %s\n' "$2" "$3"
    fi
}

cat >"$scratch/TEST-first.xml" <<'XML'
<?xml version="1.0" encoding="UTF-8"?>
<testsuite xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" version="3.0.2" name="FirstTest" time="1,234.5" tests="5" errors="1" skipped="2" failures="1" flakes="0">
  <testcase name="passes" classname="FirstTest" time="0.009"/>
  <testcase name="fails" classname="FirstTest" time="0.089">
    <failure message="tests=&quot;7&quot;" type="AssertionFailedError"><![CDATA[AssertionFailedError:
<testsuite tests="100" errors="100" failures="100" skipped="100">
]]></failure>
  </testcase>
  <testcase name="breaks" classname="FirstTest" time="0.009">
    <error type="java.lang.IllegalStateException"/>
  </testcase>
  <testcase name="assumes" classname="FirstTest" time="0.0">
    <skipped type="org.opentest4j.TestAbortedException"><![CDATA[org.opentest4j.TestAbortedException: Assumption failed: no "figures" here: > 3
	at FirstTest.assumes(FirstTest.java:21)
]]></skipped>
  </testcase>
  <testcase name="[1] a &lt; b" classname="FirstTest" time="0.0">
    <skipped message="needs a &quot;browser&quot;"/>
  </testcase>
</testsuite>
XML
sed -e 's/FirstTest/SecondTest/' -e '/<testcase/,$d' -e 's/errors="1" skipped="2" failures="1"/errors="0" skipped="0" failures="0"/' \
    "$scratch/TEST-first.xml" >"$scratch/TEST-second.xml"

equal 'figures of several reports add up, text of failures aside' '10 1 1 2' "$(report_figures "$scratch"/TEST-*.xml)"
equal 'no report is no test' '0 0 0 0' "$(report_figures)"
equal 'skipped tests are named with their reasons' 'FirstTest assumes: no "figures" here: > 3
FirstTest [1] a < b: needs a "browser"' "$(skipped_tests "$scratch"/TEST-*.xml)"
