// SPDX-License-Identifier: GPL-3.0-or-later
// Half-typed text outlives the window: kept in the user's state folder, by notebook and field, never in the notebook.
#pragma once

#include <QtCore/QHash>
#include <QtCore/QObject>
#include <QtCore/QString>
#include <QtCore/QTimer>
#include <optional>

namespace prillbook::ui {

class Drafts : public QObject {
  Q_OBJECT
 public:
  // Reads what `folder` holds for this notebook; a file that can't be read counts as no drafts.
  Drafts(const QString& notebook_path, const QString& folder = state_folder(), QObject* parent = nullptr);
  ~Drafts() override;  // writes what is still to be written

  // `key` names record and field: "sample/12/mass_received".
  void keep(const QString& key, const QString& text);
  void forget(const QString& key);
  std::optional<QString> draft(const QString& key) const;
  int count() const { return int(drafts_.size()); }
  // By itself half a second after a change, and at once where a kept text goes. False where the folder can't be written.
  bool write_now();

  // $XDG_STATE_HOME/prillbook, or ~/.local/state/prillbook (XDG Base Directory Specification 0.8).
  static QString state_folder();

 private:
  void read();

  QString file_;
  QString notebook_;
  QHash<QString, QString> drafts_;
  QTimer timer_;
};

}  // namespace prillbook::ui
