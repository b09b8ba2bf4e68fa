// SPDX-License-Identifier: GPL-3.0-or-later
// What the lab keeps to assay among its samples: reference materials, barren rock, flux alone. The stock of each is a sample
// of the lab's own, so its charges are portions like any other and go through furnace and weigh room by the same hands.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/entry.h"
#include "core/units/quantity.h"

namespace prillbook::controls {

// A certified or assigned value. `u` is the standard uncertainty; absent where none is stated, or not what it means.
struct CertifiedValue {
  Grade value;
  std::optional<Grade> u;
};

struct Material {
  ControlMaterialId id;
  std::string name, kind;  // reference, blank_rock, blank_flux
  std::optional<std::string> origin, u_meaning, certificate, remarks;
  SampleId stock;
  readings::Figure gold, gold_u, silver, silver_u, gold_sd;
  std::optional<Instant> used_up_at;

  std::optional<CertifiedValue> certified_gold() const;
  std::optional<CertifiedValue> certified_silver() const;
};

struct NewMaterial {
  std::string name, kind;
  readings::Figure mass;                   // of the stock
  std::optional<Instant> arrived_at = {};  // of the first stock; absent: now
};

inline constexpr std::string_view own_client = "Control materials";  // whose the stocks are

// Logs the stock as a sample of the lab's own, with the next lab number. Errors: missing_key without a name; out_of_range
// (kind); already_exists where a material in use has this name.
Result<ControlMaterialId> add_material(history::Journal& journal, const NewMaterial& material);
Result<ControlMaterialId> add_material(history::ChangeSet& set, const NewMaterial& material);

// Weighs a charge's worth from the stock: it waits at the furnace. A flux blank has no mass. Errors: as portions::cut;
// missing_key (mass of rock).
Result<PortionId> weigh_in(history::Journal& journal, ControlMaterialId id, const readings::Figure& mass, PersonId by);

// What is left of the stock; nullopt where it was never weighed.
Result<std::optional<Mass>> left_of_stock(store::Connection& connection, const Material& material);

Result<std::vector<Material>> materials(store::Connection& connection);
Result<Material> material(store::Connection& connection, ControlMaterialId id);
// The material whose stock a sample is; nullopt for rock of a client.
Result<std::optional<Material>> material_of(history::Source source, SampleId stock);

}  // namespace prillbook::controls
