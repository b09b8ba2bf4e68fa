# SPDX-License-Identifier: GPL-3.0-or-later
# Turns resources/balance-lines/layouts.txt into a header with its text.
BEGIN {
  print "// Generated from resources/balance-lines."
  print "#pragma once"
  print "#include <string_view>"
  print "namespace prillbook::balance_line {"
  print "inline constexpr std::string_view layout_text = R\"text("
}
{ print }
END { print ")text\";"; print "}  // namespace prillbook::balance_line" }
