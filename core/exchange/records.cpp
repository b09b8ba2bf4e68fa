// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/records.h"

#include <fmt/format.h>

#include <map>

#include "core/attachments/attachments.h"
#include "core/custody/custody.h"
#include "core/exchange/record_reader.h"
#include "core/fire/charge_record.h"
#include "core/gravity/pan_test.h"
#include "core/history/contents.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/lab/settings.h"
#include "core/portions/portions.h"
#include "core/weighing/bead.h"

namespace prillbook::exchange {
namespace {

using history::ChangeSet;
using readings::cell_of;
using readings::Figure;
namespace fields = history::fields;

// Loads one text; remembers what its objects call each other by.
class Loader {
 public:
  Loader(ChangeSet& set, DecimalMark preferred) : set_(set), preferred_(preferred) {}
  Result<Loaded> load(const nlohmann::json& text);

 private:
  Result<void> lab(RecordReader& top);
  Result<void> settings(RecordReader& top);
  Result<void> person(RecordReader reader);
  Result<void> client(RecordReader reader);
  Result<void> balance(RecordReader reader);
  Result<void> consignment(RecordReader reader);
  Result<void> sample(RecordReader reader, ConsignmentId consignment);
  Result<void> photograph(RecordReader reader, const attachments::Owner& owner);
  Result<void> portion(RecordReader reader, SampleId sample, PortionId parent);
  Result<void> pan_test(RecordReader reader, PortionId portion);
  Result<void> charge(RecordReader reader, PortionId portion);
  Result<void> bead(RecordReader reader, BeadId id);
  Result<void> weighing(RecordReader reader, BeadId bead, std::string_view what);

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
    if (auto written = set_.set(field, id, cell_of(value)); !written) return reader.placed(written.error());
    return {};
  }
  Result<void> figure(RecordReader& reader, const history::Field& field, RecordId id, std::string_view unit) {
    PRILLBOOK_ASSIGN(const Figure value, reader.figure(field.column, *field.measure, unit));
    if (!value) return {};
    return set_.set(field, id, cell_of(value));
  }

