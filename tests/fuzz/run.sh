#!/usr/bin/env bash
# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later

# run.sh BUILD TARGET EXECUTIONS [PROCESSES [FOLDER]]: lets a fuzzer of the build folder BUILD (presets `fuzz` and
# `fuzz-plain`) look at so many inputs, shared among PROCESSES (2). What is new to it goes to FOLDER (BUILD/found/TARGET)
# and is where the next run goes on. Says in the end how many there were, and how fast; exit 1 if one was a fault: it
# lies in FOLDER then. EXECUTIONS like 60s are seconds instead.

set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
build=$1
target=$2
executions=$3
processes=${4:-2}
folder=${5:-$build/found/$target}

# Long enough for what the seeds are.
case $target in
typed) longest=64 ;;
series | records | request | asked) longest=1024 ;;
line | story) longest=1500 ;;
body | message) longest=2048 ;;
pages) longest=4096 ;;
bundle) longest=8192 ;;
*) echo "there is no target $target" >&2 && exit 2 ;;
esac

options=(-max_len="$longest" -print_final_stats=1 -verbosity=1)
[[ -f $here/words/$target.dict ]] && options+=(-dict="$here/words/$target.dict")
if [[ $executions == *s ]]; then
  options+=(-max_total_time="${executions%s}")
else
  options+=(-runs=$(((executions + processes - 1) / processes)))
fi

# Where memory was taken is not kept, and little of what was given back: both take longer than what is looked at.
export ASAN_OPTIONS=malloc_context_size=0:quarantine_size_mb=32:${ASAN_OPTIONS:-}
mkdir -p "$folder/corpus"
started=$(date +%s)
running=()
for ((i = 1; i <= processes; ++i)); do
  "$build/tests/fuzz/fuzz_$target" "${options[@]}" -seed=$((started + i)) -artifact_prefix="$folder/" \
    "$folder/corpus" "$here/corpus/$target" >"$folder/log.$i" 2>&1 &
  running+=($!)
done
failed=0
for process in "${running[@]}"; do
  wait "$process" || failed=1
done
seconds=$(($(date +%s) - started))
looked=0
for ((i = 1; i <= processes; ++i)); do
  told=$(sed -n 's/^stat::number_of_executed_units: *//p' "$folder/log.$i" | tail -n 1)
  looked=$((looked + ${told:-0}))
done
echo "$target: $looked executions in $seconds s, $((looked / (seconds > 0 ? seconds : 1))) a second," \
  "$(find "$folder/corpus" -type f | wc -l) inputs in $folder/corpus; $([[ $failed == 0 ]] && echo "no fault" || echo "A FAULT")"
exit $failed
