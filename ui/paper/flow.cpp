// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/flow.h"

#include <QtGui/QPageSize>
#include <algorithm>

namespace prillbook::paper {

namespace {

bool is_unit(QStringView word) {
  static const QStringList units{u"%"_qs,   u"‰"_qs,  u"g/t"_qs, u"t"_qs,         u"kg"_qs,     u"g"_qs,  u"mg"_qs,
                                 u"µm"_qs,  u"mm"_qs, u"cm"_qs,  u"ml"_qs,        u"lb"_qs,     u"oz"_qs, u"troy"_qs,
                                 u"ozt"_qs, u"°C"_qs, u"in"_qs,  u"ozt/short"_qs, u"ozt/ton"_qs};
  // A currency by its code (ISO 4217).
  const bool currency = word.size() == 3 && std::all_of(word.begin(), word.end(), [](QChar c) { return c.isUpper(); });
  return currency || units.contains(word);
}

// Words that stay on one line: a figure and its unit, a value and its half width.
bool bonded(QStringView before, QStringView after) {
  while (!after.isEmpty() && QStringView(u".,;:)").contains(after.back())) after.chop(1);
  static const QList<std::pair<QStringView, QStringView>> pairs{
      {u"troy", u"oz"}, {u"oz", u"troy"}, {u"ozt/short", u"ton"}, {u"ozt/ton", u"corta"}, {u"short", u"ton"}};
  if (before == u"±" || after == u"±" || before == u"<" || pairs.contains(std::pair(before, after))) return true;
  return !before.isEmpty() && before.back().isDigit() && is_unit(after);
}

// Where a line that was to end at `end` should end instead.
qsizetype end_between_figures(QStringView text, qsizetype start, qsizetype end) {
  qsizetype at = end;
  // A break inside a short word ("g/" and "t") goes before it.
  const qsizetype word = text.left(at).lastIndexOf(u' ') + 1;
  if (word > start && at - word < 20 && !text[at - 1].isSpace()) at = end = word;
  for (int moves = 0; moves < 5; ++moves) {
    const QStringView before = text.mid(start, at - start).trimmed(), after = text.mid(at).trimmed();
    const qsizetype blank = before.lastIndexOf(u' '), next = after.indexOf(u' ');
    if (!bonded(before.mid(blank + 1), next < 0 ? after : after.left(next))) return at;
    if (blank < 0) return end;
    at = start + blank + 1;
  }
  return end;
}

}  // namespace

QString text_of(const std::string& text) {
  QString result = QString::fromStdString(text);
  for (QChar& c : result)
    if (c.category() == QChar::Other_Control || c == QChar::LineSeparator || c == QChar::ParagraphSeparator) c = u' ';
  return result;
}

QSizeF page_size(PaperSize size) {
  const QPageSize page(size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter);
  return page.size(QPageSize::Point) * 10;
}

Lines::Lines(const QString& text, const QFont& font, double width, double line_height, Side side, Qt::LayoutDirection direction)
    : layout_(std::make_shared<QTextLayout>(text, font)), line_height_(line_height) {
  QTextOption option(side == Side::left    ? Qt::AlignLeft | Qt::AlignAbsolute
                     : side == Side::right ? Qt::AlignRight | Qt::AlignAbsolute
                                           : Qt::AlignHCenter);
  option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
  option.setTextDirection(direction);
  option.setUseDesignMetrics(true);
  layout_->setTextOption(option);
  layout_->setCacheEnabled(true);
  layout_->beginLayout();
  double y = 0;
  for (QTextLine line = layout_->createLine(); line.isValid(); line = layout_->createLine()) {
    line.setLineWidth(width);
    const qsizetype start = line.textStart(), end = start + line.textLength();
    const qsizetype better = end < text.size() ? end_between_figures(text, start, end) : end;
    if (better < end) line.setNumColumns(int(better - start), width);
    line.setPosition({0, y});
    y += line_height_;
  }
  layout_->endLayout();
}

double Lines::natural_width() const {
  double widest = 0;
  for (int i = 0; i < count(); ++i) widest = std::max(widest, layout_->lineAt(i).naturalTextWidth());
  return widest;
}

QString Lines::words(int index) const {
  const QTextLine line = layout_->lineAt(index);
  return layout_->text().mid(line.textStart(), line.textLength());
}

Stroke Lines::line(int index, double x, double y, const QColor& colour) const {
  return [layout = layout_, index, x, y, colour](QPainter& painter) {
    painter.setPen(colour);
    const QTextLine line = layout->lineAt(index);
    line.draw(&painter, {x, y - line.y()});
  };
}

Stroke Lines::all(double x, double y, const QColor& colour) const {
  return [layout = layout_, x, y, colour](QPainter& painter) {
    painter.setPen(colour);
    for (int i = 0; i < layout->lineCount(); ++i) layout->lineAt(i).draw(&painter, {x, y});
  };
}

Flow::Flow(const Paper& paper, double first_top) : faces_(paper), y_(first_top), sheets_(1) {
  const QSizeF page = page_size(paper.size);
  area_ = QRectF(QPointF(side_margin, top_margin + running_head),
                 QPointF(page.width() - side_margin, page.height() - foot_margin - 200));
}

bool Flow::need(double height) {
  if (y_ + height <= area_.bottom() || sheets_.back().empty()) return false;
  begin_page();
  return true;
}

void Flow::begin_page() {
  if (sheets_.back().empty()) return;
  sheets_.emplace_back();
  y_ = area_.top();
}

void Flow::back_to(const Mark& mark) {
  sheets_.resize(mark.pages);
  sheets_.back().resize(mark.strokes);
  bookmarks_.resize(mark.bookmarks);
  y_ = mark.y;
}

bool Flow::ended_at(const Mark& mark) const {
  return sheets_.size() > mark.pages && sheets_[mark.pages - 1].size() == mark.strokes;
}

void Flow::space(double height) {
  if (sheets_.back().empty()) return;
  y_ += height;
}

void Flow::text(const Lines& lines, double x, const QColor& colour) {
  const double height = lines.count() > 0 ? lines.height() / lines.count() : 0;
  if (lines.count() > 1) need(2 * height);
  for (int i = 0; i < lines.count(); ++i) {
    need(height);
    put(lines.line(i, x, y_, colour));
    advance(height);
  }
}

void Flow::rule(double from, double to, const QColor& colour, double thickness) {
  put([=, y = y_](QPainter& painter) {
    painter.setPen(QPen(colour, thickness));
    painter.drawLine(QPointF(from, y), QPointF(to, y));
  });
}

}  // namespace prillbook::paper
