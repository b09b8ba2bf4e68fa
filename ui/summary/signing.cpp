// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/signing.h"

#include <QtCore/QFileInfo>
#include <QtCore/QSettings>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QVBoxLayout>

#include "core/exchange/key_file.h"
#include "ui/kit/messages.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/summary/summary_files.h"

namespace prillbook::ui {
namespace {

constexpr auto kept_at = "signing/key_file";  // of this computer; the key is no part of the notebook

QString key_sentence(const Error& error, const QString& path) {
  if (error.code == ErrorCode::already_exists) return Signing::tr("%1 is there already: a key is never written over.").arg(path);
  if (error.code == ErrorCode::too_small)
    return Signing::tr("The passphrase needs at least %1 characters.").arg(issue::shortest_passphrase);
  return file_sentence(error, path);
}

}  // namespace

Signing::Signing(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      file_(QSettings().value(QLatin1String(kept_at)).toString()),
      words_(new QLabel),
      passphrase_(new QLineEdit),
      choose_(new QPushButton(tr("Use a key…"))),
      make_(new QPushButton(tr("Make a key…"))),
      forget_(new QPushButton(tr("Do not sign"))),
      news_(new MessageBar),
      public_half_(new QLineEdit) {
  words_->setWordWrap(true);
  words_->setTextFormat(Qt::PlainText);
  words_->setFont(face(TextSize::small));
  words_->setProperty("tone", "quiet");
  passphrase_->setEchoMode(QLineEdit::Password);
  passphrase_->setAccessibleName(tr("Passphrase of the key"));
  passphrase_->setPlaceholderText(tr("passphrase of the key"));
  passphrase_->setMaximumWidth(32 * rhythm);
  public_half_->setReadOnly(true);
  public_half_->setFont(face(TextSize::small));
  public_half_->setAccessibleName(tr("Public half of the key"));
  public_half_->hide();
  auto* line = new QHBoxLayout;
  line->setSpacing(rhythm);
  for (QWidget* widget : {static_cast<QWidget*>(passphrase_), static_cast<QWidget*>(choose_), static_cast<QWidget*>(make_),
                          static_cast<QWidget*>(forget_)})
    line->addWidget(widget);
  line->addStretch();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(words_);
  column->addLayout(line);
  column->addWidget(news_);
  column->addWidget(public_half_);
  connect(choose_, &QPushButton::clicked, this, &Signing::choose_key);
  connect(make_, &QPushButton::clicked, this, &Signing::make_key);
  connect(forget_, &QPushButton::clicked, this, &Signing::forget_key);
  say_state();
}

Signing::~Signing() { passphrase_->clear(); }

void Signing::say_state() {
  words_->setText(
      file_.isEmpty()
          ? tr("Issued summaries are not signed. A key that the lab keeps in a file of its own signs them; whoever has "
               "the public half can tell that a PDF came from this lab.")
          : tr("Issued summaries are signed with the key %1. The passphrase is kept for as long as this window is open.")
                .arg(QFileInfo(file_).fileName()));
  forget_->setVisible(!file_.isEmpty());
}

std::optional<Signing::Wish> Signing::wish() const {
  if (file_.isEmpty()) return std::nullopt;
  return Wish{to_core(file_), to_core(passphrase_->text())};
}

QString Signing::missing() const {
  return !file_.isEmpty() && passphrase_->text().isEmpty() ? tr("Type the passphrase of the key, or choose not to sign.")
                                                           : QString();
}

void Signing::use(const QString& file) {
  file_ = file;
  public_half_->hide();
  QSettings().setValue(QLatin1String(kept_at), file_);
  say_state();
}

void Signing::forget_key() {
  passphrase_->clear();
  news_->say({});
  use({});
}

void Signing::choose_key() {
  session_.prompter.choose_file({FilePurpose::open, tr("The lab’s key"), tr("Key (*.prillkey);;All files (*)"), {}},
                                [this](const QString& path) {
                                  use(path);
                                  passphrase_->setFocus(Qt::OtherFocusReason);
                                });
}

// Sealing takes its time on purpose, so it is done beside.
void Signing::make_key() {
  if (passphrase_->text().size() < int(issue::shortest_passphrase)) {
    news_->stop(tr("Type a passphrase of at least %1 characters first: it seals the key, and nobody can find it again.")
                    .arg(issue::shortest_passphrase));
    return passphrase_->setFocus(Qt::OtherFocusReason);
  }
  session_.prompter.choose_file(
      {FilePurpose::save, tr("Where the new key is kept"), tr("Key (*.prillkey)"), QStringLiteral("lab.prillkey")},
      [this](const QString& path) {
        make_->setEnabled(false);
        beside_.begin([this, path, passphrase = to_core(passphrase_->text())](const Watch&) -> std::function<void()> {
          return [this, path, made = exchange::make_key_file(to_core(path), passphrase)] {
            make_->setEnabled(true);
            if (!made.ok()) return news_->stop(key_sentence(made.error(), path));
            use(path);
            news_->written(tr("The key is made. Its public half, to give away, can be copied from here:"));
            public_half_->setText(to_qt(*made));
            public_half_->show();
            public_half_->selectAll();
          };
        });
      });
}

}  // namespace prillbook::ui
