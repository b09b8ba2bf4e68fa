// SPDX-License-Identifier: GPL-3.0-or-later
// Fewer or more pieces came than were declared.
#include <fmt/format.h>

#include "core/findings/custody_words.h"

namespace prillbook::findings {

std::optional<Finding> pieces_missing(const Scene& scene) {
  const custody::Consignment& consignment = scene.record.consignment;
  const auto listed = std::int64_t(scene.record.custody.pieces.size());
  const std::int64_t found = consignment.pieces_found.value_or(listed);
  if (!consignment.pieces_declared || found == *consignment.pieces_declared) return std::nullopt;
  if (!consignment.pieces_found && listed == 0) return std::nullopt;
  const bool fewer = found < *consignment.pieces_declared;
  Noted noted;
  noted.add(fmt::format("{}: {} pieces were declared, {} found.", consignment.number, *consignment.pieces_declared, found),
            {"pieces", fmt::format("{} of {}", found, *consignment.pieces_declared), history::Entity::consignment,
             consignment.id.value});
  return noted.finding("pieces_missing", Severity::caution, scene,
                       fewer ? "A piece that did not come may hold a sample, or the rest of one that did."
                             : "A piece too many may be another client's.",
                       "Count again, ask the carrier for the paper, and tell the client before anything is crushed.",
                       "ISO/IEC 17025:2017 7.4.3 asks for departures on receipt to be recorded and the customer to be asked "
                       "(from memory)");
}

}  // namespace prillbook::findings
