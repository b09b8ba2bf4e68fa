// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/lab_page.h"

#include <QtWidgets/QGridLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr std::string_view decimal_mark = "decimal_mark";

bool is_limit(std::string_view name) {
  return !name.starts_with("lab.") && name != decimal_mark && !name.ends_with("number_pattern");
}

QLabel* line(const QString& words, TextSize size, const char* tone) {
  auto* label = new QLabel(words);
  label->setFont(face(size));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

// The unit stands at the end of the meaning: ", %".
std::pair<QString, QString> meaning_and_unit(std::string_view meaning) {
  const QString words = to_qt(meaning);
  const qsizetype comma = words.lastIndexOf(QStringLiteral(", "));
  if (comma < 0 || words.size() - comma > 8) return {words, {}};
  return {words.left(comma), words.mid(comma + 2)};
}

}  // namespace

SettingField::SettingField(Session& session, const std::string& name, const QString& label) : TextField(label), name_(name) {
  const bool number = is_limit(name);
  if (session.read_only()) set_read_only(true);
  if (number) set_width_in_digits(10);
  on_commit([&session, name, number](const std::optional<std::string>& text) {
    std::string value = text.value_or(std::string());
    if (number) std::replace(value.begin(), value.end(), ',', '.');
    return lab::set_setting(session.journal, name, value);
  });
}

void SettingField::refresh(const lab::Settings& settings) { set_value(lab::setting_text(settings, name_)); }

LabPage::LabPage(Session& session, Shows shows, QWidget* parent) : QWidget(parent), session_(session) {
  shows == Shows::lab ? build_lab() : build_limits();
  refresh();
}

void LabPage::build_lab() {
  auto* form = new Form(2);
  const auto field = [this](const std::string& name, const QString& label, const QString& hint = {}) {
    auto* made = new SettingField(session_, name, label);
    made->set_hint(hint);
    fields_.push_back(made);
    return made;
  };
  form->row(
      {field("lab.name", tr("Name of the lab"), tr("As summaries print it.")), field("lab.contact", tr("Telephone or e-mail"))});
  form->row({field("lab.address", tr("Address"))});
  form->heading(tr("How numbers are written"));
  mark_ = new ChoiceField(tr("Decimal mark"), {{".", tr("point 0.022")}, {",", tr("comma 0,022")}});
  mark_->set_required(true);
  mark_->set_hint(tr("Both are understood when typed; this one is written."));
  mark_->set_read_only(session_.read_only());
  mark_->on_commit([this](const std::optional<std::string>& mark) {
    return lab::set_setting(session_.journal, decimal_mark, mark.value_or(std::string()));
  });
  form->row({mark_});
  form->row({field("sample.number_pattern", tr("Pattern of lab numbers"), tr("{yy} is the year, {nnnn} the running number.")),
             field("consignment.number_pattern", tr("Pattern of consignment numbers"), tr("Numbers given already stay."))});
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(form);
}

void LabPage::build_limits() {
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(rhythm);
  grid->setVerticalSpacing(0);
  grid->setColumnStretch(0, 1);
  int row = 0;
  for (const lab::SettingSpec& spec : lab::setting_specs()) {
    if (!is_limit(spec.name)) continue;
    const auto [meaning, unit] = meaning_and_unit(spec.meaning);
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    QString sentence = meaning;
    if (!sentence.isEmpty()) sentence[0] = sentence[0].toUpper();
    words->addWidget(line(sentence, TextSize::body, ""));
    words->addWidget(line(tr("Where the default comes from: %1").arg(to_qt(spec.origin)), TextSize::small, "quiet"));
    words->setContentsMargins(0, rhythm, 0, rhythm);
    grid->addLayout(words, row, 0);
    auto* field = new SettingField(session_, std::string(spec.name), sentence);
    field->set_in_row(true);
    field->line()->setAlignment(Qt::AlignRight);
    fields_.push_back(field);
    auto* holder = new QVBoxLayout;
    holder->setContentsMargins(0, rhythm, 0, 0);
    holder->addWidget(field);
    holder->addStretch();
    grid->addLayout(holder, row, 1);
    auto* unit_line = line(unit, TextSize::body, "quiet");
    unit_line->setFont(face(TextSize::body, Weight::light));
    unit_line->setWordWrap(false);
    unit_line->setContentsMargins(0, rhythm + 4, 0, 0);
    grid->addWidget(unit_line, row++, 2, Qt::AlignTop);
    grid->addWidget(hairline(), row++, 0, 1, 3);
  }
  grid->setColumnMinimumWidth(1, 14 * rhythm);
  grid->setColumnMinimumWidth(2, 5 * rhythm);
  grid->setColumnMinimumWidth(0, 40 * rhythm);
}

void LabPage::refresh() {
  const auto settings = lab::settings(session_.connection);
  if (!settings.ok()) return;
  for (SettingField* field : fields_) field->refresh(*settings);
  if (mark_) mark_->set_value(lab::setting_text(*settings, decimal_mark));
}

}  // namespace prillbook::ui
