// SPDX-License-Identifier: GPL-3.0-or-later
// A table with its figures aligned on the decimal mark, each with its unit behind it; the header stands again on every page.
#include <QtGui/QFontMetricsF>
#include <algorithm>

#include "ui/paper/blocks.h"

namespace prillbook::paper {
namespace {

using summary::Cell;
using summary::Figure;
using summary::Table;
using summary::TableRow;

constexpr double column_gap = 110, cell_padding = 38, least_text_column = 700;

QString unit_of(const Figure& figure) {
  return figure.value || figure.hi ? QStringLiteral("\u2009") + text_of(figure.unit) : QString();
}

// Characters before the decimal mark, or before what follows a whole number.
qsizetype before_mark(const QString& written) {
  qsizetype i = 0;
  while (i < written.size() && !written[i].isDigit()) ++i;
  while (i < written.size() && written[i].isDigit()) ++i;
  return i;
}

struct ColumnWidth {
  std::vector<double> left;  // of the decimal mark, for the first, second … figure of a cell
  double figures = 0;        // the widest figure with its unit
  double text = 0;           // the widest text
  double width = 0;
  double x = 0;
};

class TableLayout {
 public:
  TableLayout(Flow& flow, const Table& table)
      : flow_(flow), table_(table), plain_(flow.faces().face(Size::small)), bold_(flow.faces().face(Size::small, true)) {
    columns_.resize(table.columns.size());
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      measure(i);
      measure_figures(i);
    }
    share_out();
  }

  void run() {
    if (table_.rows.empty()) return;
    flow_.need(header_height() + height_from(0));
    header();
    for (std::size_t i = 0; i < table_.rows.size(); ++i) {
      if (flow_.need(height_from(i))) header();
      put(table_.rows[i]);
    }
    flow_.rule(flow_.left(), flow_.right(), ink::quiet, 6);
  }

 private:
  void measure(std::size_t i) {
    ColumnWidth& column = columns_[i];
    const QFontMetricsF bold(bold_);
    column.text = bold.horizontalAdvance(text_of(table_.columns[i].title));
    for (const TableRow& row : table_.rows) {
      if (i >= row.cells.size()) continue;
      if (const auto* text = std::get_if<std::string>(&row.cells[i]))
        column.text = std::max(column.text, bold.horizontalAdvance(text_of(*text)) + 1);
      else
        measure(column, std::get<std::vector<Figure>>(row.cells[i]), bold);
    }
  }

  static double before(const Figure& figure, const QFontMetricsF& metrics) {
    const QString written = text_of(figure.written);
    return metrics.horizontalAdvance(written.left(before_mark(written)));
  }

  static void measure(ColumnWidth& column, const std::vector<Figure>& figures, const QFontMetricsF& metrics) {
    if (column.left.size() < figures.size()) column.left.resize(figures.size());
    for (std::size_t k = 0; k < figures.size(); ++k) column.left[k] = std::max(column.left[k], before(figures[k], metrics));
  }

  // Needs the marks of all rows.
  void measure_figures(std::size_t i) {
    const QFontMetricsF bold(bold_);
    for (const TableRow& row : table_.rows) {
      const auto* figures = i < row.cells.size() ? std::get_if<std::vector<Figure>>(&row.cells[i]) : nullptr;
      for (std::size_t k = 0; figures && k < figures->size(); ++k) {
        const Figure& figure = (*figures)[k];
        const double all = bold.horizontalAdvance(text_of(figure.written) + unit_of(figure));
        columns_[i].figures = std::max(columns_[i].figures, columns_[i].left[k] - before(figure, bold) + all);
      }
    }
  }

