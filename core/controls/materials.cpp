// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/controls/materials.h"

#include "core/custody/custody.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/lab.h"
#include "core/portions/portions.h"
#include "core/quality/certified.h"
#include "core/units/units.h"

namespace prillbook::controls {
namespace {

namespace material_fields = history::fields::control_material;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::Figure;
using readings::figure_of;

Result<Material> read_material(const Record& record) {
  Material made;
  made.id = ControlMaterialId{record.id()};
  made.name = record.text(material_fields::name);
  made.kind = record.text(material_fields::kind);
  made.origin = record.optional_text(material_fields::origin);
  made.u_meaning = record.optional_text(material_fields::u_meaning);
  made.certificate = record.optional_text(material_fields::certificate);
  made.remarks = record.optional_text(material_fields::remarks);
  made.stock = record.reference<SampleId>(material_fields::stock);
  PRILLBOOK_ASSIGN(made.gold, figure_of(record, material_fields::gold));
  PRILLBOOK_ASSIGN(made.gold_u, figure_of(record, material_fields::gold_u));
  PRILLBOOK_ASSIGN(made.silver, figure_of(record, material_fields::silver));
  PRILLBOOK_ASSIGN(made.silver_u, figure_of(record, material_fields::silver_u));
  PRILLBOOK_ASSIGN(made.gold_sd, figure_of(record, material_fields::gold_sd));
  if (const auto text = record.optional_text(material_fields::used_up_at)) {
    PRILLBOOK_ASSIGN(made.used_up_at, parse_iso(*text));
  }
  return made;
}

std::optional<CertifiedValue> certified(const Figure& value, const Figure& stated, const std::optional<std::string>& meaning) {
  if (!value) return std::nullopt;
  CertifiedValue made{value->grade(), {}};
  const auto how = meaning ? find_stated_uncertainty(*meaning) : std::nullopt;
  if (stated && how) made.u = Grade(standard_uncertainty(stated->grade().in(unit::gram_per_tonne), *how), unit::gram_per_tonne);
  return made;
}

// One consignment holds all stocks: that of the first material, or a new one.
Result<ConsignmentId> consignment_of_stocks(history::ChangeSet& set, const std::optional<Instant>& arrived_at) {
  PRILLBOOK_ASSIGN(const auto held, materials(set.connection()));
  if (!held.empty()) {
    PRILLBOOK_ASSIGN(const custody::Sample stock, custody::sample(set.connection(), held.front().stock));
    return stock.consignment;
  }
  PRILLBOOK_ASSIGN(const RecordId client,
                   set.make(Entity::client, {{history::fields::client::name, std::string(own_client)},
                                             {history::fields::client::remarks, std::string("the lab’s own stock")}}));
  return custody::log_consignment(set, {ClientId{client}, arrived_at, {}, {}, {}, {}, {}});
}

Result<void> name_is_free(store::Connection& connection, const std::string& name) {
  PRILLBOOK_ASSIGN(const auto held, materials(connection));
  for (const Material& one : held)
    if (one.name == trimmed(name) && !one.used_up_at)
      return Error{ErrorCode::already_exists, "control_material.name", "the name is taken", {one.name}};
  return {};
}

}  // namespace

std::optional<CertifiedValue> Material::certified_gold() const { return certified(gold, gold_u, u_meaning); }
std::optional<CertifiedValue> Material::certified_silver() const { return certified(silver, silver_u, u_meaning); }

Result<ControlMaterialId> add_material(history::ChangeSet& set, const NewMaterial& fresh) {
  if (trimmed(fresh.name).empty()) return refusal(ErrorCode::missing_key, "control_material.name", "it needs a name");
  PRILLBOOK_TRY(name_is_free(set.connection(), fresh.name));
  custody::NewSample stock;
  PRILLBOOK_ASSIGN(stock.consignment, consignment_of_stocks(set, fresh.arrived_at));
  stock.mark = std::string(trimmed(fresh.name));
  stock.mass_received = fresh.mass;
  PRILLBOOK_ASSIGN(const SampleId sample, custody::log_sample(set, stock));
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(Entity::control_material, {{material_fields::name, cell_of(std::optional(fresh.name))},
                                                       {material_fields::kind, cell_of(std::optional(fresh.kind))},
                                                       {material_fields::stock, cell_of(sample)}}));
  return ControlMaterialId{id};
}

Result<ControlMaterialId> add_material(history::Journal& journal, const NewMaterial& fresh) {
  return journal.record_for<ControlMaterialId>("add control material",
                                               [&](history::ChangeSet& set) { return add_material(set, fresh); });
}

Result<PortionId> weigh_in(history::Journal& journal, ControlMaterialId id, const Figure& mass, PersonId by) {
  PRILLBOOK_ASSIGN(const Material held, material(journal.connection(), id));
  if (!mass && held.kind != "blank_flux") return refusal(ErrorCode::missing_key, "portion.mass", "how much goes in?");
  return portions::cut(journal, {held.stock, {}, "fire", mass, {}, by, {}});
}

Result<std::optional<Mass>> left_of_stock(store::Connection& connection, const Material& material) {
  PRILLBOOK_ASSIGN(const custody::Sample stock, custody::sample(connection, material.stock));
  PRILLBOOK_ASSIGN(const auto cut, portions::portions_of(connection, material.stock));
  return portions::left_of(cut, stock.mass_received, {});
}

Result<std::vector<Material>> materials(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::control_material));
  std::vector<Material> list;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Material one, read_material(record));
    list.push_back(std::move(one));
  }
  return list;
}

Result<Material> material(store::Connection& connection, ControlMaterialId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::control_material, id.value));
  return read_material(record);
}

Result<std::optional<Material>> material_of(history::Source source, SampleId stock) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, material_fields::stock, stock.value));
  if (records.empty()) return std::optional<Material>();
  PRILLBOOK_ASSIGN(Material made, read_material(records.front()));
  return std::optional(std::move(made));
}

}  // namespace prillbook::controls
