#!/usr/bin/env bash
# Changes every figure of the rules and formulas in turn by 1 %, up and down, and runs the tests of `checks`: one of them must
# fail. What survives is printed; a figure that no test holds ends with 1. Figures are marked `figure!(...)` in the source.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

tests=$(cargo test --locked -p checks --lib --no-run --message-format=json |
    grep -o '"executable":"[^"]*"' | tail -n 1 | cut -d'"' -f4)
(cd crates/checks && "$tests" --quiet >/dev/null 2>&1) || { echo "the tests fail before anything is changed" >&2; exit 1; }
# Place of every figure in code that is no test: file:line:column, as the compiler tells it
figures=$(awk '
    FNR == 1 { in_tests = 0 }
    /^#\[cfg\(test\)\]$/ { held = 1; next }
    held && /^mod / { in_tests = 1 }
    { held = 0 }
    in_tests || /^ *\/\// { next }
    {
        rest = $0; gone = 0
        while ((at = index(rest, "figure!(")) > 0) {
            print FILENAME ":" FNR ":" gone + at
            rest = substr(rest, at + 1); gone += at
        }
    }' $(find crates/checks/src -name '*.rs' ! -name figure.rs | sort))

count=0
survivors=0
for figure in $figures; do
    # From the folder in which cargo runs the tests of this crate.
    for factor in 1.01 0.99; do
        count=$((count + 1))
        if (cd crates/checks && HEADLAP_FIGURE="$figure*$factor" "$tests" --quiet >/dev/null 2>&1); then
            survivors=$((survivors + 1))
            line=$(cut -d: -f2 <<<"$figure")
            echo "survives x $factor: $figure: $(sed -n "${line}p" "${figure%%:*}" | sed 's/^ *//')"
        fi
    done
done
echo "$count changes, $survivors survive"
((survivors == 0))