  // Figures take what they need; texts share what is left by what they would like, none below a least width.
  void share_out() {
    double room = flow_.width() - column_gap * double(columns_.size() - 1), wanted = 0, least = 0;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      ColumnWidth& column = columns_[i];
      if (table_.columns[i].figures) {
        column.width = std::max(column.figures, column.text);
        room -= column.width;
      } else {
        column.text = std::min(column.text, 4000.0);
        wanted += column.text;
        least += std::min(column.text, least_text_column);
      }
    }
    const double spare = std::max(0.0, room - least), over = std::max(1.0, wanted - least);
    double x = flow_.left();
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      ColumnWidth& column = columns_[i];
      if (!table_.columns[i].figures) {
        const double base = std::min(column.text, least_text_column);
        column.width = base + std::min(spare * (column.text - base) / over, column.text - base);
      }
      column.x = x;
      x += column.width + column_gap;
    }
    spread(x - column_gap);
  }

  // What is left over goes between the columns.
  void spread(double end) {
    const double extra = (flow_.right() - end) / double(std::max<std::size_t>(1, columns_.size() - 1));
    if (extra <= 0) return;
    for (std::size_t i = 1; i < columns_.size(); ++i) columns_[i].x += extra * double(i);
  }

  double height() const { return line_height(Size::small); }
  double header_height() const { return height() + 2 * cell_padding; }

  void header() {
    flow_.advance(cell_padding);
    for (std::size_t i = 0; i < columns_.size(); ++i)
      flow_.put(Lines(text_of(table_.columns[i].title), bold_, columns_[i].width + 1, height())
                    .all(columns_[i].x, flow_.y(), ink::quiet));
    flow_.advance(height() + cell_padding);
    flow_.rule(flow_.left(), flow_.right(), ink::quiet, 6);
  }

  Lines cell_lines(const std::string& text, std::size_t i, bool mean) const {
    return Lines(text_of(text), mean ? bold_ : plain_, columns_[i].width + 1, height(), Lines::Side::left,
                 Qt::LayoutDirectionAuto);
  }
  Lines note_lines(const TableRow& row) const {
    return Lines(text_of(row.note), plain_, flow_.width() - 2 * column_gap, height());
  }

  double cells_height(const TableRow& row) const {
    double highest = height();
    for (std::size_t i = 0; i < std::min(row.cells.size(), columns_.size()); ++i) {
      const auto* text = std::get_if<std::string>(&row.cells[i]);
      highest = std::max(highest, text ? cell_lines(*text, i, row.mean).height()
                                       : double(std::get<std::vector<Figure>>(row.cells[i]).size()) * height());
    }
    return highest;
  }
  // Of a row, and of the last one where that comes next: it never stands alone on a page.
  double height_from(std::size_t i) const {
    return row_height(table_.rows[i]) + (i + 2 == table_.rows.size() ? row_height(table_.rows[i + 1]) : 0);
  }
  double row_height(const TableRow& row) const {
    return cells_height(row) + 2 * cell_padding + (row.note.empty() ? 0 : note_lines(row).height());
  }

  void put(const TableRow& row) {
    const QColor colour = row.left_out ? ink::quiet : ink::text;
    flow_.advance(cell_padding);
    for (std::size_t i = 0; i < std::min(row.cells.size(), columns_.size()); ++i) {
      if (const auto* text = std::get_if<std::string>(&row.cells[i]))
        flow_.put(cell_lines(*text, i, row.mean).all(columns_[i].x, flow_.y(), colour));
      else
        put_figures(std::get<std::vector<Figure>>(row.cells[i]), columns_[i], row.mean, colour);
    }
    flow_.advance(cells_height(row));
    if (!row.note.empty()) {
      const Lines note = note_lines(row);
      flow_.put(note.all(flow_.left() + column_gap, flow_.y(), ink::quiet));
      flow_.advance(note.height());
    }
    flow_.advance(cell_padding);
    flow_.rule(flow_.left(), flow_.right(), ink::rule, 4);
  }

  void put_figures(const std::vector<Figure>& figures, const ColumnWidth& column, bool mean, const QColor& colour) {
    double y = flow_.y();
    const QFont& font = mean ? bold_ : plain_;
    const QFontMetricsF metrics(font);
    for (std::size_t k = 0; k < figures.size(); ++k) {
      const QString written = text_of(figures[k].written), unit = unit_of(figures[k]);
      const double x = column.x + column.left[k] - before(figures[k], metrics);
      flow_.put(Lines(written, font, 1e6, height()).all(x, y, colour));
      if (!unit.isEmpty())
        flow_.put(Lines(unit, plain_, 1e6, height()).all(x + metrics.horizontalAdvance(written), y, ink::quiet));
      y += height();
    }
  }

  Flow& flow_;
  const Table& table_;
  QFont plain_, bold_;
  std::vector<ColumnWidth> columns_;
};

}  // namespace

void lay_out_table(Flow& flow, const Table& table) { TableLayout(flow, table).run(); }

}  // namespace prillbook::paper
