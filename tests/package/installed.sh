#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# installed.sh BUILD_FOLDER: installs into an empty folder and uses what stands there as somebody would who got the package.
set -euo pipefail
build=$1
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
export HOME=$place/home XDG_RUNTIME_DIR=$place/run QT_QPA_PLATFORM=offscreen
mkdir -p "$HOME" "$XDG_RUNTIME_DIR"
fail() { echo "$*" >&2; exit 1; }

cmake --install "$build" --prefix "$place/usr" >/dev/null
export PATH=$place/usr/bin:$PATH
cd "$place" # nothing of the source is at hand

prillbook notebook demo "$place/demo.prillbook" >/dev/null
prillbook notebook check "$place/demo.prillbook" >/dev/null

# The window stays open until it is told to end.
prillbook "$place/demo.prillbook" 2>"$place/window.log" &
window=$!
sleep 3
kill -0 "$window" || { cat "$place/window.log" >&2; fail "the window did not stay open"; }
kill "$window"
wait "$window" || true

# Every verb of the program has its line in the manual page, and completion offers it.
mapfile -t verbs < <(prillbook notebook --help | awk '/^Subcommands:/ { verbs = 1; next } verbs && /^[a-z]/ { print $1 }')
[ "${#verbs[@]}" -gt 10 ] || fail "no verbs: ${verbs[*]}"
manual=$(zcat "$place/usr/share/man/man1/prillbook.1.gz")
# shellcheck source=/dev/null
source "$place/usr/share/bash-completion/completions/prillbook"
for verb in "${verbs[@]}"; do
  grep -qE "^\.(BI|B) ${verb//-/\\\\-}( |$)" <<<"$manual" || fail "the manual page does not name $verb"
  COMP_WORDS=(prillbook notebook "$verb") COMP_CWORD=2
  _prillbook
  grep -qx "$verb" <<<"$(printf '%s\n' "${COMPREPLY[@]}")" || fail "completion does not offer $verb"
done
COMP_WORDS=(prillbook notebook summary --x) COMP_CWORD=3
_prillbook
[ "${COMPREPLY[*]}" = --xlsx ] || fail "completion of an option: ${COMPREPLY[*]}"

desktop-file-validate "$place/usr/share/applications/org.prillbook.Prillbook.desktop"
appstreamcli validate --no-net "$place/usr/share/metainfo/org.prillbook.Prillbook.metainfo.xml"
