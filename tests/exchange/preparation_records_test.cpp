// SPDX-License-Identifier: GPL-3.0-or-later
// Preparation as records are loaded: what can't have happened is refused at its place, and nothing is written.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/exchange/records.h"
#include "core/milling/machines.h"
#include "tests/support/notebook.h"

namespace prillbook::exchange {
namespace {

using testing_support::MemoryNotebook;

struct BadPreparation {
  const char* machine;  // keys after its name
  const char* sample;   // keys after its mark and mass
  ErrorCode code;
  const char* field;
};

class PreparationRefused : public testing::TestWithParam<BadPreparation> {};

TEST_P(PreparationRefused, AndNothingIsWritten) {
  MemoryNotebook notebook;
  const std::string text = fmt::format(
      R"({{"format":"records","version":1,"machines":[{{"name":"crusher"{}}}],"clients":[{{"name":"C"}}],"consignments":[
        {{"client":"C","arrived":"2026-05-04T09:00+02:00","samples":[{{"mark":"A","mass_received":"4 kg"{}}}]}}]}})",
      GetParam().machine, GetParam().sample);
  const auto loaded = load_records(*notebook.journal, text);
  ASSERT_FALSE(loaded.ok());
  EXPECT_EQ(loaded.error().code, GetParam().code) << loaded.error().detail;
  EXPECT_EQ(loaded.error().field, GetParam().field);
  EXPECT_TRUE(milling::machines(*notebook.connection)->empty());
}

INSTANTIATE_TEST_SUITE_P(
    BadInput, PreparationRefused,
    testing::Values(
        BadPreparation{"", R"(,"steps":[{"kind":"crush","mass_in":"4 kg","done_at":"2026-05-03T09:00+02:00"}])",
                       ErrorCode::inconsistent, "consignments[0].samples[0].steps[0]: step.done_at"},
        BadPreparation{"", R"(,"portions":[{"purpose":"split","mass":"1 kg","cut_at":"2026-05-05T10:00+02:00",
                         "steps":[{"kind":"pulverise","mass_in":"1 kg","done_at":"2026-05-05T09:00+02:00"}]}])",
                       ErrorCode::inconsistent, "consignments[0].samples[0].portions[0].steps[0]: step.done_at"},
        BadPreparation{"", R"(,"steps":[{"kind":"split","mass_in":"4 kg","parts":[{"purpose":"pan","mass":"0 g"}]}])",
                       ErrorCode::out_of_range, "consignments[0].samples[0].steps[0]: portion.mass"},
        BadPreparation{"", R"(,"steps":[{"kind":"split","mass_in":"0 g","parts":[{"purpose":"pan","mass":"1 g"}]}])",
                       ErrorCode::out_of_range, "consignments[0].samples[0].steps[0]: step.mass_in"},
        BadPreparation{R"(,"cleanings":[{"way":"brush","cleaned_at":"2026-05-05T09:30+02:00"}])",
                       R"(,"steps":[{"kind":"crush","machine":"crusher","mass_in":"4 kg",
                         "began_at":"2026-05-05T09:00+02:00","done_at":"2026-05-05T10:00+02:00"}])",
                       ErrorCode::conflict, "consignments[0].samples[0].steps[0]: step.began_at"},
        BadPreparation{R"(,"retired_at":"2026-05-05T08:00+02:00")",
                       R"(,"steps":[{"kind":"crush","machine":"crusher","mass_in":"4 kg","done_at":"2026-05-05T10:00+02:00"}])",
                       ErrorCode::conflict, "consignments[0].samples[0].steps[0]: step.machine_id"},
        BadPreparation{
            R"(,"retired_at":"2026-05-05T08:00+02:00","cleanings":[{"way":"air","cleaned_at":"2026-05-06T08:00+02:00"}])", "",
            ErrorCode::conflict, "machines[0].cleanings[0]: cleaning.machine_id"},
        BadPreparation{R"(,"cleanings":[{"way":"flush","cleaned_at":"2026-05-06T08:00+02:00","flush_mass":"0 g"}])", "",
                       ErrorCode::out_of_range, "machines[0].cleanings[0]: cleaning.flush_mass"},
        BadPreparation{"", R"(},{"mark":"B","composite_of":[{"sample":"A","mass":"1 kg"},{"sample":"B","mass":"1 kg"}])",
                       ErrorCode::not_found, "consignments[0].samples[1].composite_of[1].sample"},
        BadPreparation{"", R"(},{"mark":"B","composite_of":[{"sample":"A","mass":"1 kg"},{"sample":"A","mass":"0 kg"}])",
                       ErrorCode::out_of_range, "consignments[0].samples[1]: portion.mass"},
        BadPreparation{"", R"(},{"mark":"B","composite_of":[{"sample":"A","mass":"3 kg"},{"sample":"A","mass":"2 kg"}])",
                       ErrorCode::overdrawn, "consignments[0].samples[1]: portion.mass"}));

}  // namespace
}  // namespace prillbook::exchange
