// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/tray_walks.h"

#include <fmt/format.h>

#include <map>
#include <set>

namespace prillbook::results {
namespace {

class WalkLoader {
 public:
  WalkLoader(store::Connection& connection, SampleRecord& record) : connection_(connection), record_(record) {}

  Result<void> run() {
    for (const PanEntry& entry : record_.pan_tests) PRILLBOOK_TRY(follow({{}, entry.bead.id, {}}));
    for (const FireEntry& entry : record_.charges) PRILLBOOK_TRY(follow({entry.charge.id, {}, {}}));
    for (const auto& [from, to] : ways_) PRILLBOOK_TRY(walk(from, to));
    return {};
  }

 private:
  Result<const trays::Tray*> tray(TrayId id) {
    const auto found = trays_.find(id);
    if (found != trays_.end()) return &found->second;
    PRILLBOOK_ASSIGN(trays::Tray read, trays::tray(connection_, id));
    return &trays_.emplace(id, std::move(read)).first->second;
  }

  // Its places, and the steps from one tray to the next of another kind.
  Result<void> follow(const trays::Thing& thing) {
    PRILLBOOK_ASSIGN(const auto standings, trays::where_it_stood(connection_, thing));
    const trays::Standing* before = nullptr;
    for (const trays::Standing& one : standings) {
      PRILLBOOK_ASSIGN(const trays::Tray* held, tray(one.tray));
      const trays::Place* place = held->at(one.position);
      if (!place) continue;
      record_.bead_places.push_back({place->bead, held->id, held->name, held->kind, *place});
      if (before && before->kind != one.kind) ways_.emplace(before->tray, one.tray);
      before = &one;
    }
    return {};
  }

  Result<void> walk(TrayId from, TrayId to) {
    PRILLBOOK_ASSIGN(const trays::Tray* first, tray(from));
    PRILLBOOK_ASSIGN(const trays::Tray* second, tray(to));
    TrayWalk walk{from, to, first->name, second->name, {}};
    for (const trays::Place& there : second->places)
      for (const trays::Place& here : first->places) {
        if (!there.bead || here.bead != there.bead) continue;
        PRILLBOOK_ASSIGN(const weighing::Origin origin, weighing::origin(connection_, there.bead));
        walk.steps.push_back({there.bead, fmt::format("{}/{}", origin.sample_number, origin.portion_number), there.id,
                              here.position, there.first_position()});
      }
    record_.tray_walks.push_back(std::move(walk));
    return {};
  }

  store::Connection& connection_;
  SampleRecord& record_;
  std::map<TrayId, trays::Tray> trays_;
  std::set<std::pair<TrayId, TrayId>> ways_;
};

}  // namespace

Result<void> load_tray_walks(store::Connection& connection, SampleRecord& record) { return WalkLoader(connection, record).run(); }

}  // namespace prillbook::results
