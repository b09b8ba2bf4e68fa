// SPDX-License-Identifier: GPL-3.0-or-later
// One function for each door through which bytes of a stranger come in. Each takes any bytes; what it demands of the answer
// stands in it. Called by libFuzzer (outside CI) and by fuzz_test, which runs the kept inputs and some thousand changed ones.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace prillbook::fuzz {

using Target = void (*)(std::string_view bytes);

void number(std::string_view bytes);
void list(std::string_view bytes);           // a client's CSV: encoding, delimiter, cells, columns, drafts of samples
void balance_line(std::string_view bytes);   // what comes over the wire, and lines of a layout file
void json(std::string_view bytes);           // the JSON reader alone
void records(std::string_view bytes);        // `notebook load`
void dump(std::string_view bytes);           // `notebook restore`
void notebook_file(std::string_view bytes);  // a file that says it is a notebook
void cells(std::string_view bytes);          // the cells of an open notebook, whatever stands in them
void picture(std::string_view bytes);        // a photograph on its way in
void verbs(std::string_view bytes);          // the first byte is the verb, the rest its input
void label(std::string_view bytes);          // a scanned code, a label sheet

struct NamedTarget {
  std::string name;  // of its folders seeds/NAME and ../broken/NAME
  Target run;
  int changes;  // how many changed inputs fuzz_test tries
};
const std::vector<NamedTarget>& targets();

// Stops the process with the words where `holds` is false.
void demand(bool holds, const char* words);

}  // namespace prillbook::fuzz
