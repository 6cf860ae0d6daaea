#!/usr/bin/env bash
# Runs every sample layout through the program as a person would: bash tests/samples.sh
# A command passes when it ends with 0, or with 1 (findings remain: some samples are faulty on purpose),
# and, asked for JSON, prints a JSON object. Planning twice must write the same bytes.
# Ends with "N passed, N failed".
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

passed=0
failed=0
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
shopt -s nullglob

report() { # OK? WHAT
  if [[ $1 == ok ]]; then passed=$((passed + 1)); else failed=$((failed + 1)); fi
  printf '%-6s %s\n' "$1" "$2"
}

wireup() { dotnet src/WireUp/bin/Release/net10.0/wireup.dll "$@"; }

runs() { # json|text NAME COMMAND ARGS...
  local kind=$1 name=$2 code
  shift 2
  wireup "$@" >"$work/stdout" 2>"$work/stderr"
  code=$?
  if ((code > 1)); then
    report FAILED "$1 $name: exit status $code"
    head -5 "$work/stderr"
  elif [[ $kind == json && $(head -c 1 "$work/stdout") != '{' ]]; then
    report FAILED "$1 $name: no JSON object on standard output"
  else
    report ok "$1 $name"
  fi
}

samples=(sample-layouts/*.layout.yaml sample-layouts/trackwork/*.layout.yaml)
if ((${#samples[@]} == 0)); then
  echo "There are no sample layouts."
  echo "0 passed, 1 failed"
  exit 1
else
  dotnet build src/WireUp -c Release -v q --nologo || { echo "0 passed, 1 failed"; exit 1; }
fi

for file in sample-layouts/*.readings.yaml; do
  name=$(basename "$file" .readings.yaml)
  runs json "$name" diagnose "sample-layouts/$name.layout.yaml" --readings "$file" --json
  runs text "$name" diagnose "sample-layouts/$name.layout.yaml" --readings "$file" --picture "$work/$name.svg"
  runs text "$name" diagnose "sample-layouts/$name.layout.yaml" --survey 10
done

for file in "${samples[@]}"; do
  name=$(basename "$file" .layout.yaml)
  runs text "$name" check "$file"
  runs json "$name" check "$file" --json
  runs text "$name" power "$file"
  runs json "$name" power "$file" --json
  runs json "$name" plan "$file" --json --out "$work/$name.first"
  runs json "$name" plan "$file" --json --out "$work/$name.second"
  if diff -r "$work/$name.first" "$work/$name.second"; then
    report ok "plan $name twice: same bytes"
  else
    report FAILED "plan $name twice: the files differ"
  fi
  runs text "$name" export "$file" --format spice
  runs text "$name" export "$file" --format csv
  runs json "$name" export "$file" --format json
  runs text "$name" draw "$file" --out "$work/$name.svg"
  runs text "$name" draw "$file" --out "$work/$name.png"
  runs text "$name" draw "$file" --out "$work/$name.pdf" --from below
done

runs json home-yard compare sample-layouts/home-yard.layout.yaml "$work/home-yard.first/home-yard-wired.layout.yaml" --json --out "$work/home-yard.change"

echo "$passed passed, $failed failed"
((failed == 0))
