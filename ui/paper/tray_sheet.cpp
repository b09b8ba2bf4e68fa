// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/tray_sheet.h"

#include <QtCore/QCoreApplication>
#include <algorithm>
#include <cmath>

#include "ui/paper/ruled_sheet.h"

namespace prillbook::paper {
namespace {

QString tray_tr(const char* words) { return QCoreApplication::translate("TraySheet", words); }

constexpr double tray_margin = 480, between_columns = 160;
constexpr std::int64_t most_lines_of_all = 60;

struct WriteIn {
  const char* label;
  double share;
};

std::vector<WriteIn> write_ins(trays::Kind kind) {
  switch (kind) {
    case trays::Kind::crucible: return {{"Pot", 0.8}, {"Slag", 1.6}, {"Button, g", 1}};
    case trays::Kind::mould: return {{"Button, g", 1}, {"Prills or matte", 1.6}};
    case trays::Kind::cupel: return {{"Lead added, g", 1}, {"Seen", 1.6}};
    case trays::Kind::bead: return {{"Bead, mg", 1}, {"Weigh again, mg", 1}, {"Remarks", 1.2}};
  }
  return {};
}

const char* heading_of(trays::Kind kind) {
  switch (kind) {
    case trays::Kind::crucible: return "Crucibles";
    case trays::Kind::mould: return "Moulds";
    case trays::Kind::cupel: return "Cupels";
    case trays::Kind::bead: return "Beads";
  }
  return "";
}

class TraySheetPainter {
 public:
  TraySheetPainter(const TraySheet& sheet, QSizeF page)
      : sheet_(sheet), area_(tray_margin, tray_margin, page.width() - 2 * tray_margin, page.height() - 2 * tray_margin) {}

  Sheet run() {
    double y = title();
    y = grid(y + 120);
    table(y + 160);
    return ruled_.take();
  }

 private:
  const TraySheetPlace* at(std::int64_t position) const {
    for (const TraySheetPlace& one : sheet_.places)
      if (one.position == position) return &one;
    return nullptr;
  }

  double title() {
    ruled_.put_text(text_of(sheet_.name), Size::large, true, {area_.left(), area_.top(), area_.width() * 0.72, 220}, ink::text);
    ruled_.put_text(tray_tr(heading_of(sheet_.kind)), Size::large, false,
                    {area_.left() + area_.width() * 0.74, area_.top(), area_.width() * 0.26, 220}, ink::quiet, Qt::AlignRight);
    QStringList words{tray_tr("%1 of %2 positions taken").arg(sheet_.places.size()).arg(sheet_.grid.size())};
    if (!sheet_.laid_out.empty()) words << tray_tr("laid out %1").arg(text_of(sheet_.laid_out));
    if (!sheet_.run.empty()) words << tray_tr("run: %1").arg(text_of(sheet_.run));
    ruled_.put_text(words.join(QStringLiteral(" · ")), Size::small, false,
                    {area_.left(), area_.top() + 230, area_.width() * 0.74, 130}, ink::quiet);
    ruled_.put_text(tray_tr("By ________  Date ____________"), Size::small, false,
                    {area_.left() + area_.width() * 0.74, area_.top() + 230, area_.width() * 0.26, 130}, ink::quiet,
                    Qt::AlignRight);
    ruled_.line(area_.left(), area_.top() + 380, area_.right(), area_.top() + 380, ink::text, 10);
    return area_.top() + 380;
  }

  // The tray from above. A numbered row is broken into lines that can be read; a large grid shows its numbers alone.
  double grid(double top) {
    constexpr double a_cell = 640, most_height = 0.34, flattest = 0.62;
    const std::int64_t columns = sheet_.grid.rows > 1
                                     ? sheet_.grid.columns
                                     : std::min<std::int64_t>(sheet_.grid.columns, std::int64_t(area_.width() / a_cell));
    const std::int64_t lines = (sheet_.grid.size() + columns - 1) / columns;
    const double wide = std::min(a_cell * 1.3, area_.width() / double(columns));
    const double high = std::min(wide * flattest, area_.height() * most_height / double(lines));
    for (std::int64_t position = 1; position <= sheet_.grid.size(); ++position) {
      const QRectF cell(area_.left() + double((position - 1) % columns) * wide, top + double((position - 1) / columns) * high,
                        wide, high);
      put_cell(cell, position);
    }
    return top + double(lines) * high;
  }

