// SPDX-License-Identifier: GPL-3.0-or-later
// Answers what a test says it should, and keeps what was asked.
#pragma once

#include <deque>
#include <vector>

#include "ui/kit/prompter.h"

namespace prillbook::testing_support {

class ScriptedPrompter : public ui::Prompter {
 public:
  std::deque<int> answers;    // used up one by one; the safe answer once none is left
  std::deque<QString> files;  // the same; none: the person changes their mind
  std::vector<ui::Decision> asked;
  std::vector<ui::FileWish> wished;

  void decide(const ui::Decision& decision, std::function<void(int)> answered) override {
    asked.push_back(decision);
    int answer = decision.safe;
    if (!answers.empty()) {
      answer = answers.front();
      answers.pop_front();
    }
    answered(answer);
  }

  void choose_file(const ui::FileWish& wish, std::function<void(const QString&)> chosen) override {
    wished.push_back(wish);
    if (files.empty()) return;
    const QString file = files.front();
    files.pop_front();
    chosen(file);
  }
};

}  // namespace prillbook::testing_support
