// SPDX-License-Identifier: GPL-3.0-or-later
// guide_maker pictures FOLDER       the pictures of the guide, from the running program
// guide_maker pages DOCS FOLDER     the guide of DOCS/guide.md, as guide.html with its pictures and as guide.pdf
#include <QtCore/QTextStream>
#include <QtWidgets/QApplication>
#include <clocale>

#include "tests/guide/pages.h"
#include "tests/guide/pictures.h"
#include "ui/kit/theme.h"

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  const prillbook::ui::Theme theme(application, prillbook::ui::Shade::light);
  const QStringList words = QApplication::arguments();
  QStringList failed{QStringLiteral("guide_maker pictures FOLDER | guide_maker pages DOCS FOLDER")};
  if (words.size() == 3 && words[1] == "pictures") failed = prillbook::guide::make_pictures(words[2]);
  if (words.size() == 4 && words[1] == "pages") failed = prillbook::guide::make_pages(words[2], words[3]);
  for (const QString& what : failed) QTextStream(stderr) << "not made: " << what << '\n';
  return failed.isEmpty() ? 0 : 1;
}
