# SPDX-License-Identifier: GPL-3.0-or-later
# Turns the files of resources/labels, given in order, into one header with the array of their texts.
BEGIN {
  print "// Generated from resources/labels."
  print "#pragma once"
  print "#include <string_view>"
  print "namespace prillbook::labels {"
  print "inline constexpr std::string_view layout_texts[] = {"
}
FNR == 1 { if (NR > 1) print ")json\","; printf "R\"json(" }
{ print }
END { print ")json\"};"; print "}  // namespace prillbook::labels" }
