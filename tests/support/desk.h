// SPDX-License-Identifier: GPL-3.0-or-later
// A small lab at work: a notebook in memory with what a station needs, and tests begun through the domains' commands.
#pragma once

#include <QtCore/QSettings>
#include <QtCore/QTemporaryDir>
#include <functional>

#include "core/fire/charge_record.h"
#include "core/gravity/pan_test.h"
#include "core/weighing/bead.h"
#include "tests/support/records.h"
#include "ui/kit/session.h"

namespace prillbook::testing_support {

// Answers dialogs from a script: every wish for a file gets `path`, every decision `answer`.
struct ScriptedPrompter : ui::Prompter {
  QString path;
  int answer = 0;
  std::vector<ui::FileWish> wishes;

  void decide(const ui::Decision&, std::function<void(int)> answered) override { answered(answer); }
  void choose_file(const ui::FileWish& wish, std::function<void(const QString&)> chosen) override {
    wishes.push_back(wish);
    if (!path.isEmpty()) chosen(path);
  }
};

struct Desk : LabWithSample<> {
  QTemporaryDir folder;
  ui::Notifier notifier{book};
  ScriptedPrompter prompter;
  ui::Drafts drafts{"desk", folder.path()};
  ui::Session session{*connection, book, notifier, prompter, drafts, {}};

  // The user's settings of one test are not those of another.
  Desk() { QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.path()); }

  SampleId another(const std::string& mark, const std::string& mass = "4 kg") { return sample = log_sample(mark, mass); }
  gravity::StartedPanTest pan(const std::string& mass) {
    return *gravity::start_pan_test(book, {*cut(mass, "pan"), {}, person, {}});
  }
  fire::StartedCharge fire(const std::string& mass, PortionId parent = {}, const readings::Figure& collector = {}) {
    return *fire::start_charge(book, {*cut(mass, "fire", parent), {}, person, {}, collector, {}});
  }
  void weigh(BeadId bead, const std::string& mass, std::string_view what = weighing::of_bead) {
    const weighing::NewWeighing fresh{bead, std::string(what), figure(mass), balance, {}, person};
    const auto weighed = what == weighing::of_gold ? weighing::weigh_parted(book, fresh) : weighing::weigh(book, fresh);
    ASSERT_TRUE(weighed.ok()) << weighed.error().detail;
  }
  void fineness(BeadId bead, const std::string& permil, const std::string& method = "touchstone") {
    ASSERT_TRUE(weighing::set_fineness(book, bead, method, figure(permil, Measure::fineness), {}).ok());
  }
};

}  // namespace prillbook::testing_support
