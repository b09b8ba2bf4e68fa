# SPDX-License-Identifier: GPL-3.0-or-later
# Completion of the verbs of prillbook for bash; the verbs and options are asked of the program itself.
_prillbook_words() {
  "$@" --help 2>/dev/null | awk '
    /^Subcommands:/ { verbs = 1; next }
    verbs && /^[a-z]/ { print $1 }
    { for (i = 1; i <= NF; i++) if ($i ~ /^(-[a-z],)?--[a-z]/) { word = $i; sub(/^-[a-z],/, "", word); print word } }'
}

_prillbook() {
  local word=${COMP_WORDS[COMP_CWORD]} program=${COMP_WORDS[0]}
  COMPREPLY=()
  case $COMP_CWORD in
    1) mapfile -t COMPREPLY < <(compgen -W "calc notebook" -- "$word"; compgen -f -X '!*.prillbook' -- "$word") ;;
    2)
      if [ "${COMP_WORDS[1]}" = notebook ]; then
        mapfile -t COMPREPLY < <(compgen -W "$(_prillbook_words "$program" notebook)" -- "$word")
      fi
      ;;
    *)
      case $word in
        -*) mapfile -t COMPREPLY < <(compgen -W "$(_prillbook_words "$program" "${COMP_WORDS[1]}" "${COMP_WORDS[2]}")" -- "$word") ;;
        *) mapfile -t COMPREPLY < <(compgen -f -- "$word") ;;
      esac
      ;;
  esac
}
complete -o filenames -F _prillbook prillbook
