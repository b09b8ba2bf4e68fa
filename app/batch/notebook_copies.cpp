// SPDX-License-Identifier: GPL-3.0-or-later
#include <optional>

#include "app/batch/files.h"
#include "app/batch/notebook_verbs.h"
#include "core/history/catalogue.h"
#include "core/store/writer_lock.h"
#include "core/upkeep/conflict.h"
#include "core/upkeep/copies.h"
#include "core/upkeep/difference.h"
#include "core/upkeep/restore.h"
#include "core/upkeep/sealed.h"

namespace prillbook::batch {
namespace {

std::string_view kind_name(upkeep::CopyKind kind) {
  switch (kind) {
    case upkeep::CopyKind::taken: return "taken";
    case upkeep::CopyKind::before_migration: return "before_migration";
    case upkeep::CopyKind::replaced: return "replaced";
    case upkeep::CopyKind::sealed: return "sealed";
    case upkeep::CopyKind::conflict: return "conflict";
  }
  return "";
}

Json since_json(const upkeep::Since& since) {
  Json object{{"entries", since.entries}, {"gestures", since.gestures}, {"by", Json::array()}, {"made", Json::object()}};
  for (const auto& [who, gestures] : since.gestures_by_person) object["by"].push_back({{"who", who}, {"gestures", gestures}});
  for (const auto& [entity, count] : since.made) object["made"][std::string(history::spec_of(entity).table)] = count;
  object["newest"] = Json::array();
  for (const history::HistoryRow& row : since.newest)
    object["newest"].push_back({{"gesture", row.gesture}, {"who", row.who}, {"when", to_iso(row.when)}});
  return object;
}

// The copy itself, or what a sealed one was opened into, which goes when the look is over.
class OpenedCopy {
 public:
  static Result<std::unique_ptr<OpenedCopy>> of(const std::string& notebook, const std::string& copy,
                                                const std::string& passphrase_file) {
    auto opened = std::make_unique<OpenedCopy>();
    opened->path_ = copy;
    if (!upkeep::is_sealed(copy)) return opened;
    PRILLBOOK_ASSIGN(const std::string passphrase, passphrase_of(passphrase_file));
    PRILLBOOK_ASSIGN(opened->path_, upkeep::open_sealed_copy(notebook, copy, passphrase));
    opened->goes_ = true;
    return opened;
  }
  OpenedCopy() = default;
  OpenedCopy(const OpenedCopy&) = delete;
  OpenedCopy& operator=(const OpenedCopy&) = delete;
  ~OpenedCopy() {
    if (goes_) store::discard(path_);
  }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
  bool goes_ = false;
};

}  // namespace

Result<Json> notebook_take_copy(const std::string& file, const upkeep::CopyPlaces& places, World& world) {
  const Instant now = world.clock.now();
  PRILLBOOK_ASSIGN(const upkeep::TakenCopy taken, upkeep::take_copy(file, places, now));
  Json object{{"notebook", file}, {"thinned_out", taken.thinned_out}};
  if (taken.path) object["copy"] = *taken.path;
  if (taken.second_fault) object["second_fault"] = taken.second_fault->detail;
  return object;
}

Result<Json> notebook_copies(const std::string& file, const upkeep::CopyPlaces& places) {
  Json object{{"notebook", file}, {"copies", Json::array()}};
  for (const upkeep::Copy& copy : upkeep::all_copies(file, places)) {
    Json one{{"copy", copy.path}, {"kind", kind_name(copy.kind)}, {"bytes", copy.bytes}};
    if (copy.taken) one["taken"] = upkeep::to_text(*copy.taken);
    object["copies"].push_back(std::move(one));
  }
  for (const upkeep::ConflictCopy& conflict : upkeep::conflict_copies(file))
    object["copies"].push_back(
        {{"copy", conflict.path}, {"kind", kind_name(upkeep::CopyKind::conflict)}, {"gestures_only_there", conflict.gestures}});
  return object;
}

Result<Json> notebook_compare_copy(const std::string& file, const std::string& copy, const std::string& passphrase_file) {
  PRILLBOOK_ASSIGN(const auto opened, OpenedCopy::of(file, copy, passphrase_file));
  PRILLBOOK_ASSIGN(const auto here, store::Connection::open(file, store::Access::read_only));
  PRILLBOOK_ASSIGN(const auto held, store::Connection::open(opened->path(), store::Access::read_only));
  PRILLBOOK_ASSIGN(const upkeep::Difference found, upkeep::difference(*here, *held));
  return Json{{"notebook", file},
              {"copy", copy},
              {"related", found.related()},
              {"shared_entries", found.shared_entries},
              {"only_in_notebook", since_json(found.only_here)},
              {"only_in_copy", since_json(found.only_in_copy)}};
}

Result<Json> notebook_restore_copy(const std::string& file, const std::string& copy, const std::string& passphrase_file,
                                   World& world) {
  const Instant now = world.clock.now();
  PRILLBOOK_ASSIGN(const auto lock, store::WriterLock::take(file, now));
  PRILLBOOK_ASSIGN(const auto opened, OpenedCopy::of(file, copy, passphrase_file));
  PRILLBOOK_ASSIGN(const std::string kept, upkeep::restore_copy(file, opened->path(), now));
  return Json{{"notebook", file}, {"from", copy}, {"kept", kept}};
}

}  // namespace prillbook::batch
