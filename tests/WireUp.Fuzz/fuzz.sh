#!/usr/bin/env bash
# Coverage-guided fuzzing with AFL++ and SharpFuzz: tests/WireUp.Fuzz/fuzz.sh layout|readings|drawing|arguments SECONDS
# Needs the .NET 10 SDK and afl-fuzz (Debian and Ubuntu: package afl++). What is found lies in artifacts/fuzz/TARGET/out/default:
# crashes (exceptions, and heaps beyond 512 MB) and hangs (longer than five seconds).
# See one again:  dotnet artifacts/fuzz/bin/WireUp.Fuzz.dll TARGET FILE
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
target=$1 seconds=$2
bin=artifacts/fuzz/bin work=artifacts/fuzz/$target

if [[ ! -e $bin/instrumented ]]; then
  dotnet build -c Release tests/WireUp.Fuzz -v q
  dotnet tool restore >/dev/null
  mkdir -p "$bin"
  cp -r tests/WireUp.Fuzz/bin/Release/net10.0/. "$bin"
  for room in WireUp.Layouts wireup YamlDotNet System.CommandLine; do dotnet sharpfuzz "$bin/$room.dll"; done
  touch "$bin/instrumented"
fi

mkdir -p "$work"
export AFL_SKIP_BIN_CHECK=1 AFL_NO_AFFINITY=1 AFL_SKIP_CPUFREQ=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1 AFL_NO_UI=1 AFL_AUTORESUME=1
export DOTNET_GCHeapHardLimit=0x20000000 # 512 MB
afl-fuzz -i "tests/WireUp.Fuzz/seeds/$target" -o "$work/out" -V "$seconds" -t 5000 -m none -- dotnet "$bin/WireUp.Fuzz.dll" "$target" >"$work/log" 2>&1
grep -E '^(run_time|execs_done|execs_per_sec|corpus_count|saved_crashes|saved_hangs|bitmap_cvg|edges_found) ' "$work/out/default/fuzzer_stats"
