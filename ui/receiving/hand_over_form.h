// SPDX-License-Identifier: GPL-3.0-or-later
// Who has the sample in hand, how it came there, and the form that hands it over, with other samples of its consignment
// if wanted. A hand-over is written once and stays.
#pragma once

#include <QtWidgets/QWidget>
#include <optional>

#include "core/custody/hand_overs.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

class QListWidget;

namespace prillbook::ui {

class Ledger;
class PressButton;

class HandOverForm : public QWidget {
  Q_OBJECT
 public:
  explicit HandOverForm(Session& session, QWidget* parent = nullptr);
  void show_sample(SampleId sample);  // none: empty
  void refresh();

 signals:
  void written(int samples);

 private:
  void build_fields();
  void write();
  void refuse(const Error& error);
  void clear();
  void show_places();
  void show_chain(const custody::Chain& chain);
  void show_samples(const custody::Sample& sample);
  std::vector<SampleId> chosen() const;
  void choose_all();
  void show_count();

  Session& session_;
  SampleId sample_;
  custody::NewHandOver wished_;
  std::string offered_from_;  // the holder that the chain ended with; follows it unless another was typed
  Ledger* chain_;
  QListWidget* samples_;
  TextField* from_;
  TextField* to_;
  PickField* place_;
  DateTimeField* at_;
  TextField* reason_;
  TextField* seal_;
  ChoiceField* seal_state_;
  ChoiceField* condition_;
  PressButton* write_;
  PressButton* all_;
};

// "with HM, shelf 2"; "nobody named" where the chain does not say.
QString holder_words(const custody::Chain& chain);

}  // namespace prillbook::ui
