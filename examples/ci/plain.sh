#!/bin/sh
# Audits a rig library anywhere a shell runs: every form of the report into one folder, the text to the log.
# Usage: plain.sh [LIBRARY [REPORTS]]. Ends with the exit status of the audit.
set -eu

library=${1:-.}
reports=${2:-reports}
mkdir -p "$reports"

# Accepted findings are left out of the file for hosts that would count them; status 1 must not stop the script there.
riglint audit "$library" --leave-out accepted --format sarif --output "$reports/audit.sarif" || true

# The whole report. Its exit status is the verdict: 0 quiet, 1 findings, 2 something unread, 3 not done.
status=0
riglint audit "$library" \
  --write junit="$reports/audit.xml" \
  --write markdown="$reports/audit.md" \
  --write json="$reports/audit.json" || status=$?

case $status in
0) echo "Nothing at or above the stop word. A calculation is no inspection." ;;
1) echo "Something at or above the stop word: read the report above." ;;
2) echo "Something could not be read or judged: read the report above." ;;
*) echo "The audit was not done (status $status): nothing here is checked." ;;
esac
exit "$status"
