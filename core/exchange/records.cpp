// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/records.h"

#include <fmt/format.h>

#include "core/custody/custody.h"
#include "core/exchange/record_loader.h"
#include "core/history/contents.h"
#include "core/intake/columns.h"
#include "core/lab/lab.h"
#include "core/lab/settings.h"

namespace prillbook::exchange {

using readings::cell_of;
using readings::Figure;
namespace fields = history::fields;

Result<Loaded> Loader::load(const nlohmann::json& text) {
  PRILLBOOK_ASSIGN(JsonInput input, JsonInput::object(text));
  RecordReader top(std::move(input), set_.connection(), preferred_);
  PRILLBOOK_ASSIGN(const std::string format, top.text("format"));
  if (format != records_format)
    return top.input().error(ErrorCode::out_of_range, "format", fmt::format("format: '{}' is not '{}'", format, records_format));
  PRILLBOOK_ASSIGN(const double version, top.input().number("version"));
  if (version != double(records_format_version))
    return top.input().error(ErrorCode::newer_version, "version", "this version of the format is not known here");
  PRILLBOOK_TRY(settings(top));
  PRILLBOOK_TRY(lab(top));
  PRILLBOOK_TRY(each(top, "own_texts", [&](const RecordReader& one) { return own_text(one); }));
  PRILLBOOK_TRY(each(top, "consignments", [&](const RecordReader& one) { return consignment(one); }));
  PRILLBOOK_TRY(each(top, "control_materials", [&](const RecordReader& one) { return control_material(one); }));
  PRILLBOOK_TRY(each(top, "run_decisions", [&](const RecordReader& one) { return run_decision(one); }));
  PRILLBOOK_TRY(each(top, "tray_moves", [&](const RecordReader& one) { return tray_move(one); }));
  PRILLBOOK_TRY(each(top, "crushing_orders", [&](const RecordReader& one) { return crushing_order(one); }));
  PRILLBOOK_TRY(top.finish());
  return loaded_;
}

Result<void> Loader::settings(RecordReader& top) {
  PRILLBOOK_ASSIGN(auto object, top.object("settings"));
  if (!object) return {};
  for (const lab::SettingSpec& spec : lab::setting_specs()) {
    PRILLBOOK_ASSIGN(const auto value, object->optional_text(spec.name));
    if (!value) continue;
    if (auto written = lab::set_setting(set_, spec.name, *value); !written) {
      Error error = written.error();
      error.field = object->input().path_of(spec.name);
      return error;
    }
  }
  PRILLBOOK_TRY(object->finish());
  PRILLBOOK_ASSIGN(const lab::Settings now, lab::settings(set_.connection()));
  preferred_ = now.decimal_mark;
  return {};
}

Result<void> Loader::lab(RecordReader& top) {
  PRILLBOOK_TRY(each(top, "people", [&](const RecordReader& one) { return person(one); }));
  PRILLBOOK_TRY(each(top, "balances", [&](const RecordReader& one) { return balance(one); }));
  PRILLBOOK_TRY(each(top, "check_weights", [&](const RecordReader& one) { return check_weight(one); }));
  PRILLBOOK_TRY(each(top, "machines", [&](const RecordReader& one) { return machine(one); }));
  PRILLBOOK_TRY(each(top, "sieves", [&](const RecordReader& one) { return sieve(one); }));
  PRILLBOOK_TRY(each(top, "stacks", [&](const RecordReader& one) { return stack(one); }));
  PRILLBOOK_TRY(each(top, "lots", [&](const RecordReader& one) { return lot(one); }));
  PRILLBOOK_TRY(each(top, "pots", [&](const RecordReader& one) { return pot(one); }));
  PRILLBOOK_TRY(each(top, "recipes", [&](const RecordReader& one) { return recipe(one); }));
  PRILLBOOK_TRY(each(top, "furnace_runs", [&](const RecordReader& one) { return furnace_run(one); }));
  PRILLBOOK_TRY(each(top, "trays", [&](const RecordReader& one) { return tray(one); }));
  PRILLBOOK_TRY(each(top, "places", [&](const RecordReader& one) { return place(one); }));
  return each(top, "clients", [&](const RecordReader& one) { return client(one); });
}

Result<void> Loader::person(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string initials, reader.text("initials"));
  auto made = set_.make(history::Entity::person, {{fields::person::initials, cell_of(std::optional(initials))}});
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(text(reader, fields::person::name, *made));
  return reader.finish();
}

