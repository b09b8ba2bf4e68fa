// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/machine_books.h"

namespace prillbook::results {

Result<MachineBooks::Book*> MachineBooks::of(MachineId machine) {
  if (const auto found = books_.find(machine.value); found != books_.end()) return &found->second;
  Book book;
  PRILLBOOK_ASSIGN(book.machine, milling::machine(connection_, machine));
  PRILLBOOK_ASSIGN(book.uses, milling::steps_on(connection_, machine));
  PRILLBOOK_ASSIGN(book.cleanings, milling::cleanings_of(connection_, machine));
  return &books_.emplace(machine.value, std::move(book)).first->second;
}

Result<LikelyGrade> MachineBooks::grade(SampleId sample) {
  if (const auto found = grades_.find(sample.value); found != grades_.end()) return found->second;
  PRILLBOOK_ASSIGN(const LikelyGrade grade, likely_grade(connection_, sample, settings_));
  grades_.emplace(sample.value, grade);
  return grade;
}

}  // namespace prillbook::results
