# SPDX-License-Identifier: GPL-3.0-or-later
# Turns migrations/NNNN_name.sql, given in order, into one header with the array of their texts.
BEGIN {
  print "// Generated from core/store/migrations."
  print "#pragma once"
  print "namespace prillbook::store {"
  print "inline constexpr const char* migration_texts[] = {"
}
FNR == 1 { if (NR > 1) print ")sql\","; printf "R\"sql(" }
{ print }
END { print ")sql\"};"; print "}  // namespace prillbook::store" }
