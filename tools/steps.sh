# Sourced by the project's scripts: goes to the top of the source tree and says what is being done.
# shellcheck shell=bash
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

doing=
step() {
  doing=$*
  printf '\n== %s\n' "$doing"
}

# Every way of stopping early names the step, whatever the failing command has printed.
stopped() {
  local status=$?
  if [[ $status != 0 && -n $doing ]]; then
    printf '\nStopped, exit status %s, at: %s\n' "$status" "$doing" >&2
  fi
}
trap stopped EXIT

# CMake and ctest take their defaults from here. Generator and launchers hold for a new build folder
# only; one that exists keeps its own.
use_build_defaults() {
  local jobs
  jobs=$(nproc)
  export CMAKE_BUILD_PARALLEL_LEVEL=${CMAKE_BUILD_PARALLEL_LEVEL:-$jobs}
  export CTEST_PARALLEL_LEVEL=${CTEST_PARALLEL_LEVEL:-$jobs}
  if command -v ninja >/dev/null; then export CMAKE_GENERATOR=${CMAKE_GENERATOR:-Ninja}; fi
  if command -v ccache >/dev/null; then
    export CMAKE_C_COMPILER_LAUNCHER=ccache CMAKE_CXX_COMPILER_LAUNCHER=ccache
  fi
}

configure() {
  cmake -S . -B "$@" --log-level=NOTICE
}

run_tests() {
  ctest --test-dir "$1" --output-on-failure --no-tests=error "${@:2}"
}
