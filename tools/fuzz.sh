#!/usr/bin/env bash
# Runs every fuzz target of the module for a short time each, one after the
# other. FUZZTIME says how long (default 30s). The seeds and the kept corpus
# (testdata/fuzz) alone run in any `go test`; this looks a little further.
#
# Go before 1.27 has a race where the time given ends (golang/go#75804): the
# coordinator may then report its own deadline as a failure, with no failing
# input. Such a run says nothing about the target, so that it is done again
# in full; a target that never ends well has failed.
set -euo pipefail
cd "$(dirname "$0")/.."

time=${FUZZTIME:-30s}
count=0
failed=()
log=$(mktemp)
trap 'rm -f "$log"' EXIT

# spurious: the last run's only complaint is Go's own deadline.
spurious() {
	grep -qx '    context deadline exceeded' "$log" &&
		! grep -qE 'Failing input written|failure while testing seed|panic:|fatal error:' "$log"
}

# run_target PACKAGE TARGET
run_target() {
	local attempt
	for attempt in 1 2 3; do
		if go test -run '^$' -fuzz "^$2\$" -fuzztime "$time" -fuzzminimizetime 2s "$1" 2>&1 | tee "$log"; then
			return 0
		fi
		if ! spurious; then return 1; fi
		echo "fuzz: $2 ended in Go's deadline race (golang/go#75804), run $attempt of 3; again"
	done
	return 1
}

while IFS=: read -r file line; do
	target=$(sed -E 's/^func (Fuzz[A-Za-z0-9_]*)\(.*/\1/' <<<"$line")
	package=./$(dirname "$file")
	count=$((count + 1))
	echo "fuzz: $target in $package for $time"
	if ! run_target "$package" "$target"; then
		failed+=("$package $target")
	fi
done < <(git ls-files --cached --others --exclude-standard '*_test.go' | sort | xargs -r grep -HE '^func Fuzz[A-Za-z0-9_]*\(')

if [ ${#failed[@]} -ne 0 ]; then
	printf 'fuzz: FAILED %s\n' "${failed[@]}" >&2
	exit 1
fi
echo "fuzz: $count targets, none failed"
