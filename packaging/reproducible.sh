#!/usr/bin/env bash
# Builds the committed program twice, in two folders, and compares our assemblies byte for byte. As they are
# given out, without debug data: that of the page names the folder in which its components were compiled.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
for place in first another/place/second; do
  git clone -q "$root" "$work/$place"
  (cd "$work/$place" && dotnet build src/WireUp -c Release -v quiet -p:ContinuousIntegrationBuild=true -p:DebugType=none -p:UseSharedCompilation=false)
  (cd "$work/$place/src/WireUp/bin/Release/net10.0" && sha256sum WireUp.*.dll wireup.dll) >"$work/$(basename "$place").sums"
done
diff "$work/first.sums" "$work/second.sums" && echo "the same, byte for byte: $(wc -l <"$work/first.sums") assemblies"
