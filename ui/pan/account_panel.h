// SPDX-License-Identifier: GPL-3.0-or-later
// The balance of a pan test as it stands, and the pannings of the sample at other grinds beside it.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/sample_result.h"
#include "ui/kit/session.h"

class QGridLayout;
class QLabel;

namespace prillbook::ui {

class AccountPanel : public QWidget {
  Q_OBJECT
 public:
  explicit AccountPanel(Session& session, QWidget* parent = nullptr);
  void show_test(const results::SampleRecord& record, const results::SampleResult& result, PanTestId test);

 private:
  void clear();
  void heading(const QString& words);
  void line(const QString& name, const QString& figure, const QString& words = {}, bool sum = false);
  void show_mass(const results::PanAccount& account);
  void show_gold(const results::PanAccount& account);
  void show_grinds(const results::SampleRecord& record, const results::SampleResult& result, PanTestId test);
  QString mass_words(const std::optional<Mass>& mass) const;
  QString gold_words(const std::optional<results::GoldMass>& gold) const;

  Session& session_;
  QGridLayout* grid_;
  int next_ = 0;
};

}  // namespace prillbook::ui
