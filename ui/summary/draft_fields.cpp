// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/draft_fields.h"

#include <QtCore/QScopedValueRollback>
#include <QtWidgets/QCheckBox>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QGridLayout>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/lab/own_texts.h"
#include "ui/kit/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

QString part_words(std::string_view part) {
  if (part == "pictures") return DraftFields::tr("Pan and fire picture");
  if (part == "sieves") return DraftFields::tr("Sieve curves");
  if (part == "photographs") return DraftFields::tr("Photographs");
  if (part == "custody") return DraftFields::tr("Dates and hands");
  if (part == "methods") return DraftFields::tr("Methods");
  return DraftFields::tr("Every test");
}

std::vector<ChoiceField::Choice> languages() {
  std::vector<ChoiceField::Choice> choices;
  for (const wording::LanguageName& one : wording::languages()) choices.push_back({std::string(one.code), to_qt(one.name)});
  return choices;
}

bool is_whole(const issue::Price& price) { return price.unit && price.date && (price.gold || price.silver); }

}  // namespace

DraftFields::DraftFields(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      paper_(new QComboBox),
      language_(new ChoiceField(tr("Language of the pages"), languages())) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(build_parts());
  language_->on_commit([this](const std::optional<std::string>& code) {
    wish_.language = code;
    return write();
  });
  auto* form = new Form(4);
  form->wide(language_);
  form->row({line(tr("Title, in the place of ours"), &issue::NewDraft::title)});
  form->row({line(tr("Remarks for the client"), &issue::NewDraft::remarks)});
  form->row({price_line(tr("Price of gold"), &issue::Price::gold), price_line(tr("Price of silver"), &issue::Price::silver),
             price_line(tr("in, as USD/ozt"), &issue::Price::unit),
             price_line(tr("on the day, as 2026-05-04"), &issue::Price::date)});
  auto* fold = new Fold(tr("Language, title, remarks, price"), form);
  column->addWidget(fold);
}

QWidget* DraftFields::build_parts() {
  auto* holder = new QWidget;
  auto* shown = new QGridLayout(holder);
  shown->setContentsMargins(0, 0, 0, 0);
  shown->setHorizontalSpacing(2 * rhythm);
  shown->setVerticalSpacing(rhythm);
  constexpr int abreast = 4;  // what a window of 1280 pixels has room for
  int place = 0;
  // What was not written is not shown as if it were.
  const auto tell = [this](const std::function<void()>& put_back) {
    if (filling_) return;
    const auto written = write();
    if (written.ok()) return;
    const QScopedValueRollback<bool> filling(filling_, true);
    put_back();
    emit refused(written.error());
  };
  for (const std::string_view part : issue::parts()) {
    auto* box = new QCheckBox(part_words(part));
    box->setChecked(true);
    connect(box, &QCheckBox::toggled, this, [tell, box](bool ticked) { tell([&] { box->setChecked(!ticked); }); });
    parts_.push_back(box);
    shown->addWidget(box, place / abreast, place % abreast);
    ++place;
  }
  paper_->addItems({tr("A4"), tr("Letter")});
  paper_->setAccessibleName(tr("Paper"));
  connect(paper_, &QComboBox::currentIndexChanged, this,
          [this, tell](int chosen) { tell([&] { paper_->setCurrentIndex(1 - chosen); }); });
  shown->addWidget(paper_, place / abreast, place % abreast, Qt::AlignLeft);
  shown->setColumnStretch(abreast, 1);
  return holder;
}

TextField* DraftFields::line(const QString& label, std::optional<std::string> issue::NewDraft::*member) {
  auto* field = new TextField(label);
  field->on_commit([this, member](const std::optional<std::string>& text) {
    wish_.*member = text;
    return write();
  });
  lines_.emplace_back(field, [this, member] { return wish_.*member; });
  return field;
}

TextField* DraftFields::price_line(const QString& label, std::optional<std::string> issue::Price::*member) {
  auto* field = new TextField(label);
  field->on_commit([this, member, field](const std::optional<std::string>& text) -> Result<void> {
    const issue::Price before = wish_.price;
    wish_.price.*member = text;
    std::optional<std::string>& figure = wish_.price.*member;
    const bool number = member == &issue::Price::gold || member == &issue::Price::silver;
    if (figure && number) std::replace(figure->begin(), figure->end(), ',', '.');
    const auto fit = issue::check_price(wish_.price);
    if (!fit.ok() && fit.error().code != ErrorCode::inconsistent) {
      wish_.price = before;
      return fit;
    }
    if (!fit.ok()) field->show_note(tr("It is printed once the unit and the day stand there too."));
    return write();
  });
  lines_.emplace_back(field, [this, member] { return wish_.price.*member; });
  return field;
}

void DraftFields::show_client(ClientId client) {
  const auto settings = lab::settings(session_.connection);
  const auto held = lab::client(session_.connection, client);
  if (!settings.ok() || !held.ok()) return;
  const auto& usual = wording::name_of(lab::language_for(*settings, *held, std::nullopt));
  language_->set_hint(tr("None chosen: %1, as set for the client or the lab.").arg(to_qt(usual.name)));
}

issue::NewDraft DraftFields::wish() const {
  issue::NewDraft wish = wish_;
  if (!is_whole(wish.price)) wish.price = {};
  wish.letter = paper_->currentIndex() == 1;
  for (std::size_t i = 0; i < parts_.size(); ++i)
    if (!parts_[i]->isChecked()) wish.hidden.emplace_back(issue::parts()[i]);
  return wish;
}

void DraftFields::show_draft(const issue::Summary& draft) {
  const QScopedValueRollback<bool> filling(filling_, true);
  wish_.price = draft.price;
  wish_.language = draft.language;
  wish_.title = draft.title;
  wish_.remarks = draft.remarks;
  paper_->setCurrentIndex(draft.letter ? 1 : 0);
  for (std::size_t i = 0; i < parts_.size(); ++i)
    parts_[i]->setChecked(std::find(draft.hidden.begin(), draft.hidden.end(), issue::parts()[i]) == draft.hidden.end());
  fill();
}

void DraftFields::leave_draft() {
  wish_.title = wish_.remarks = std::nullopt;
  fill();
}

void DraftFields::fill() {
  for (const auto& [field, value] : lines_) field->set_value(value());
  language_->set_value(wish_.language);
}

Result<void> DraftFields::write() {
  const auto written = write_ ? write_() : Result<void>();
  if (written.ok()) emit changed();
  return written;
}

void DraftFields::set_read_only(bool read_only) {
  for (const auto& [field, value] : lines_) field->set_read_only(read_only);
  language_->set_read_only(read_only);
}

}  // namespace prillbook::ui
