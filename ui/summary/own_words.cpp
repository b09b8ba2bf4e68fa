// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/own_words.h"

#include <QtCore/QSignalBlocker>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QPlainTextEdit>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QVBoxLayout>

#include "core/lab/own_texts.h"
#include "ui/kit/fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int key_role = Qt::UserRole;

QLabel* word_line(const char* tone) {
  auto* label = new QLabel;
  label->setFont(face(TextSize::small));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

std::vector<ChoiceField::Choice> all_languages() {
  std::vector<ChoiceField::Choice> choices;
  for (const wording::LanguageName& one : wording::languages()) choices.push_back({std::string(one.code), to_qt(one.name)});
  return choices;
}

QString fault_words(const Error& error) {
  const QString name = error.arguments.empty() ? QString() : to_qt(error.arguments.front());
  switch (error.code) {
    case ErrorCode::unknown_key: return OwnWords::tr("{%1} is no placeholder of this text.").arg(name);
    case ErrorCode::missing_key:
      return name.isEmpty() ? OwnWords::tr("Without words ours stand there.")
                            : OwnWords::tr("{%1} is left out: the figure would be lost.").arg(name);
    case ErrorCode::out_of_range: return OwnWords::tr("A brace stands without its other one, or the text is too long.");
    default: return sentence(error);
  }
}

QString names_words(const wording::Text& text) {
  QStringList names;
  for (const std::string& name : wording::placeholders(text.english)) names << QStringLiteral("{%1}").arg(to_qt(name));
  return names.isEmpty() ? OwnWords::tr("It has no placeholders.")
                         : OwnWords::tr("Placeholders, all to be kept: %1").arg(names.join(QStringLiteral("  ")));
}

}  // namespace

OwnWords::OwnWords(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      usual_(new ChoiceField(tr("Language of this lab’s summaries"), all_languages())),
      language_(new QComboBox),
      list_(new QListWidget),
      ours_(word_line("quiet")),
      names_(word_line("quiet")),
      error_(word_line("signal")),
      edit_(new QPlainTextEdit),
      keep_(new QPushButton(tr("Keep these words"))),
      back_(new QPushButton(tr("Back to ours"))) {
  usual_->set_required(true);
  usual_->set_hint(tr("A client or one summary may have another."));
  usual_->set_read_only(session.read_only());
  usual_->on_commit([this](const std::optional<std::string>& code) {
    const auto set = lab::set_setting(session_.journal, "summary.language", code.value_or(std::string()));
    if (set.ok()) emit changed();
    return set;
  });
  language_->setAccessibleName(tr("Language of the texts"));
  for (const wording::LanguageName& one : wording::languages()) language_->addItem(to_qt(one.name));
  list_->setAccessibleName(tr("Texts of the client’s pages"));
  list_->setFrameShape(QFrame::NoFrame);
  list_->setFont(face(TextSize::small));
  list_->setFixedHeight(18 * rhythm);
  list_->setTextElideMode(Qt::ElideRight);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(usual_);
  column->addWidget(language_, 0, Qt::AlignLeft);
  column->addWidget(list_);
  column->addWidget(build_editor());
  connect(language_, &QComboBox::currentIndexChanged, this, &OwnWords::fill);
  connect(list_, &QListWidget::currentRowChanged, this, &OwnWords::show_text);
  connect(edit_, &QPlainTextEdit::textChanged, this, &OwnWords::check);
  connect(keep_, &QPushButton::clicked, this, &OwnWords::keep);
  connect(back_, &QPushButton::clicked, this, &OwnWords::put_back);
  refresh();
}

QWidget* OwnWords::build_editor() {
  edit_->setAccessibleName(tr("Words of the lab"));
  edit_->setFixedHeight(10 * rhythm);
  edit_->setTabChangesFocus(true);
  edit_->setFont(face(TextSize::body));
  edit_->setReadOnly(session_.read_only());
  auto* editor = new QWidget;
  auto* column = new QVBoxLayout(editor);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm / 2);
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(keep_);
  buttons->addWidget(back_);
  buttons->addStretch();
  for (QWidget* widget :
       {static_cast<QWidget*>(ours_), static_cast<QWidget*>(names_), static_cast<QWidget*>(edit_), static_cast<QWidget*>(error_)})
    column->addWidget(widget);
  column->addLayout(buttons);
  return editor;
}

wording::Language OwnWords::language() const {
  return wording::languages()[std::size_t(std::max(0, language_->currentIndex()))].language;
}

void OwnWords::refresh() {
  const auto settings = lab::settings(session_.connection);
  if (settings.ok()) {
    const auto& usual = wording::name_of(settings->summary_language);
    usual_->set_value(std::string(usual.code));
  }
  fill();
}

// What the lab words itself stands out.
void OwnWords::fill() {
  own_ = lab::own_texts(session_.connection, language()).value_or(wording::OwnTexts());
  const int row = list_->currentRow();
  {
    const QSignalBlocker quiet(list_);
    list_->clear();
    for (const wording::Text& text : wording::catalogue) {
      if (!text.own) continue;
      const auto found = own_.find(text.key);
      auto* item = new QListWidgetItem(to_qt(found == own_.end() ? wording::ours(text, language()) : found->second), list_);
      item->setData(key_role, to_qt(text.key));
      item->setFont(face(TextSize::small, found == own_.end() ? Weight::book : Weight::bold));
    }
    list_->setCurrentRow(std::max(0, row));
  }
  show_text();
}

const wording::Text* OwnWords::in_hand() const {
  const QListWidgetItem* item = list_->currentItem();
  return item ? wording::find_text(to_core(item->data(key_role).toString())) : nullptr;
}

bool OwnWords::take(std::string_view key) {
  for (int row = 0; row < list_->count(); ++row)
    if (list_->item(row)->data(key_role).toString() == to_qt(key)) {
      list_->setCurrentRow(row);
      return true;
    }
  return false;
}

void OwnWords::show_text() {
  const wording::Text* text = in_hand();
  if (!text) return;
  const auto found = own_.find(text->key);
  ours_->setText(tr("Ours: %1").arg(to_qt(wording::ours(*text, language()))));
  names_->setText(names_words(*text));
  const QSignalBlocker quiet(edit_);
  edit_->setPlainText(to_qt(found == own_.end() ? wording::ours(*text, language()) : std::string_view(found->second)));
  back_->setEnabled(found != own_.end() && !session_.read_only());
  check();
}

void OwnWords::check() {
  const wording::Text* text = in_hand();
  if (!text) return;
  const auto fit = wording::check_words(*text, to_core(edit_->toPlainText()));
  error_->setText(fit.ok() ? QString() : fault_words(fit.error()));
  keep_->setEnabled(fit.ok() && !session_.read_only());
}

void OwnWords::keep() {
  const wording::Text* text = in_hand();
  if (!text) return;
  const QString words = edit_->toPlainText().replace(QLatin1Char('\n'), QLatin1Char(' ')).simplified();
  const bool blank_first = text->english.starts_with(' ');
  const auto kept = lab::set_own_text(session_.journal, language(), text->key, (blank_first ? " " : "") + to_core(words));
  if (!kept.ok()) return error_->setText(fault_words(kept.error()));
  fill();
  emit changed();
}

void OwnWords::put_back() {
  const wording::Text* text = in_hand();
  if (!text) return;
  const auto back = lab::set_own_text(session_.journal, language(), text->key, {});
  if (!back.ok()) return error_->setText(sentence(back.error()));
  fill();
  emit changed();
}

}  // namespace prillbook::ui