  void put_cell(const QRectF& cell, std::int64_t position) {
    constexpr double readable_width = 190, readable_height = 230, padding = 25;
    const TraySheetPlace* place = at(position);
    ruled_.put([cell, taken = place != nullptr](QPainter& painter) {
      painter.setPen(QPen(ink::quiet, 5));
      painter.setBrush(taken ? QBrush(ink::gap) : QBrush(Qt::NoBrush));
      painter.drawRect(cell);
    });
    if (cell.width() < readable_width || cell.height() < 110) return;
    const QRectF inside = cell.adjusted(padding, padding / 2, -padding, 0);
    ruled_.put_text(QString::number(position), Size::small, true, inside, ink::text);
    if (!place || cell.height() < readable_height) return;
    ruled_.put_text(text_of(place->label), Size::small, false, inside.adjusted(0, 120, 0, 0), ink::text);
  }

  std::vector<TraySheetPlace> lines_of_table() const {
    if (sheet_.grid.size() > most_lines_of_all) return sheet_.places;
    std::vector<TraySheetPlace> all;
    for (std::int64_t position = 1; position <= sheet_.grid.size(); ++position) {
      const TraySheetPlace* place = at(position);
      all.push_back(place ? *place : TraySheetPlace{position, {}, {}, {}});
    }
    return all;
  }

  // In as many columns as it takes to end on this page.
  void table(double top) {
    constexpr double least_row = 105, best_row = 290, head = 170;
    const std::vector<TraySheetPlace> list = lines_of_table();
    if (list.empty()) return;
    const double room = area_.bottom() - top - head;
    const std::size_t most = std::size_t(std::max(1.0, std::floor(room / least_row)));
    std::size_t columns = 1;
    while (columns * std::size_t(room / 200) < list.size() && columns * most < list.size()) ++columns;
    if (list.size() > std::size_t(room / 200) && columns == 1) columns = 2;
    const std::size_t per_column = (list.size() + columns - 1) / columns;
    const double row = std::min(best_row, room / double(per_column));
    const double wide = (area_.width() - between_columns * double(columns - 1)) / double(columns);
    for (std::size_t column = 0; column < columns; ++column) {
      const std::size_t from = column * per_column;
      if (from >= list.size()) break;
      put_column(area_.left() + double(column) * (wide + between_columns), top, wide, row,
                 {list.data() + from, std::min(per_column, list.size() - from)}, columns == 1);
    }
  }

  void put_column(double x, double top, double wide, double row, std::span<const TraySheetPlace> list, bool with_mark) {
    constexpr double head = 170, padding = 20;
    std::vector<WriteIn> parts{{"", 0.4}, {"Portion or control", 1.5}};
    if (with_mark) parts.push_back({"Mark", 2});
    if (with_mark) parts.push_back({"Mass", 0.8});
    for (const WriteIn& one : write_ins(sheet_.kind)) parts.push_back(one);
    double shares = 0;
    for (const WriteIn& one : parts) shares += one.share;
    std::vector<double> edges{x};
    for (const WriteIn& one : parts) edges.push_back(edges.back() + one.share * wide / shares);
    for (std::size_t i = 0; i < parts.size(); ++i)
      ruled_.put_text(tray_tr(parts[i].label), Size::small, true,
                      {edges[i] + padding, top, edges[i + 1] - edges[i] - padding, 130}, ink::text);
    const double first = top + head, bottom = first + row * double(list.size());
    for (std::size_t i = 0; i <= list.size(); ++i)
      ruled_.line(x, first + double(i) * row, x + wide, first + double(i) * row, i ? ink::rule : ink::text, i ? 4 : 8);
    for (std::size_t i = 1; i + 1 < edges.size(); ++i) ruled_.line(edges[i], top, edges[i], bottom, ink::rule, 4);
    for (std::size_t i = 0; i < list.size(); ++i) put_line(list[i], edges, first + double(i) * row, row, with_mark);
  }

  void put_line(const TraySheetPlace& place, const std::vector<double>& edges, double top, double row, bool with_mark) {
    constexpr double padding = 20, a_text = 120;
    const double y = top + std::max(0.0, (row - a_text) / 2);
    const auto put = [&](std::size_t column, const QString& text, bool bold) {
      ruled_.put_text(text, Size::small, bold, {edges[column] + padding, y, edges[column + 1] - edges[column] - padding, a_text},
                      ink::text);
    };
    put(0, QString::number(place.position), true);
    put(1, text_of(place.label), false);
    if (!with_mark) return;
    put(2, text_of(place.mark), false);
    put(3, text_of(place.mass), false);
  }

  const TraySheet& sheet_;
  QRectF area_;
  RuledSheet ruled_;
};

}  // namespace

Pages tray_pages(const TraySheet& sheet, PaperSize size) {
  Pages pages;
  pages.size = size;
  pages.title = text_of(sheet.name);
  pages.sheets.push_back(TraySheetPainter(sheet, pages.page()).run());
  return pages;
}

}  // namespace prillbook::paper
