#!/bin/sh
# One operating point of one network, here and in ngspice, side by side. Builds
# crates/bench/src/bin/operating_point, lets both find the same operating points in turn, compares every
# node's voltage (0.1 %) and prints the times. Fails if a voltage is off, or if in the state “charging”
# ngspice is less than 100 times slower. Needs cargo, ngspice and GNU date.
set -eu
cd "$(dirname "$0")/.."
rounds=3
wanted=100

cargo build --quiet --release -p bench --bin operating_point
ours="${CARGO_TARGET_DIR:-target}/release/operating_point"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# Microseconds that ngspice takes over a deck. It ends with 1 after `quit` in a deck: no fault.
took() {
    start=$(date +%s%N)
    ngspice -b "$1" >"$1.out" 2>&1 || true
    end=$(date +%s%N)
    echo $(((end - start) / 1000))
}

# Least of two numbers, of which the first may be missing.
least() {
    if [ -z "$1" ] || [ "$2" -lt "$1" ]; then echo "$2"; else echo "$1"; fi
}

# How ngspice came to its answer.
way() {
    if grep -q "source stepping" "$1"; then echo "source stepping"
    elif grep -q "gmin stepping" "$1"; then echo "gmin stepping"
    else echo "Newton"; fi
}

# Measures a state: its name, how ngspice starts (deck, near), and over how many operating points. Two
# runs are compared, so that starting the process and reading the deck don't count.
measure() {
    state=$1 start=$2 times=$3
    "$ours" "$state" "$start" 5 >"$work/short"
    "$ours" "$state" "$start" $((5 + times)) >"$work/long"
    short= long= fresh= warm= unknown=
    for _ in $(seq $rounds); do
        short=$(least "$short" "$(took "$work/short")")
        long=$(least "$long" "$(took "$work/long")")
        "$ours" "$state" time >>"$work/$state.time"
    done
    best() { awk -v w="$1" '$1 == w && (!n || $2 < n) { n = $2 } END { print n }' "$work/$state.time"; }
    "$ours" "$state" compare <"$work/long.out" >"$work/compared" || { cat "$work/compared"; exit 1; }
    awk -v state="$state" -v start="$start" -v way="$(way "$work/long.out")" \
        -v theirs="$(awk "BEGIN { print ($long - $short) / $times }")" \
        -v fresh="$(best fresh)" -v warm="$(best warm)" -v unknown="$(best unknown)" 'BEGIN {
        from = start == "near" ? "the answer" : "nothing"
        printf "%-9s ngspice from %-10s %8.0f µs (%s)\n", state, from, theirs, way
        printf "          here from nothing       %8.1f µs, ngspice takes %5.0f times as long\n", fresh, theirs / fresh
        printf "          here from the last one  %8.1f µs, ngspice takes %5.0f times as long\n", warm, theirs / warm
        printf "          here, network not known %8.1f µs, ngspice takes %5.0f times as long\n", unknown, theirs / unknown
    }'
    sed 's/^/          /' "$work/compared"
    ratio=$(awk "BEGIN { print int(($long - $short) / $times / $(best fresh)) }")
}

echo "$("$ours" key-on time | sed -n 's/^nodes //p') nodes, 40 loads that are not linear; microseconds an operating point, the least of $rounds rounds"
measure key-on deck 400
# By itself ngspice finds no answer here: “source stepping failed” after seconds.
measure driving near 400
measure charging deck 40
if [ "$ratio" -lt "$wanted" ]; then
    echo "charging: only $ratio times faster than ngspice from nothing; at least $wanted are wanted"
    exit 1
fi
echo "charging: $ratio times faster than ngspice from nothing; at least $wanted are wanted"
