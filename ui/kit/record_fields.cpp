// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/record_fields.h"

#include <QtCore/QCoreApplication>
#include <algorithm>

#include "core/readings/entry.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {

using history::Record;

QString choice_word(std::string_view choice) {
  // Series of sieves by the names that stand on their rims.
  if (choice == "astm_e11") return QStringLiteral("ASTM");
  if (choice == "iso_3310_1") return QStringLiteral("ISO");
  if (choice == "tyler") return QStringLiteral("Tyler");
  QString word = QCoreApplication::translate("Choices", std::string(choice).c_str());
  return word.replace(QLatin1Char('_'), QLatin1Char(' '));
}

bool stands(Session& session, history::Entity entity, RecordId record) {
  const auto held = history::load_record(session.connection, entity, record);
  return held.ok() && !held->struck();
}

RecordFields::RecordFields(Session& session, history::Entity entity, QObject* parent)
    : QObject(parent), session_(session), entity_(entity) {}

void RecordFields::bind(Field* field, const history::Field& column, std::function<void(const Record*)> show) {
  if (session_.read_only()) field->set_read_only(true);
  bound_.push_back({field, &column, std::move(show)});
  all_.push_back(field);
}

TextField* RecordFields::text(const QString& label, const history::Field& field) {
  auto* made = new TextField(label);
  made->on_commit([this, &field](const auto& text) { return write(field, readings::cell_of(text)); });
  bind(made, field, [made, &field](const Record* r) { made->set_value(r ? r->optional_text(field) : std::nullopt); });
  return made;
}

ChoiceField* RecordFields::choice(const QString& label, const history::Field& field, const std::vector<std::string>& left_out) {
  std::vector<ChoiceField::Choice> choices;
  for (const std::string_view value : field.choices)
    if (std::find(left_out.begin(), left_out.end(), value) == left_out.end())
      choices.push_back({std::string(value), choice_word(value)});
  auto* made = new ChoiceField(label, std::move(choices));
  made->on_commit([this, &field](const auto& value) { return write(field, readings::cell_of(value)); });
  bind(made, field, [made, &field](const Record* r) { made->set_value(r ? r->optional_text(field) : std::nullopt); });
  return made;
}

FigureEntry* RecordFields::figure(const QString& label, const history::Field& field, const std::string& unit, bool zero_allowed) {
  auto* made = new FigureEntry(label, {field.measure.value_or(Measure::mass), unit, session_.writing.mark, zero_allowed});
  made->on_commit([this, &field](const auto& reading, const Why& why) -> Result<void> {
    if (const auto own = figures_.find(field.code); own != figures_.end() && record_) return own->second(record_, reading, why);
    return write(field, readings::cell_of(reading), why);
  });
  bind(made->field(), field, [made, &field](const Record* r) {
    const auto value = r ? readings::figure_of(*r, field) : Result<readings::Figure>(readings::Figure{});
    made->set_value(value.ok() ? *value : std::nullopt);
    if (!value.ok()) made->field()->show_error(value.error());
  });
  return made;
}

WholeField* RecordFields::whole(const QString& label, const history::Field& field) {
  auto* made = new WholeField(label);
  made->on_commit([this, &field](std::optional<std::int64_t> value) { return write(field, readings::cell_of(value)); });
  bind(made, field, [made, &field](const Record* r) { made->set_value(r ? r->optional_whole(field) : std::nullopt); });
  return made;
}

DateTimeField* RecordFields::time(const QString& label, const history::Field& field) {
  auto* made = new DateTimeField(label, session_.journal.clock());
  made->on_commit([this, &field](std::optional<Instant> value) { return write(field, readings::cell_of(value)); });
  bind(made, field, [made, &field](const Record* r) {
    const auto cell = r ? r->optional_text(field) : std::nullopt;
    const auto when = cell ? parse_iso(*cell) : Result<Instant>(Instant{});
    made->set_value(cell && when.ok() ? std::optional(*when) : std::nullopt);
  });
  return made;
}

FlagField* RecordFields::flag(const QString& label, const QString& words, const history::Field& field) {
  auto* made = new FlagField(label, words);
  made->on_commit([this, &field](bool value) { return write(field, std::int64_t{value}); });
  bind(made, field, [made, &field](const Record* r) { made->set_value(r && r->whole(field) != 0); });
  return made;
}

PickField* RecordFields::pick(const QString& label, const history::Field& field) {
  auto* made = new PickField(label);
  made->on_commit([this, &field](std::optional<std::int64_t> id) { return write(field, readings::cell_of(id)); });
  bind(made, field, [made, &field](const Record* r) { made->set_value(r ? r->optional_whole(field) : std::nullopt); });
  return made;
}

Result<void> RecordFields::write(const history::Field& field, const history::Value& value, const Why& why) {
  if (const auto own = enters_.find(field.code); own != enters_.end()) return own->second(record_, value, why);
  if (!record_) return Error{ErrorCode::missing_key, std::string(field.column), "there is no record yet", {}};
  return readings::enter(session_.journal, field, record_, value, why);
}

void RecordFields::show(RecordId record) {
  if (record == record_) return refresh();
  for (Field* field : all_) field->commit();
  for (const Bound& bound : bound_) {
    if (auto* entry = qobject_cast<FigureEntry*>(bound.field->parentWidget())) {
      entry->why()->commit();
      entry->why()->leave_record();
    }
    bound.field->leave_record();
  }
  adopt(record);
}

void RecordFields::adopt(RecordId record) {
  record_ = record;
  refresh();
  keep_drafts();
}

void RecordFields::refresh() {
  if (!record_) {
    for (const Bound& bound : bound_) bound.show(nullptr);
    return;
  }
  const auto record = history::load_record(session_.connection, entity_, record_);
  if (!record.ok()) return;
  for (const Bound& bound : bound_) bound.show(&*record);
}

void RecordFields::keep_drafts() {
  if (!record_) return;
  const QString table = to_qt(history::spec_of(entity_).table);
  for (const Bound& bound : bound_)
    bound.field->keep_drafts(session_.drafts,
                             QStringLiteral("%1/%2/%3").arg(table).arg(record_).arg(to_qt(bound.column->column)));
}

}  // namespace prillbook::ui
