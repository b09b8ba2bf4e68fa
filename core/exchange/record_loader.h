// SPDX-License-Identifier: GPL-3.0-or-later
// Enters the records of a text, one method a kind of object; the methods stand in records*.cpp by subject.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/attachments/attachments.h"
#include "core/controls/roles.h"
#include "core/custody/hand_overs.h"
#include "core/exchange/record_reader.h"
#include "core/exchange/records.h"
#include "core/history/fields.h"
#include "core/portions/portions.h"
#include "core/sieve_records/analyses.h"
#include "core/trays/trays.h"

namespace prillbook::exchange {

// Loads one text; remembers what its objects call each other by.
class Loader {
 public:
  Loader(history::ChangeSet& set, DecimalMark preferred) : set_(set), preferred_(preferred) {}
  Result<Loaded> load(const nlohmann::json& text);

 private:
  Result<void> lab(RecordReader& top);
  Result<void> settings(RecordReader& top);
  Result<void> person(RecordReader reader);
  Result<void> client(RecordReader reader);
  Result<void> column(RecordReader reader, ClientId client);
  Result<void> balance(RecordReader reader);
  Result<void> consignment(RecordReader reader);
  Result<void> sample(RecordReader reader, ConsignmentId consignment);
  Result<void> place(RecordReader reader);
  Result<void> piece(RecordReader reader, ConsignmentId consignment);
  Result<void> as_wanted(RecordReader& reader, SampleId sample);
  Result<void> hand_over(RecordReader reader, SampleId sample);
  Result<void> hand_over(RecordReader reader, ConsignmentId consignment);
  Result<custody::NewHandOver> hand_over_of(RecordReader& reader);
  Result<void> own_metal(RecordReader reader, SampleId sample);
  Result<void> told(RecordReader reader, SampleId sample);
  Result<void> photograph(RecordReader reader, const attachments::Owner& owner);
  Result<void> composite(RecordReader& reader, ConsignmentId consignment, const std::string& mark,
                         std::vector<RecordReader> shares);
  Result<void> sample_rest(RecordReader& reader, SampleId id);
  Result<void> portion(RecordReader reader, SampleId sample, PortionId parent);
  Result<portions::NewPortion> portion_head(RecordReader& reader, SampleId sample, PortionId parent);
  Result<void> portion_rest(RecordReader& reader, SampleId sample, PortionId id);
  Result<void> machine(RecordReader reader);
  Result<void> cleaning(RecordReader reader, MachineId machine);
  Result<void> step(RecordReader reader, SampleId sample, PortionId portion);
  Result<void> crushing_order(RecordReader reader);
  Result<MachineId> machine_named(RecordReader& reader, std::string_view key);
  Result<void> pan_test(RecordReader reader, PortionId portion);
  Result<void> panning(RecordReader reader, PanTestId test);
  Result<void> metallics(RecordReader reader, SampleId sample, PortionId portion);
  Result<void> charge(RecordReader reader, PortionId portion);
  Result<void> bead(RecordReader reader, BeadId id);
  Result<void> in_water(RecordReader reader, BeadId id);
  Result<void> weighing(RecordReader reader, BeadId bead, std::string_view what);
  Result<void> sieve(RecordReader reader);
  Result<void> stack(RecordReader reader);
  Result<void> sieve_analysis(RecordReader reader, SampleId sample, PortionId portion);
  Result<void> cut(RecordReader reader, const sieves::Analysis& analysis, SampleId sample, PersonId by);
  Result<void> check_weight(RecordReader reader);
  Result<void> check_weighing(RecordReader reader, CheckWeightId weight);
  Result<void> tray(RecordReader reader);
  Result<void> tray_move(RecordReader reader);
  Result<void> on_trays(RecordReader& reader, const trays::Thing& thing);
  Result<void> tests_of(RecordReader& reader, SampleId sample, PortionId portion);
  Result<void> own_text(RecordReader reader);
  Result<void> milling_lot(RecordReader reader, SampleId sample);
  Result<void> control_material(RecordReader reader);
  Result<void> run_decision(RecordReader reader);
  Result<controls::Role> duplicate_role(RecordReader& reader, std::string& of);
  Result<void> role_of_charge(RecordReader& reader, ChargeId id);
  Result<void> role_of_pan_test(RecordReader& reader, PanTestId id);
  Result<void> lot(RecordReader reader);
  Result<void> pot(RecordReader reader);
  Result<void> recipe(RecordReader reader);
  Result<void> furnace_run(RecordReader reader);
  Result<void> temperature(RecordReader reader, FurnaceRunId run);
  Result<void> proof(RecordReader reader, FurnaceRunId run);
  Result<void> reducing_test(RecordReader reader, SampleId sample);
  Result<void> charge_design(RecordReader reader, PortionId portion);
  Result<void> at_the_furnace(RecordReader& reader, ChargeId id);
  Result<LotId> lot_named(RecordReader& reader, std::string_view key);  // none where absent

  template <class Each>
  Result<void> each(RecordReader& reader, std::string_view key, Each&& each) {
    PRILLBOOK_ASSIGN(const std::vector<RecordReader> readers, reader.list(key));
    for (const RecordReader& one : readers) PRILLBOOK_TRY(each(one));
    return {};
  }
  // Writes a text field of a record that has just been made.
  Result<void> text(RecordReader& reader, const history::Field& field, RecordId id) {
    PRILLBOOK_ASSIGN(const auto value, reader.optional_text(field.column));
    if (!value) return {};
    if (auto written = set_.set(field, id, readings::cell_of(value)); !written) return reader.placed(written.error());
    return {};
  }
  Result<void> figure(RecordReader& reader, const history::Field& field, RecordId id, std::string_view unit) {
    PRILLBOOK_ASSIGN(const readings::Figure value, reader.figure(field.column, *field.measure, unit));
    if (!value) return {};
    return set_.set(field, id, readings::cell_of(value));
  }
  Result<void> instant(RecordReader& reader, const history::Field& field, RecordId id) {
    PRILLBOOK_ASSIGN(const auto value, reader.instant(field.column));
    if (!value) return {};
    return set_.set(field, id, readings::cell_of(value));
  }
  Result<void> whole(RecordReader& reader, const history::Field& field, RecordId id) {
    PRILLBOOK_ASSIGN(const auto value, reader.whole(field.column));
    if (!value) return {};
    if (auto written = set_.set(field, id, readings::cell_of(value)); !written) return reader.placed(written.error());
    return {};
  }
  Result<void> flag(RecordReader& reader, const history::Field& field, RecordId id) {
    PRILLBOOK_ASSIGN(const bool value, reader.input().flag(field.column, false));
    if (!value) return {};
    return set_.set(field, id, std::int64_t{1});
  }

  history::ChangeSet& set_;
  DecimalMark preferred_;
  Loaded loaded_;
  std::map<std::string, ChargeId> charges_;               // by their key in the text, within one sample
  std::map<std::string, ReducingTestId> reducing_tests_;  // the same
  std::map<std::string, SampleId> samples_by_mark_;       // within one consignment
};

}  // namespace prillbook::exchange
