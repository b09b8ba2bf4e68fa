// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/files.h"
#include "app/batch/notebook_verbs.h"
#include "core/upkeep/check.h"
#include "core/upkeep/keep.h"
#include "core/upkeep/sealed.h"

namespace prillbook::batch {

Result<Json> notebook_sealed_backup(const std::string& file, const std::string& to, const std::string& passphrase_file,
                                    World& world) {
  PRILLBOOK_ASSIGN(const std::string passphrase, passphrase_of(passphrase_file));
  // The checked copy lies beside the notebook until it is sealed: what can be read stays where it could be read before.
  const std::string plain = file + ".to-seal";
  store::BackupOptions options;
  options.now = world.clock.now();
  PRILLBOOK_TRY(upkeep::back_up(file, plain, options));
  const auto sealed = upkeep::seal(plain, to, passphrase);
  store::discard(plain);
  if (!sealed) return sealed.error();
  return Json{{"notebook", file}, {"backup", to}, {"sealed", true}};
}

Result<Json> notebook_open_sealed(const std::string& file, const std::string& from, const std::string& passphrase_file) {
  PRILLBOOK_ASSIGN(const std::string passphrase, passphrase_of(passphrase_file));
  PRILLBOOK_TRY(upkeep::unseal(from, file, passphrase));
  const auto report = upkeep::check_notebook(file);
  const auto sound = report ? upkeep::sound_or_error(*report, file) : Result<void>(report.error());
  if (!sound) {
    store::discard(file);
    return sound.error();
  }
  return Json{{"notebook", file}};
}

}  // namespace prillbook::batch
