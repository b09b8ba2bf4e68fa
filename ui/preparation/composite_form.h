// SPDX-License-Identifier: GPL-3.0-or-later
// A composite: a sample of the lab's own making, put together from weighed shares of several samples. All of it is one entry.
#pragma once

#include <QtWidgets/QWidget>
#include <deque>

#include "core/milling/composites.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

class QLabel;
class QVBoxLayout;

namespace prillbook::ui {

class PressButton;

class CompositeForm : public QWidget {
  Q_OBJECT
 public:
  explicit CompositeForm(Session& session, QWidget* parent = nullptr);
  // Reads the samples anew; what is typed is left alone.
  void refresh();
  PressButton* button() const { return make_; }
  QString refusal_words() const;
  QString outlook_words() const;

 signals:
  void made(prillbook::SampleId composite);

 private:
  struct ShareRow {
    PickField* sample;
    ReadingField* mass;
    ReadingField* share;
    std::optional<std::int64_t> chosen;
    readings::Figure mass_figure, share_figure;
  };
  void add_row();
  void order_of_keys();
  void show_outlook();
  std::vector<milling::NewShare> shares_begun() const;
  void make();
  void clear();
  void refuse(const Error& error);
  Result<milling::NewComposite> entered() const;

  Session& session_;
  TextField* mark_;
  std::optional<std::string> mark_text_;
  std::deque<ShareRow> rows_;  // keeps its places: the fields write into them
  std::vector<PickField::Item> samples_;
  QVBoxLayout* rows_column_;
  QLabel* outlook_;
  PressButton* make_;
  QLabel* refused_;
};

}  // namespace prillbook::ui
