# SPDX-License-Identifier: GPL-3.0-or-later
# Turns a text file into a header with one constant.
#   awk -v name=demo_records -v space=prillbook::batch -f embed_text.awk demo.json > demo_records.h
BEGIN {
  print "// Generated."
  print "#pragma once"
  print "#include <string_view>"
  print "namespace " space " {"
  # The standard asks compilers for 65 536 characters at least; those we build with take more.
  print "#pragma GCC diagnostic push"
  print "#pragma GCC diagnostic ignored \"-Woverlength-strings\""
  printf "inline constexpr std::string_view %s = R\"embedded(", name
}
{ print }
END { print ")embedded\";"; print "#pragma GCC diagnostic pop"; print "}  // namespace " space }
