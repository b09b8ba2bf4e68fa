# SPDX-License-Identifier: GPL-3.0-or-later
# Turns a statements.sql file into a header of constants. A statement starts at "-- name: the_name" and ends at the
# next one; a name that is not there does not compile.
#   awk -v layer=core/custody -f embed_sql.awk statements.sql > statements.h
function close_statement() { if (name != "") printf ")sql\"};\n" }
BEGIN {
  space = layer; sub(/^.*\//, "", space)
  print "// Generated from " layer "/statements.sql."
  print "#pragma once"
  print "#include \"core/store/sql.h\""
  print "namespace prillbook::" space "::sql {"
}
/^-- name: / { close_statement(); name = $3; names[++count] = name; printf "inline constexpr store::Sql %s{\"%s.%s\", R\"sql(", name, space, name; next }
name != "" { print }
END {
  close_statement()
  printf "inline constexpr const store::Sql* all[] = {"
  for (i = 1; i <= count; ++i) printf "&%s%s", names[i], i < count ? ", " : ""
  print "};"
  print "}  // namespace prillbook::" space "::sql"
}
