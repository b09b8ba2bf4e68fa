// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/restore.h"

#include <fmt/format.h>

#include <filesystem>

#include "core/store/part_file.h"
#include "core/upkeep/check.h"
#include "core/upkeep/copy_rule.h"
#include "core/upkeep/keep.h"
#include "core/upkeep/sealed.h"

namespace prillbook::upkeep {
namespace {

namespace fs = std::filesystem;

// An interrupted entry of the former notebook is taken back, or else goes with it: it must not be played into the copy.
Result<void> clear_journal(const std::string& notebook, const std::string& kept) {
  const std::string journal = notebook + "-journal";
  std::error_code code;
  if (!fs::exists(journal, code)) return {};
  (void)store::Connection::open(notebook, store::Access::read_write);
  if (!fs::exists(journal, code)) return {};
  return store::move_into_place(journal, kept + "-journal", true);
}

}  // namespace

std::string replaced_name(const std::string& notebook, const Instant& now) {
  const fs::path path(notebook);
  return (path.parent_path() /
          fmt::format("{}.replaced-{}{}", path.stem().string(), to_text(copy_time(now)), path.extension().string()))
      .string();
}

Result<std::string> restore_copy(const std::string& notebook, const std::string& copy, const Instant& now,
                                 const store::BackupOptions& options) {
  // The checked copy is made under the name that the former notebook is to have, so that one step changes the two.
  const std::string kept = replaced_name(notebook, now);
  PRILLBOOK_TRY(back_up(copy, kept, options));
  Result<void> outcome = clear_journal(notebook, kept);
  if (outcome) outcome = store::change_places(kept, notebook);
  if (outcome) return kept;
  if (std::error_code code; fs::exists(kept + "-journal", code))
    (void)store::move_into_place(kept + "-journal", notebook + "-journal", true);
  store::discard(kept);
  return outcome.error();
}

Result<std::string> open_sealed_copy(const std::string& notebook, const std::string& sealed, std::string_view passphrase) {
  const std::string opened = notebook + ".opened";
  store::discard(opened);
  PRILLBOOK_TRY(unseal(sealed, opened, passphrase));
  const auto report = check_notebook(opened);
  const auto sound = report ? sound_or_error(*report, sealed) : Result<void>(report.error());
  if (sound) return opened;
  store::discard(opened);
  return sound.error();
}

}  // namespace prillbook::upkeep
