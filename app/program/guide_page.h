// SPDX-License-Identifier: GPL-3.0-or-later
// The guide and the cautions, as a page of the window. Both texts are part of the program.
#pragma once

#include <QtWidgets/QTextBrowser>

namespace prillbook::program {

class GuidePage : public QTextBrowser {
  Q_OBJECT
 public:
  explicit GuidePage(QWidget* parent = nullptr);
  // "receiving" opens the guide there, "safety/fire" the cautions; a page that is not known opens the beginning.
  void open_at(const QString& page);

 private:
  QString shown_;
};

}  // namespace prillbook::program
