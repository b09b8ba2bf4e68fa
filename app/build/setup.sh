# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck shell=bash
# Functions shared by app/run and tests/run; to be sourced, with the project's folder as working directory.
# Everything said here goes to standard error, so that a batch verb's standard output stays its own.

say() { printf '%s\n' "$*" >&2; }
fail() { say "$@"; exit 1; }

# quietly LOG COMMAND…: runs the command with its output in LOG; shows the end of LOG only where it fails.
quietly() {
  local log=$1 status=0
  shift
  mkdir -p "$(dirname "$log")"
  "$@" >"$log" 2>&1 </dev/null || status=$?
  if [ "$status" -ne 0 ]; then
    tail -n 60 "$log" >&2
    say "Failed: $* (the whole log: $log)"
  fi
  return "$status"
}

# packages_of SECTION…: the packages that app/build/packages.txt lists for these sections.
packages_of() {
  awk -v wanted=" $* " '/^\[/ { section = substr($1, 2, length($1) - 2); next }
    NF && !/^#/ && index(wanted, " " section " ") { print $1 }' app/build/packages.txt
}

# missing_packages SECTION…: those of them that dpkg does not hold as installed.
missing_packages() {
  local packages
  mapfile -t packages < <(packages_of "$@")
  comm -23 <(printf '%s\n' "${packages[@]}" | sort -u) \
    <(dpkg-query -W -f='${db:Status-Abbrev} ${Package}\n' "${packages[@]}" 2>/dev/null | awk '$1 ~ /^.i/ { print $2 }' | sort -u)
}

# install_packages SECTION…: brings what is missing, with apt, as root or through sudo.
install_packages() {
  if ! command -v apt-get >/dev/null || ! command -v dpkg-query >/dev/null; then
    say "No apt here: install what matches these Debian packages yourself: $(packages_of "$@" | tr '\n' ' ')"
    return 0
  fi
  local missing as_root=()
  mapfile -t missing < <(missing_packages "$@")
  [ "${#missing[@]}" -gt 0 ] || return 0
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || fail "Missing, and there is no sudo. As root: apt-get install --no-install-recommends ${missing[*]}"
    as_root=(sudo)
  fi
  say "Installing with apt: ${missing[*]}"
  # shellcheck disable=SC2016 # the inner shell expands
  quietly .build/install.log "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive sh -ec '
    apt-get -o Acquire::Retries=3 update
    apt-get -o Acquire::Retries=3 -y --no-install-recommends install "$@"' sh "${missing[@]}" ||
    fail "apt could not install what is needed."
}

# use_ccache: ccache keeps its usual place, also where HOME is unset; it is left out where that place cannot be written.
use_ccache() {
  if [ -z "${HOME:-}" ]; then
    HOME=$(getent passwd "$(id -u)" | cut -d: -f6)
    export HOME
  fi
  mkdir -p "${CCACHE_DIR:-${XDG_CACHE_HOME:-$HOME/.cache}/ccache}" 2>/dev/null || export CCACHE_DISABLE=1
}

# jobs_at_once: how many compilers at once; one a processor, and 1.5 GB of free memory for each.
jobs_at_once() {
  awk -v processors="$(nproc)" '/^MemAvailable:/ { fit = int($2 / 1500000) }
    END { n = fit < processors ? fit : processors; print (n < 1 ? 1 : n) }' /proc/meminfo
}

# build PRESET TARGET…: configures where needed and builds into .build/PRESET, one build at a time. On a terminal it shows
# the compiler's progress; set PRILLBOOK_QUIET=1 to keep all of it in the log.
build() {
  local preset=$1 folder=.build/$1 run
  shift
  mkdir -p "$folder"
  use_ccache
  run=(quietly "$folder/build.log")
  if [ -z "${PRILLBOOK_QUIET:-}" ]; then
    if [ -t 2 ]; then
      run=(to_terminal)
    else
      say "Building (log: $folder/build.log)"
    fi
  fi
  (
    flock 9
    if [ ! -f "$folder/build.ninja" ] || [ CMakePresets.json -nt "$folder/build.ninja" ]; then
      # Afresh: where a preset names another compiler, CMake would keep the folder and forget the preset's other variables.
      quietly "$folder/configure.log" cmake --fresh --preset "$preset" || exit 1
    fi
    "${run[@]}" cmake --build --preset "$preset" --parallel "$(jobs_at_once)" --target "$@" || exit 1
  ) 9>"$folder/lock"
}

to_terminal() { "$@" >&2 </dev/null; }
