// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/prompter.h"

#include <QtWidgets/QFileDialog>
#include <QtWidgets/QMessageBox>
#include <QtWidgets/QPushButton>
#include <utility>

namespace prillbook::ui {

void DialogPrompter::decide(const Decision& decision, std::function<void(int)> answered) {
  auto* box = new QMessageBox(window_);
  box->setAttribute(Qt::WA_DeleteOnClose);
  box->setText(decision.words);
  box->setInformativeText(decision.more);
  for (int i = 0; i < decision.answers.size(); ++i) {
    auto* button = box->addButton(decision.answers[i], i == decision.safe ? QMessageBox::RejectRole : QMessageBox::AcceptRole);
    button->setProperty("answer", i);
    if (i == 0) box->setDefaultButton(button);
    if (i == decision.safe) box->setEscapeButton(button);
  }
  QObject::connect(box, &QMessageBox::finished, box, [box, safe = decision.safe, answered = std::move(answered)] {
    const auto* button = box->clickedButton();
    answered(button ? button->property("answer").toInt() : safe);
  });
  box->open();
}

void DialogPrompter::choose_file(const FileWish& wish, std::function<void(const QString&)> chosen) {
  auto* dialog = new QFileDialog(window_, wish.title, wish.suggested, wish.filter);
  dialog->setAttribute(Qt::WA_DeleteOnClose);
  dialog->setAcceptMode(wish.purpose == FilePurpose::save ? QFileDialog::AcceptSave : QFileDialog::AcceptOpen);
  dialog->setFileMode(wish.purpose == FilePurpose::folder ? QFileDialog::Directory
                      : wish.purpose == FilePurpose::open ? QFileDialog::ExistingFile
                                                          : QFileDialog::AnyFile);
  QObject::connect(dialog, &QFileDialog::fileSelected, dialog,
                   [chosen = std::move(chosen)](const QString& path) { chosen(path); });
  dialog->open();
}

}  // namespace prillbook::ui