Result<void> Loader::client(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  auto made = set_.make(history::Entity::client, {{fields::client::name, cell_of(std::optional(name))}});
  if (!made) return reader.placed(made.error());
  for (const history::Field* field :
       {&fields::client::contact, &fields::client::address, &fields::client::remarks, &fields::client::language})
    PRILLBOOK_TRY(text(reader, *field, *made));
  PRILLBOOK_TRY(each(reader, "columns", [&](const RecordReader& one) { return column(one, ClientId{*made}); }));
  return reader.finish();
}

Result<void> Loader::column(RecordReader reader, ClientId client) {
  PRILLBOOK_ASSIGN(const std::string heading, reader.text("heading"));
  PRILLBOOK_ASSIGN(const std::string field, reader.text("field"));
  PRILLBOOK_ASSIGN(const auto unit, reader.optional_text("unit"));
  const auto target = intake::list_field_by_name(field);
  if (!target) return reader.input().error(ErrorCode::out_of_range, "field", fmt::format("'{}' is no field of a sample", field));
  const intake::ColumnMatch match{intake::folded_heading(heading), {*target, unit.value_or("")}};
  if (match.heading.empty()) return reader.input().error(ErrorCode::missing_key, "heading", "a column needs its heading");
  if (auto written = intake::remember_matches(set_, client, {&match, 1}); !written) return reader.placed(written.error());
  return reader.finish();
}

Result<void> Loader::balance(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  auto made = set_.make(history::Entity::balance, {{fields::balance::name, cell_of(std::optional(name))}});
  if (!made) return reader.placed(made.error());
  for (const history::Field* field : {&fields::balance::step, &fields::balance::capacity, &fields::balance::repeatability})
    PRILLBOOK_TRY(figure(reader, *field, *made, "g"));
  PRILLBOOK_TRY(text(reader, fields::balance::remarks, *made));
  return reader.finish();
}