  ChangeSet& set_;
  DecimalMark preferred_;
  Loaded loaded_;
  std::map<std::string, ChargeId> charges_;          // by their key in the text, within one sample
  std::map<std::string, SampleId> samples_by_mark_;  // within one consignment
};

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
  PRILLBOOK_TRY(each(top, "consignments", [&](const RecordReader& one) { return consignment(one); }));
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
  for (const history::Field* field : {&fields::client::contact, &fields::client::address, &fields::client::remarks})
    PRILLBOOK_TRY(text(reader, *field, *made));
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
  const auto id = custody::log_sample(set_, fresh);
  if (!id) return reader.placed(id.error());
  ++loaded_.samples;
  samples_by_mark_.emplace(fresh.mark, *id);
  charges_.clear();
  PRILLBOOK_TRY(each(reader, "photographs", [&](const RecordReader& one) { return photograph(one, {*id, {}}); }));
  PRILLBOOK_TRY(each(reader, "portions", [&](const RecordReader& one) { return portion(one, *id, PortionId{}); }));
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

Result<void> Loader::portion(RecordReader reader, SampleId sample, PortionId parent) {
  portions::NewPortion fresh{sample, parent, {}, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.purpose, reader.text("purpose"));
  PRILLBOOK_ASSIGN(fresh.mass, reader.figure("mass", Measure::mass, "g"));
  PRILLBOOK_ASSIGN(const BalanceId balance, reader.balance("balance"));
  PRILLBOOK_ASSIGN(fresh.cut_at, reader.instant("cut_at"));
  PRILLBOOK_ASSIGN(fresh.cut_by, reader.person("cut_by"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  if (fresh.mass && balance) {
    auto on_balance = lab::on_balance(set_.connection(), *fresh.mass, balance);
    if (!on_balance) return reader.placed(on_balance.error());
    fresh.mass = *std::move(on_balance);
  }
  const auto id = portions::cut(set_, fresh);
  if (!id) return reader.placed(id.error());
  ++loaded_.portions;
  PRILLBOOK_ASSIGN(const auto pan, reader.object("pan_test"));
  if (pan) PRILLBOOK_TRY(pan_test(*pan, *id));
  PRILLBOOK_ASSIGN(const auto fire, reader.object("charge"));
  if (fire) PRILLBOOK_TRY(charge(*fire, *id));
  PRILLBOOK_TRY(each(reader, "portions", [&](const RecordReader& one) { return portion(one, sample, *id); }));
  return reader.finish();
}

Result<void> Loader::pan_test(RecordReader reader, PortionId portion) {
  namespace f = fields::pan_test;
  gravity::NewPanTest fresh{portion, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.panned_at, reader.instant("panned_at"));
  PRILLBOOK_ASSIGN(fresh.panned_by, reader.person("panned_by"));
  PRILLBOOK_ASSIGN(fresh.grind, reader.figure("grind", Measure::opening, "µm"));
  const auto started = gravity::start_pan_test(set_, fresh);
  if (!started) return reader.placed(started.error());
  ++loaded_.pan_tests;
  const RecordId id = started->test.value;
  PRILLBOOK_TRY(figure(reader, f::largest_colour, id, "µm"));
  PRILLBOOK_TRY(figure(reader, f::free_gold, id, "mg"));
  for (const history::Field* field : {&f::colours, &f::black_sand, &f::sulphides, &f::spoiled, &f::excluded, &f::remarks})
    PRILLBOOK_TRY(text(reader, *field, id));
  PRILLBOOK_ASSIGN(const auto its_bead, reader.object("bead"));
  if (its_bead) PRILLBOOK_TRY(bead(*its_bead, started->bead));
  return reader.finish();
}

Result<void> Loader::charge(RecordReader reader, PortionId portion) {
  namespace f = fields::charge;
  fire::NewCharge fresh{portion, {}, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.fired_at, reader.instant("fired_at"));
  PRILLBOOK_ASSIGN(fresh.fired_by, reader.person("fired_by"));
  PRILLBOOK_ASSIGN(fresh.collector, reader.figure("collector", Measure::mass, "mg"));
  PRILLBOOK_ASSIGN(fresh.blank, reader.figure("blank", Measure::mass, "mg"));
  PRILLBOOK_ASSIGN(const auto key, reader.optional_text("key"));
  PRILLBOOK_ASSIGN(const auto repeat_of, reader.optional_text("repeat_of"));
  if (repeat_of) {
    const auto found = charges_.find(*repeat_of);
    if (found == charges_.end())
      return reader.input().error(ErrorCode::not_found, "repeat_of", fmt::format("no charge above has the key {}", *repeat_of));
    fresh.repeat_of = found->second;
  }
  const auto started = fire::start_charge(set_, fresh);
  if (!started) return reader.placed(started.error());
  ++loaded_.charges;
  if (key) charges_[*key] = started->charge;
  const RecordId id = started->charge.value;
  PRILLBOOK_TRY(figure(reader, f::button, id, "g"));
  PRILLBOOK_TRY(figure(reader, f::slag_metal, id, "mg"));
  PRILLBOOK_TRY(figure(reader, f::cupel_metal, id, "mg"));
  PRILLBOOK_TRY(figure(reader, f::gold_loss, id, "%"));
  PRILLBOOK_TRY(figure(reader, f::silver_loss, id, "%"));
  for (const history::Field* field : {&f::slag_look, &f::spoiled, &f::excluded, &f::remarks})
    PRILLBOOK_TRY(text(reader, *field, id));
  PRILLBOOK_ASSIGN(const auto its_bead, reader.object("bead"));
  if (its_bead) PRILLBOOK_TRY(bead(*its_bead, started->bead));
  return reader.finish();
}

Result<void> Loader::bead(RecordReader reader, BeadId id) {
  namespace f = fields::bead;
  PRILLBOOK_ASSIGN(const bool none_seen, reader.input().flag("none_seen", false));
  if (none_seen) PRILLBOOK_TRY(set_.set(f::none_seen, id.value, std::int64_t{1}));
  PRILLBOOK_TRY(each(reader, "weighings", [&](const RecordReader& one) { return weighing(one, id, weighing::of_bead); }));
  PRILLBOOK_TRY(each(reader, "gold", [&](const RecordReader& one) { return weighing(one, id, weighing::of_gold); }));
  PRILLBOOK_ASSIGN(const auto method, reader.optional_text("fineness_method"));
  PRILLBOOK_ASSIGN(const Figure fineness, reader.figure("fineness", Measure::fineness, "‰"));
  PRILLBOOK_ASSIGN(const Figure uncertainty, reader.figure("fineness_u", Measure::fineness, "‰"));
  if (auto written = weighing::set_fineness(set_, id, method, fineness, uncertainty); !written)
    return reader.placed(written.error());
  PRILLBOOK_TRY(text(reader, f::look, id.value));
  PRILLBOOK_TRY(text(reader, f::remarks, id.value));
  return reader.finish();
}

Result<void> Loader::weighing(RecordReader reader, BeadId bead, std::string_view what) {
  PRILLBOOK_ASSIGN(const Figure mass, reader.figure("mass", Measure::mass, "mg"));
  if (!mass) return reader.input().error(ErrorCode::missing_key, "mass", reader.input().path_of("mass") + " is missing");
  weighing::NewWeighing fresh{bead, std::string(what), *mass, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.balance, reader.balance("balance"));
  PRILLBOOK_ASSIGN(fresh.weighed_at, reader.instant("weighed_at"));
  PRILLBOOK_ASSIGN(fresh.weighed_by, reader.person("weighed_by"));
  const auto id = weighing::weigh(set_, fresh);
  if (!id) return reader.placed(id.error());
  ++loaded_.weighings;
  PRILLBOOK_TRY(text(reader, fields::weighing::excluded, id->value));
  return reader.finish();
}

}  // namespace

Result<Loaded> load_records(history::Journal& journal, std::string_view text) {
  PRILLBOOK_ASSIGN(const nlohmann::json parsed, parse_json(text));
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(journal.connection()));
  return journal.record_for<Loaded>("load records",
                                    [&](history::ChangeSet& set) { return Loader(set, settings.decimal_mark).load(parsed); });
}

}  // namespace prillbook::exchange
