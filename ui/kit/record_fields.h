// SPDX-License-Identifier: GPL-3.0-or-later
// The fields of one record, each bound to the field of the catalogue that it shows, so that a form names what it shows
// and nothing else. The same fields show one record after another.
//
//   RecordFields fields(session, Entity::client, this);
//   form->row({fields.text(tr("Name"), client::name), fields.text(tr("Contact"), client::contact)});
//   fields.show(id);
#pragma once

#include <QtCore/QObject>
#include <functional>
#include <map>
#include <vector>

#include "core/history/catalogue.h"
#include "core/history/record.h"
#include "ui/kit/figure_entry.h"
#include "ui/kit/session.h"

namespace prillbook::ui {

class RecordFields : public QObject {
  Q_OBJECT
 public:
  using Why = std::optional<std::string>;
  using Enter = std::function<Result<void>(RecordId, const history::Value&, const Why&)>;

  RecordFields(Session& session, history::Entity entity, QObject* parent);

  TextField* text(const QString& label, const history::Field& field);
  // All choices of the catalogue but those of `left_out`.
  ChoiceField* choice(const QString& label, const history::Field& field, const std::vector<std::string>& left_out = {});
  FigureEntry* figure(const QString& label, const history::Field& field, const std::string& unit, bool zero_allowed = true);
  WholeField* whole(const QString& label, const history::Field& field);
  DateTimeField* time(const QString& label, const history::Field& field);
  FlagField* flag(const QString& label, const QString& words, const history::Field& field);
  PickField* pick(const QString& label, const history::Field& field);

  // The command that writes this field, where it is another than readings::enter. Figures only: their reading comes whole.
  using EnterFigure = std::function<Result<void>(RecordId, const std::optional<readings::Reading>&, const Why&)>;
  void write_by(const history::Field& field, Enter enter) { enters_[field.code] = std::move(enter); }
  void write_by(const history::Field& field, EnterFigure enter) { figures_[field.code] = std::move(enter); }

  RecordId record() const { return record_; }
  // Leaves the record before (typed text is written, or stays as a draft) and shows this one; 0: empty fields.
  void show(RecordId record);
  // The record that the field being written has just made: nothing is left.
  void adopt(RecordId record);
  // Reads the record again; text being typed is left alone.
  void refresh();
  const std::vector<Field*>& all() const { return all_; }

 private:
  struct Bound {
    Field* field;
    const history::Field* column;
    std::function<void(const history::Record*)> show;  // nullptr: nothing
  };
  void bind(Field* field, const history::Field& column, std::function<void(const history::Record*)> show);
  Result<void> write(const history::Field& field, const history::Value& value, const Why& why = {});
  void keep_drafts();

  Session& session_;
  history::Entity entity_;
  RecordId record_ = 0;
  std::vector<Bound> bound_;
  std::vector<Field*> all_;
  std::map<std::int64_t, Enter> enters_;
  std::map<std::int64_t, EnterFigure> figures_;
};

// False for a record that is struck out or was never there.
bool stands(Session& session, history::Entity entity, RecordId record);

// The word of a choice of the catalogue in the language of the window.
QString choice_word(std::string_view choice);

}  // namespace prillbook::ui
