// SPDX-License-Identifier: GPL-3.0-or-later
// Shows all parts of the kit on invented data, to be looked at: gallery [light|dark] [parts|thread|weigh|empty]
// [picture.png]. With a picture it paints the window and ends.
#include <QtCore/QTemporaryDir>
#include <QtCore/QTimer>
#include <QtWidgets/QApplication>
#include <QtWidgets/QLabel>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QVBoxLayout>
#include <clocale>

#include "tests/gallery/stations.h"
#include "tests/support/notebook.h"
#include "ui/kit/theme.h"
#include "ui/window/main_window.h"

namespace {

using namespace prillbook;
using namespace prillbook::ui;

QWidget* empty_lab() {
  auto* page = new QWidget;
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(8 * rhythm, 8 * rhythm, 8 * rhythm, 8 * rhythm);
  column->setSpacing(2 * rhythm);
  auto* head = new QLabel("An empty notebook");
  head->setFont(face(TextSize::large, Weight::bold));
  auto* words = new QLabel("The first bag is entered at Receiving: who brought it, the client's mark, the mass on the counter.");
  words->setWordWrap(true);
  auto* first = new QPushButton("Receive the first bag");
  first->setProperty("main", true);
  column->addWidget(head);
  column->addWidget(words);
  column->addWidget(first, 0, Qt::AlignLeft);
  column->addStretch();
  return page;
}

WindowParts parts_for(const QStringList& arguments, Session& session) {
  WindowParts parts;
  parts.way = gallery::way(session);
  parts.beside = gallery::beside(session);
  parts.notebook_name = "Gallery";
  parts.find = gallery::find;
  parts.people = [] { return std::vector<QString>{"HM", "TK"}; };
  parts.open_guide = [](const QString&) {};
  parts.describe = [](const history::Written&) { return QString("0.022 g for 26-0003 pan bead"); };
  if (arguments.contains("empty")) parts.first_page = empty_lab();
  return parts;
}

}  // namespace

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  const QStringList arguments = application.arguments();
  Theme theme(application, arguments.contains("dark") ? Shade::dark : Shade::light);
  testing_support::MemoryNotebook notebook;
  Notifier notifier(*notebook.journal);
  DialogPrompter prompter(nullptr);
  QTemporaryDir folder;
  Drafts drafts("gallery", folder.path());
  Session session{*notebook.connection, *notebook.journal, notifier, prompter, drafts, {}};
  MainWindow window(session, parts_for(arguments, session));
  prompter.set_window(&window);
  window.resize(1280, 720);
  window.show();
  gallery::open(window, arguments);
  const QString picture = arguments.last();
  if (picture.endsWith(".png")) QTimer::singleShot(400, &window, [&] { window.grab().save(picture), QApplication::quit(); });
  return QApplication::exec();
}
