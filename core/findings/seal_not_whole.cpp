// SPDX-License-Identifier: GPL-3.0-or-later
// A seal that was broken, missing, or another one than before.
#include <fmt/format.h>

#include "core/findings/custody_words.h"
#include "core/findings/finding.h"

namespace prillbook::findings {
namespace {

void look_at(const custody::Piece& piece, Noted& noted) {
  const RecordId record = piece.id.value;
  const std::string which = fmt::format("Piece {}", piece.number);
  const bool gone = piece.seal_state == "missing" || (piece.seal_declared && !piece.seal && piece.seal_state != "broken");
  if (gone)
    noted.add(fmt::format("{}: the seal{} is missing.", which, piece.seal_declared ? " " + *piece.seal_declared : ""),
              {"seal", "missing", history::Entity::piece, record});
  else if (piece.seal_state == "broken")
    noted.add(fmt::format("{}: the seal{} is broken.", which, piece.seal ? " " + *piece.seal : ""),
              {"seal", "broken", history::Entity::piece, record});
  if (piece.seal_declared && piece.seal && *piece.seal_declared != *piece.seal)
    noted.add(fmt::format("{}: seal {} was named, {} found.", which, *piece.seal_declared, *piece.seal),
              {"seal number", fmt::format("{} for {}", *piece.seal, *piece.seal_declared), history::Entity::piece, record});
}

void look_at(const custody::Link& link, const std::optional<std::string>& before, Noted& noted) {
  if (!link.id) return;
  const std::string when = fmt::format("Hand-over of {}", moment_in_words(link.at));
  const RecordId record = link.id.value;
  if (link.seal_state == "broken" || link.seal_state == "missing")
    noted.add(fmt::format("{}: the seal was {}.", when, *link.seal_state),
              {"seal", *link.seal_state, history::Entity::hand_over, record});
  if (before && link.seal && *before != *link.seal && link.seal_state != "renewed")
    noted.add(fmt::format("{}: seal {} where {} was before.", when, *link.seal, *before),
              {"seal number", fmt::format("{} for {}", *link.seal, *before), history::Entity::hand_over, record});
}

}  // namespace

std::optional<Finding> seal_not_whole(const Scene& scene) {
  const custody::CustodyRecord& custody = scene.record.custody;
  Noted noted;
  for (const custody::Piece& piece : custody.pieces) look_at(piece, noted);
  std::optional<std::string> before;
  for (const custody::Link& link : custody.chain.links) {
    look_at(link, before, noted);
    if (link.id && link.seal) before = link.seal;
  }
  if (noted.empty()) return std::nullopt;
  return noted.finding("seal_not_whole", Severity::caution, scene,
                       "A seal shows that nobody was at the sample between two holders; one that is broken, gone or another "
                       "shows nothing.",
                       "Write down what was seen and who opened it, ask who held it before, and tell the client. A seal put on "
                       "anew is written as renewed.",
                       "EPA Region V 905R78115 (1978): in custody is what is under a seal that is broken only on opening");
}

}  // namespace prillbook::findings
