// SPDX-License-Identifier: GPL-3.0-or-later
// How much is enough: the sampling error of a portion in words, and the nomogram with the way that the sample took.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/sampling.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

class QLabel;
class QVBoxLayout;

namespace prillbook::ui {

class EnoughPane : public QWidget {
  Q_OBJECT
 public:
  explicit EnoughPane(Session& session, QWidget* parent = nullptr);
  // `portion` none: the last one that has a top size.
  void show_portion(const results::SampleRecord& record, const results::SampleResult& result, PortionId portion);
  void show_nothing();
  QString words() const;
  ChoiceField* form() const { return form_; }

 protected:
  void changeEvent(QEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  void show_words(const results::SampleRecord& record, const GyInput& input, const portions::Portion& portion);
  void draw();

  Session& session_;
  QLabel* words_;
  ChoiceField* form_;
  QVBoxLayout* column_;
  QWidget* chart_ = nullptr;
  std::optional<GyInput> input_;
  std::vector<SplitStage> stages_;
};

}  // namespace prillbook::ui
