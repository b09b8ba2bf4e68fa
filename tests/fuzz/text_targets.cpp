// SPDX-License-Identifier: GPL-3.0-or-later
// What is read from text alone, without a notebook.
#include <cmath>

#include "core/balance_line/balance_line.h"
#include "core/balance_line/steady.h"
#include "core/base/number.h"
#include "core/intake/sample_list.h"
#include "core/json/json_input.h"
#include "core/labels/code.h"
#include "core/labels/layout.h"
#include "core/readings/reading.h"
#include "tests/fuzz/targets.h"

namespace prillbook::fuzz {
namespace {

// Plain digits mean the same to either mark, and to a second reading.
void read_again(const TypedNumber& read) {
  const auto again = parse_number(read.digits, DecimalMark::point);
  demand(again.ok(), "the digits of a number are a number");
  demand(again->value == read.value, "the digits of a number mean the number");
  demand(again->rest.empty(), "the digits of a number are nothing else");
}

// Most figures are read a short way, which a sign bars.
void read_with_sign(std::string_view text, DecimalMark preferred) {
  if (text.empty() || text.front() < '0' || text.front() > '9') return;
  const std::string signed_text = "+" + std::string(text);
  const auto one = parse_number(text, preferred), other = parse_number(signed_text, preferred);
  demand(one.ok() == other.ok(), "a sign makes no number of what is none");
  if (!one.ok()) return;
  demand(one->value == other->value && one->digits == other->digits, "a sign changes no digit");
  demand(one->mark == other->mark && one->rest == other->rest, "a sign changes neither mark nor unit");
}

// A figure comes back from the cell of a notebook as it was.
void keep_and_read(const readings::Reading& reading) {
  const auto again = readings::decode(readings::encode(reading), reading.measure);
  demand(again.ok() && *again == reading, "a figure is kept as it was read");
}

void read_rows(const intake::SampleList& list) {
  for (std::size_t row = 0; row < list.rows(); ++row) {
    const bool taken = list.draft(row).ok();
    demand(taken != list.refused(row), "a row is either refused or a sample");
  }
}

// One of the gestures on a list, by the turn.
void use_cells(intake::SampleList list, std::size_t turn) {
  read_rows(list);
  const std::size_t columns = list.columns().size(), chosen = columns == 0 ? 0 : turn / 8 % columns;
  switch (turn % 4) {
    case 0: list.say_mark(turn / 4 % 2 == 0 ? DecimalMark::comma : DecimalMark::point); break;
    case 1: list.say_heading(!list.has_heading()); break;
    case 2:
      if (columns > 0) list.use_column(chosen, {intake::list_fields[turn / 4 % intake::list_fields.size()], "kg"});
      break;
    default:
      if (list.rows() > 0 && columns > 0) list.set_cell(turn / 4 % list.rows(), chosen, "1,5");
  }
  read_rows(list);
  (void)list.next_refused(0);
}

}  // namespace

void number(std::string_view bytes) {
  for (const auto preferred : {DecimalMark::point, DecimalMark::comma}) {
    for (const auto measure : {Measure::mass, Measure::fineness, Measure::opening, Measure::share, Measure::grade})
      if (const auto reading = readings::parse(bytes, {measure, readings::base_unit(measure), preferred, true}))
        keep_and_read(*reading);
    read_with_sign(bytes, preferred);
    if (const auto read = parse_number(bytes, preferred)) {
      demand(std::isfinite(read->value), "a number is finite");
      read_again(*read);
      (void)fixed(read->value, 3, preferred);
      demand(parse_number(shortest(read->value), DecimalMark::point)->value == read->value, "shortest reads back");
    }
  }
}

void list(std::string_view bytes) {
  const std::size_t turn = std::hash<std::string_view>()(bytes);
  auto read = intake::SampleList::read(std::string(bytes), {}, {}, turn / 64 % 2 == 0 ? std::size_t(3) : intake::all_rows);
  if (!read || (!read->is_whole() && !read->read_rest().ok())) return;
  use_cells(*std::move(read), turn);
}

void balance_line(std::string_view bytes) {
  balance_line::Assembler assembler;
  balance_line::SteadyReadings steady;
  for (const std::string& line : assembler.feed(bytes)) {
    for (const balance_line::Layout& layout : balance_line::layouts())
      if (const auto figure = balance_line::read_line(line, layout)) steady.see(*figure, 0.022);
    demand(balance_line::readable(line).size() <= 200, "a kept line has its bound");
  }
  if (const auto layout = balance_line::parse_layout(bytes)) (void)balance_line::read_line("S S     0.0220 mg", *layout);
}

void json(std::string_view bytes) {
  const auto read = parse_json(bytes);
  if (!read) return;
  if (auto object = JsonInput::object(*read)) {
    (void)object->number("a");
    (void)object->number_or_list("b", positive);
    (void)object->children("c");
    (void)object->text("d");
    (void)object->finish();
  }
}

void label(std::string_view bytes) {
  if (const auto code = labels::parse_code(bytes)) {
    const auto again = labels::parse_code(labels::code_text(*code));
    demand(again.ok() && again->number == code->number && again->portion == code->portion, "a code is read as it is written");
  }
  (void)labels::parse_layout(bytes);
}

}  // namespace prillbook::fuzz
