// SPDX-License-Identifier: GPL-3.0-or-later
// What the notebook noticed about one sample, answerable in place.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/findings/finding.h"
#include "ui/kit/fields.h"
#include "ui/kit/messages.h"
#include "ui/kit/session.h"

class QVBoxLayout;

namespace prillbook::ui {

// At most `open_at_once` findings stand open, the most serious first; the rest and the answered ones are one line.
class FindingsPanel : public QWidget {
  Q_OBJECT
 public:
  explicit FindingsPanel(Session& session, QWidget* parent = nullptr);
  // Only findings of these rules are shown; none named: all.
  void show_only(std::vector<std::string> rules) { only_ = std::move(rules); }
  void show_sample(SampleId sample);  // none: empty
  void refresh();
  int open_count() const { return open_count_; }
  static constexpr int open_at_once = 3;

 private:
  void add_open(const findings::Finding& finding);
  void add_answered(const findings::OpenOrAnswered& entry);
  void explain(const findings::Finding& finding, QWidget* after);

  Session& session_;
  SampleId sample_;
  QVBoxLayout* column_;
  QWidget* explaining_ = nullptr;
  std::vector<std::string> only_, shown_;
  bool all_ = false;
  int open_count_ = 0;
};

Severity severity_of(findings::Severity severity);

}  // namespace prillbook::ui
