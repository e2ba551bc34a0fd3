#!/usr/bin/env bash
# Makes sure that every package of debian-packages.txt is installed: installs
# the missing ones when run as root on Debian, else names them and fails.
set -euo pipefail
cd "$(dirname "$0")"

missing=()
while read -r name _; do
	if [ -z "$name" ] || [ "${name:0:1}" = "#" ]; then continue; fi
	if ! dpkg-query -W -f '${Status}' "$name" 2>/dev/null | grep -q 'ok installed'; then
		missing+=("$name")
	fi
done <debian-packages.txt

if [ ${#missing[@]} -eq 0 ]; then
	echo "packages: all there"
	exit 0
fi
if [ "$(id -u)" -eq 0 ] && command -v apt-get >/dev/null; then
	echo "packages: installing ${missing[*]}"
	apt-get update -qq
	DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
	exit 0
fi
echo "packages: these are missing, and the tests compare with them: ${missing[*]}" >&2
echo "packages: on Debian, run: sudo apt-get install ${missing[*]}" >&2
exit 1
