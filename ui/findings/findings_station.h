// SPDX-License-Identifier: GPL-3.0-or-later
// Findings: all that the notebook noticed and nobody has explained yet, of every sample.
#pragma once

#include <QtCore/QElapsedTimer>
#include <QtCore/QTimer>

#include "core/findings/board.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QComboBox;
class QLabel;
class QLineEdit;

namespace prillbook::ui {

class FindingPage;
class WaitingList;
struct WaitingRow;

class FindingsStation : public Station {
  Q_OBJECT
 public:
  explicit FindingsStation(Session& session, QWidget* parent = nullptr);

  QString title() const override;
  Icon icon() const override { return Icon::findings; }
  // Open ones; no number before the notebook was read.
  int waiting_count() override;
  void notebook_changed(const history::Written& written) override;
  bool show_record(const RecordRef&) override { return false; }
  void enter() override;
  QString guide_page() const override { return QStringLiteral("findings"); }

  // Samples that are still to be looked at; they are, a little at a time, while the window is at rest.
  std::size_t owed() const { return board_.owed(); }

 private:
  QWidget* build_column();
  QComboBox* choice(const QString& name, const QStringList& words);
  void begin();
  void read_on();
  bool look_for_a_moment();
  void refresh();
  void tell_progress();
  void fill_rules();
  findings::BoardWish wish() const;
  std::vector<WaitingRow> rows(int from, int count) const;
  RecordId row_id(const findings::Noticed& noticed) const;
  void take(RecordId row);

  Session& session_;
  findings::Board board_;
  std::vector<findings::Noticed> listed_;
  bool begun_ = false;
  QString failed_;  // why the notebook could not be read
  std::string day_;
  QTimer pump_;
  QElapsedTimer since_refresh_;
  QLabel* news_;
  QComboBox* standing_;
  QComboBox* order_;
  QComboBox* severity_;
  QComboBox* rule_;
  QLineEdit* number_;
  WaitingList* list_;
  FindingPage* page_;
};

}  // namespace prillbook::ui
