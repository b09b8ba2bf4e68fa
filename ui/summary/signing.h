// SPDX-License-Identifier: GPL-3.0-or-later
// The lab's key at the window: where its file is, its passphrase for as long as the window is open, and a new key made.
#pragma once

#include <QtWidgets/QWidget>
#include <optional>
#include <string>

#include "ui/kit/session.h"
#include "ui/summary/beside.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace prillbook::ui {

class MessageBar;

class Signing : public QWidget {
  Q_OBJECT
 public:
  explicit Signing(Session& session, QWidget* parent = nullptr);
  ~Signing() override;  // the passphrase is wiped

  struct Wish {
    std::string file, passphrase;
  };
  // nullopt: issue without a signature.
  std::optional<Wish> wish() const;
  // Why the wish can not be followed as it stands; empty where it can.
  QString missing() const;
  bool busy() const { return beside_.busy(); }

  void choose_key();  // asks for the file
  void make_key();    // asks where to; needs a passphrase typed
  void forget_key();  // from now on nothing is signed

 private:
  void use(const QString& file);
  void say_state();

  Session& session_;
  QString file_;
  QLabel* words_;
  QLineEdit* passphrase_;
  QPushButton *choose_, *make_, *forget_;
  MessageBar* news_;
  QLineEdit* public_half_;
  Beside beside_;
};

}  // namespace prillbook::ui
