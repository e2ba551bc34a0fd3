#!/usr/bin/env bash
# Runs every fuzz target of the module for a short time each, one after the
# other. FUZZTIME says how long (default 10s). The seeds alone run in any
# `go test`; this looks a little further.
set -euo pipefail
cd "$(dirname "$0")/.."

time=${FUZZTIME:-10s}
count=0
failed=()
while IFS=: read -r file line; do
	target=$(sed -E 's/^func (Fuzz[A-Za-z0-9_]*)\(.*/\1/' <<<"$line")
	package=./$(dirname "$file")
	count=$((count + 1))
	echo "fuzz: $target in $package for $time"
	if ! go test -run '^$' -fuzz "^$target\$" -fuzztime "$time" "$package"; then
		failed+=("$package $target")
	fi
done < <(git ls-files --cached --others --exclude-standard '*_test.go' | sort | xargs -r grep -HE '^func Fuzz[A-Za-z0-9_]*\(')

if [ ${#failed[@]} -ne 0 ]; then
	printf 'fuzz: FAILED %s\n' "${failed[@]}" >&2
	exit 1
fi
echo "fuzz: $count targets, none failed"
