// SPDX-License-Identifier: GPL-3.0-or-later
// A table of records, each cell a field. The empty row at its foot makes a record as soon as its first cell is
// written; the next cell then belongs to it. However many records there are, one page of them stands in fields.
#pragma once

#include <QtWidgets/QWidget>
#include <functional>
#include <memory>
#include <vector>

#include "ui/kit/fields.h"
#include "ui/kit/record_fields.h"

class QGridLayout;

namespace prillbook::ui {

class PageLine;

struct TableColumn {
  const history::Field& field;
  QString label;
  std::string unit;  // figures
  int stretch = 1;
  std::function<std::vector<PickField::Item>()> items = {};  // references: what there is to choose from
};

class RecordTable : public QWidget {
  Q_OBJECT
 public:
  using Make = std::function<Result<RecordId>(const std::string& first)>;

  // The first column is a text that a record cannot be without. `add_words` stand in the empty row.
  RecordTable(Session& session, history::Entity entity, std::vector<TableColumn> columns, Make make, const QString& add_words,
              QWidget* parent = nullptr);
  ~RecordTable() override;
  // Renames a record by its first cell where more than the one field changes with it.
  using Rename = std::function<Result<void>(RecordId, const std::string& first, const RecordFields::Why& why)>;
  void rename_by(Rename rename) { rename_ = std::move(rename); }
  // The command behind a column of words to choose from, where it is another than readings::enter.
  using Choose = std::function<Result<void>(RecordId, const std::optional<std::string>& word)>;
  void choose_by(Choose choose) { choose_ = std::move(choose); }
  void refresh();
  int count() const { return int(all_.size()); }
  bool take(RecordId id);  // puts the focus into its row; turns to its page; false: not here
  void enter();            // puts the focus into the empty row

 signals:
  void made(prillbook::RecordId id);

 private:
  struct Row;
  struct Named {
    RecordId id = 0;
    QString name;
  };
  Row* add_row(RecordId id);
  QWidget* cell(Row& row, const TableColumn& column);
  bool read_names();
  std::vector<RecordId> page();
  void turn();
  void fill();
  void drop_rows_not_shown();
  void arrange();
  void place(Row& row, int line);
  Result<void> write_first(Row& row, const history::Value& value, const RecordFields::Why& why);
  Row* row_of(RecordId id) const;

  Session& session_;
  history::Entity entity_;
  std::vector<TableColumn> columns_;
  Make make_;
  Rename rename_;
  Choose choose_;
  QString add_words_;
  PageLine* page_line_;
  QGridLayout* grid_;
  std::vector<Named> all_;                  // every record by its first cell
  std::vector<RecordId> shown_;             // stay in sight until the page is turned
  std::vector<std::unique_ptr<Row>> rows_;  // of those shown, and the foot
  Row* foot_ = nullptr;
  bool busy_ = false;  // writing or turning: what is told of it meanwhile is read at the end
};

}  // namespace prillbook::ui
