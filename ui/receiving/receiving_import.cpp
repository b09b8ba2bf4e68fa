// SPDX-License-Identifier: GPL-3.0-or-later
// Receiving and a client's list: the page that shows it stands in the place of the bench.
#include <QtCore/QMimeData>
#include <QtGui/QClipboard>
#include <QtGui/QGuiApplication>
#include <QtGui/QShortcut>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/press_button.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/receiving/import_page.h"
#include "ui/receiving/receiving_station.h"

namespace prillbook::ui {

void ReceivingStation::build_import() {
  import_ = new ImportPage(session_);
  import_->hide();
  static_cast<QVBoxLayout*>(layout())->addWidget(import_, 1);
  import_button_->setToolTip(tr("Ctrl+I; rows copied from a spreadsheet: Ctrl+V in the list"));
  connect(import_button_, &QPushButton::clicked, this, &ReceivingStation::import_file);
  const auto on = [this](const QKeySequence& keys, auto slot) {
    connect(new QShortcut(keys, this, nullptr, nullptr, Qt::WidgetWithChildrenShortcut), &QShortcut::activated, this, slot);
  };
  on(QKeySequence(Qt::CTRL | Qt::Key_I), &ReceivingStation::import_file);
  // A field in hand keeps the paste for itself.
  on(QKeySequence::Paste, &ReceivingStation::import_pasted);
  connect(import_, &ImportPage::left, this, [this] {
    show_import(false);
    enter();
  });
  connect(import_, &ImportPage::entered, this, [this] {
    show_import(false);
    next_sample();
  });
}

bool ReceivingStation::can_import() {
  if (session_.read_only()) {
    emit said(tr("The notebook can be read but not written."));
    return false;
  }
  if (!consignment_) emit said(tr("A list belongs to a consignment: name the client first."));
  return bool(consignment_);
}

void ReceivingStation::import_file() {
  if (!can_import()) return;
  const FileWish wish{FilePurpose::open, tr("A client’s list"), tr("Lists (*.csv *.tsv *.txt);;All files (*)"), {}};
  session_.prompter.choose_file(wish, [this](const QString& path) {
    if (!consignment_) return;
    show_import(true);
    import_->open_file(consignment_, path);
  });
}

// A picture on the clipboard is a photograph of what is in hand, not a list.
void ReceivingStation::import_pasted() {
  if (!can_import()) return;
  const QMimeData* pasted = QGuiApplication::clipboard()->mimeData();
  if (pasted && pasted->hasImage() && !pasted->hasText()) return photographs_->add_from(*pasted);
  const QString rows = QGuiApplication::clipboard()->text();
  if (rows.trimmed().isEmpty()) {
    emit said(tr("There are no rows to paste."));
    return;
  }
  show_import(true);
  import_->open_rows(consignment_, rows);
}

void ReceivingStation::show_import(bool shown) {
  import_->setVisible(shown);
  bench_->setVisible(!shown);
}

}  // namespace prillbook::ui