Result<void> Loader::consignment(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string client_name, reader.text("client"));
  const auto client = lab::client_by_name(set_.connection(), client_name);
  if (!client) return reader.placed(client.error());
  custody::NewConsignment fresh{client->id, {}, {}, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.arrived, reader.instant("arrived"));
  PRILLBOOK_ASSIGN(fresh.carrier, reader.optional_text("carrier"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  PRILLBOOK_ASSIGN(fresh.pieces_declared, reader.whole("pieces_declared"));
  PRILLBOOK_ASSIGN(fresh.pieces_found, reader.whole("pieces_found"));
  PRILLBOOK_ASSIGN(fresh.received_by, reader.person("received_by"));
  const auto id = custody::log_consignment(set_, fresh);
  if (!id) return reader.placed(id.error());
  ++loaded_.consignments;
  samples_by_mark_.clear();
  PRILLBOOK_TRY(each(reader, "photographs", [&](const RecordReader& one) { return photograph(one, {{}, *id}); }));
  for (const history::Field* field : {&fields::consignment::seals, &fields::consignment::pieces_condition})
    PRILLBOOK_TRY(text(reader, *field, id->value));
  PRILLBOOK_TRY(flag(reader, fields::consignment::whole_form, id->value));
  PRILLBOOK_TRY(each(reader, "pieces", [&](const RecordReader& one) { return piece(one, *id); }));
  PRILLBOOK_TRY(each(reader, "hand_overs", [&](const RecordReader& one) { return hand_over(one, *id); }));
  PRILLBOOK_TRY(each(reader, "samples", [&](const RecordReader& one) { return sample(one, *id); }));
  return reader.finish();
}

Result<void> Loader::sample(RecordReader reader, ConsignmentId consignment) {
  custody::NewSample fresh;
  fresh.consignment = consignment;
  PRILLBOOK_ASSIGN(fresh.mark, reader.text("mark"));
  PRILLBOOK_ASSIGN(fresh.kind, reader.optional_text("kind"));
  PRILLBOOK_ASSIGN(fresh.place, reader.optional_text("place"));
  PRILLBOOK_ASSIGN(fresh.expected, reader.optional_text("expected"));
  PRILLBOOK_ASSIGN(fresh.condition, reader.optional_text("condition"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  PRILLBOOK_ASSIGN(fresh.mass_declared, reader.figure("mass_declared", Measure::mass, "kg"));
  PRILLBOOK_ASSIGN(fresh.mass_received, reader.figure("mass_received", Measure::mass, "kg"));
  PRILLBOOK_ASSIGN(fresh.moisture, reader.figure("moisture", Measure::share, "%"));
  PRILLBOOK_ASSIGN(const auto swept_from, reader.optional_text("swept_from"));
  if (swept_from) {
    const auto found = samples_by_mark_.find(*swept_from);
    if (found == samples_by_mark_.end())
      return reader.input().error(ErrorCode::not_found, "swept_from",
                                  fmt::format("no sample above has the mark {}", *swept_from));
    fresh.swept_from = found->second;
  }
  PRILLBOOK_ASSIGN(std::vector<RecordReader> shares, reader.list("composite_of"));
  if (!shares.empty()) return composite(reader, consignment, fresh.mark, std::move(shares));
  const auto id = custody::log_sample(set_, fresh);
  if (!id) return reader.placed(id.error());
  samples_by_mark_.emplace(fresh.mark, *id);
  return sample_rest(reader, *id);
}

Result<void> Loader::sample_rest(RecordReader& reader, SampleId id) {
  ++loaded_.samples;
  charges_.clear();
  reducing_tests_.clear();
  PRILLBOOK_TRY(as_wanted(reader, id));
  PRILLBOOK_TRY(each(reader, "hand_overs", [&](const RecordReader& one) { return hand_over(one, id); }));
  PRILLBOOK_TRY(each(reader, "own_metal", [&](const RecordReader& one) { return own_metal(one, id); }));
  PRILLBOOK_TRY(each(reader, "told", [&](const RecordReader& one) { return told(one, id); }));
  PRILLBOOK_TRY(each(reader, "photographs", [&](const RecordReader& one) { return photograph(one, {id, {}}); }));
  PRILLBOOK_ASSIGN(auto lot, reader.object("milling_lot"));
  if (lot) PRILLBOOK_TRY(milling_lot(*std::move(lot), id));
  PRILLBOOK_TRY(each(reader, "reducing_tests", [&](const RecordReader& one) { return reducing_test(one, id); }));
  PRILLBOOK_TRY(each(reader, "steps", [&](const RecordReader& one) { return step(one, id, PortionId{}); }));
  PRILLBOOK_TRY(each(reader, "portions", [&](const RecordReader& one) { return portion(one, id, PortionId{}); }));
  return reader.finish();
}

Result<void> Loader::photograph(RecordReader reader, const attachments::Owner& owner) {
  attachments::NewAttachment fresh;
  fresh.owner = owner;
  fresh.picture.original = true;
  PRILLBOOK_ASSIGN(const std::string text, reader.text("bytes"));
  auto bytes = history::bytes_of_base64(text);
  if (!bytes) return reader.input().error(ErrorCode::wrong_type, "bytes", reader.input().path_of("bytes") + " is no base64");
  fresh.picture.bytes = *std::move(bytes);
  PRILLBOOK_ASSIGN(const auto width, reader.whole("width"));
  PRILLBOOK_ASSIGN(const auto height, reader.whole("height"));
  fresh.picture.width = width.value_or(0);
  fresh.picture.height = height.value_or(0);
  PRILLBOOK_ASSIGN(fresh.kind, reader.optional_text("kind"));
  PRILLBOOK_ASSIGN(fresh.caption, reader.optional_text("caption"));
  PRILLBOOK_ASSIGN(fresh.original_name, reader.optional_text("original_name"));
  PRILLBOOK_ASSIGN(fresh.taken_at, reader.instant("taken_at"));
  if (const auto made = attachments::attach(set_, fresh); !made) return reader.placed(made.error());
  return reader.finish();
}

Result<Loaded> load_records(history::Journal& journal, std::string_view text) {
  PRILLBOOK_ASSIGN(const nlohmann::json parsed, parse_json(text));
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(journal.connection()));
  return journal.record_for<Loaded>("load records",
                                    [&](history::ChangeSet& set) { return Loader(set, settings.decimal_mark).load(parsed); });
}

}  // namespace prillbook::exchange
