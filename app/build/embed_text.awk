# SPDX-License-Identifier: GPL-3.0-or-later
# Turns a text file into a header with one constant.
#   awk -v name=demo_records -v space=prillbook::batch -f embed_text.awk demo.json > demo_records.h
BEGIN {
  print "// Generated."
  print "#pragma once"
  print "#include <string_view>"
  print "namespace " space " {"
  printf "inline constexpr std::string_view %s = R\"embedded(", name
}
{ print }
END { print ")embedded\";"; print "}  // namespace " space }
