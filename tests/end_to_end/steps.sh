# Sourced by the scripts beside it, each called as: SCRIPT PROGRAM SOURCE_FOLDER
# They work in an empty folder of their own. Every failed expectation is printed; one failed fails the script.
# shellcheck shell=bash
set -uo pipefail
program=$(readlink -f "$1") source=$(readlink -f "$2")
place=$(mktemp -d)
failures=0
cd "$place" || exit 2
unset NO_COLOR
export LC_ALL=C.UTF-8 TERM=xterm-256color

finish() {
  rm -rf "$place"
  if ((failures > 0)); then
    printf '%s failed\n' "$failures"
    exit 1
  fi
  printf 'all hold\n'
}
trap finish EXIT

fail() {
  failures=$((failures + 1))
  printf -- '--- %s\n' "$1"
  printf 'stdout:\n%s\nstderr:\n%s\n' "$(head -n 20 <<<"$out")" "$(head -n 20 <<<"$err")"
}

# run STATUS WORD...: the program's exit status must be STATUS. Leaves what it printed in $out and $err.
run() {
  local wanted=$1 status=0
  shift
  words=$*
  "$program" "$@" >"$place/.out" 2>"$place/.err" </dev/null || status=$?
  out=$(cat "$place/.out") err=$(cat "$place/.err")
  [[ $status == "$wanted" ]] || fail "ohmlore $words: exit status $status, not $wanted"
}

# says TEXT, complains TEXT: stdout or stderr of the last run holds TEXT.
says() { [[ $out == *"$1"* ]] || fail "ohmlore $words: stdout lacks: $1"; }
complains() { [[ $err == *"$1"* ]] || fail "ohmlore $words: stderr lacks: $1"; }
# prints_only, complains_only: nothing on the other stream.
prints_only() { [[ -z $err && -n $out ]] || fail "ohmlore $words: must print to stdout, and nothing to stderr"; }
complains_only() { [[ -z $out && -n $err ]] || fail "ohmlore $words: must print to stderr, and nothing to stdout"; }

# profile FILE [EDIT]: a profile in which nothing is found, its id after the file, and an edit (of sed) made in it.
profile() {
  local id=${1##*/}
  sed -e "s/\"id\": \"example\"/\"id\": \"${id%%.*}\"/" -e "${2:-}" "$source/tests/rules/base.profile.json" >"$1"
}
