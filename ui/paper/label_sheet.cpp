// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/label_sheet.h"

#include <QtGui/QFontMetricsF>
#include <QtGui/QTextLayout>
#include <algorithm>
#include <cmath>

#include "ui/paper/code_picture.h"

namespace prillbook::paper {
namespace {

using labels::Label;
using labels::LabelKind;

constexpr double per_mm = 720 / 25.4;
constexpr double inside = 2.5 * per_mm;  // from the edge of the label to the words
constexpr double largest_code = 26 * per_mm;
constexpr double least_type = 50;  // 5 pt: what can still be read at the bench

QRectF on_paper(const labels::Rectangle& mm) {
  return {mm.left * per_mm, mm.top * per_mm, mm.width * per_mm, mm.height * per_mm};
}

// A line before it has its place. `rank`: the higher goes first where there is no room.
struct Wanted {
  QString text;
  double size;  // type, tenths of a point
  bool bold = false;
  bool warns = false;
  bool shrinks = false;
  int rank = 0;
  int lines = 1;  // a mark may take two
};

QString joined(std::initializer_list<const std::string*> parts) {
  QStringList words;
  for (const std::string* part : parts)
    if (!part->empty()) words << text_of(*part);
  return words.join(QStringLiteral(" · "));
}

QString hazard_words(const Label& label) {
  QStringList words;
  for (const std::string& hazard : label.hazards) words << text_of(hazard).toUpper();
  if (label.kind == LabelKind::lead_waste) return QStringLiteral("LEAD WASTE");
  return QStringLiteral("HOLDS ") + words.join(QStringLiteral(", "));
}

QFont label_type(double size, bool bold) {
  QFont font = Faces(Paper{}).face(Size::small, bold);
  font.setPixelSize(int(std::lround(size)));
  return font;
}

// Closer than the typeface asks: what a borrowed one needs above its line, the white between the lines gives.
double height_of(const Wanted& line) { return line.lines * line.size * 1.25; }

bool fits(const Wanted& line, double width) {
  return QFontMetricsF(label_type(line.size, line.bold)).horizontalAdvance(line.text) <= width;
}

std::vector<Wanted> wanted_lines(const Label& label, double width, double height) {
  // Type grows with the label, from 10 mm to 40 mm of height.
  const double grow = std::clamp(height / (30 * per_mm), 0.5, 1.4);
  std::vector<Wanted> lines;
  const auto add = [&](const QString& text, Wanted wanted) {
    wanted.text = text;
    wanted.size = std::max(least_type, wanted.size * grow);
    if (!text.trimmed().isEmpty()) lines.push_back(std::move(wanted));
  };
  add(text_of(label.number), {{}, 170, true, false, true, 0});
  add(text_of(label.mark), {{}, 100, false, false, false, 2, 2});
  if (!label.hazards.empty()) add(hazard_words(label), {{}, 100, true, true, true, 0});
  const Wanted facts{joined({&label.what, &label.mass, &label.date}), std::max(least_type, 88 * grow), false, false, true, 1};
  if (fits(facts, width)) {
    lines.push_back(facts);
  } else {
    add(joined({&label.what, &label.mass}), {{}, 88, false, false, true, 1});
    add(text_of(label.date), {{}, 80, false, false, true, 1});
  }
  add(text_of(label.client), {{}, 75, false, false, false, 3});
  add(text_of(label.lab), {{}, 70, false, false, false, 5});
  add(text_of(label.code), {{}, 62, false, false, false, 4});
  return lines;
}

// Leaves out what has no room, the highest rank first; then all shrink alike.
void fit_height(std::vector<Wanted>& lines, double room) {
  const auto total = [&] {
    double sum = 0;
    for (const Wanted& line : lines) sum += height_of(line);
    return sum;
  };
  while (total() > room) {
    if (const auto two = std::find_if(lines.begin(), lines.end(), [](const Wanted& line) { return line.lines > 1; });
        two != lines.end() && std::none_of(lines.begin(), lines.end(), [](const Wanted& line) { return line.rank > 3; })) {
      two->lines = 1;
      continue;
    }
    const auto last = std::max_element(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.rank < b.rank; });
    if (last == lines.end() || last->rank == 0) break;
    lines.erase(last);
  }
  while (total() > room) {
    bool smaller = false;
    for (Wanted& line : lines)
      if (line.size > 24) {
        line.size -= 2;
        smaller = true;
      }
    if (!smaller) break;
  }
}

// How much of a text stands on its first line, whole words where there are any.
qsizetype first_line(const QString& text, const QFont& font, double width) {
  QTextLayout layout(text, font);
  QTextOption option;
  option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
  option.setUseDesignMetrics(true);
  layout.setTextOption(option);
  layout.beginLayout();
  QTextLine line = layout.createLine();
  if (line.isValid()) line.setLineWidth(width);
  const qsizetype length = line.isValid() ? line.textLength() : text.size();
  layout.endLayout();
  return length;
}

LabelLine placed(const Wanted& wanted, const QRectF& words, double y) {
  double size = wanted.size;
  QFont font = label_type(size, wanted.bold);
  while (wanted.shrinks && size > least_type && QFontMetricsF(font).horizontalAdvance(wanted.text) > words.width())
    font = label_type(size -= 2, wanted.bold);
  const QFontMetricsF metrics(font);
  const QString text = metrics.elidedText(wanted.text, Qt::ElideRight, words.width());
  return {text, font, QRectF(words.left(), y, words.width(), wanted.size * 1.25), wanted.warns};
}

void paint_line(QPainter& painter, const LabelLine& line) {
  painter.setFont(line.font);
  const QFontMetricsF metrics(line.font);
  if (line.warns) {
    const QRectF patch(line.area.left(), line.area.top(),
                       std::min(line.area.width(), metrics.horizontalAdvance(line.text) + metrics.height() * 0.4),
                       line.area.height());
    painter.fillRect(patch, Qt::black);
    painter.setPen(Qt::white);
    painter.drawText(patch, Qt::AlignCenter | Qt::TextSingleLine | Qt::TextDontClip, line.text);
    return;
  }
  painter.setPen(Qt::black);
  painter.drawText(line.area, Qt::AlignLeft | Qt::AlignAbsolute | Qt::AlignVCenter | Qt::TextSingleLine | Qt::TextDontClip,
                   line.text);
}

Result<Stroke> painted_label(const Label& label, const QRectF& area) {
  LabelPlan plan = plan_label(label, area);
  CodePicture code;
  if (!label.code.empty()) {
    PRILLBOOK_ASSIGN(code, code_picture(label.code));
  }
  return Stroke([plan = std::move(plan), code = std::move(code), area](QPainter& painter) {
    painter.save();
    painter.setClipRect(area);  // a borrowed typeface may reach above its line
    for (const LabelLine& line : plan.lines) paint_line(painter, line);
    if (code.side > 0) paint_code(painter, code, plan.code);
    painter.restore();
  });
}

}  // namespace

LabelPlan plan_label(const Label& label, const QRectF& area) {
  LabelPlan plan;
  // Words at the left edge keep clear of what a printer can not reach.
  QRectF words = area.adjusted(1.6 * inside, inside / 3, -inside, -inside / 3);
  if (!label.code.empty()) {
    const double side = std::min({area.height(), 0.4 * area.width(), largest_code});
    plan.code = QRectF(area.left(), area.center().y() - side / 2, side, side);
    words.setLeft(plan.code.right());  // the margin of the code stands between them
  }
  std::vector<Wanted> lines = wanted_lines(label, words.width(), area.height());
  for (Wanted& line : lines)
    if (fits(line, words.width())) line.lines = 1;
  fit_height(lines, words.height());
  double total = 0;
  for (const Wanted& line : lines) total += height_of(line);
  double y = words.top() + std::max(0.0, words.height() - total) / 2;
  for (Wanted& line : lines) {
    const double height = height_of(line) / line.lines;
    if (line.lines > 1) {
      Wanted beginning = line;
      const qsizetype length = first_line(line.text, label_type(line.size, line.bold), words.width());
      beginning.text = line.text.left(length).trimmed();
      line.text = line.text.mid(length).trimmed();
      plan.lines.push_back(placed(beginning, words, y));
      y += height;
    }
    plan.lines.push_back(placed(line, words, y));
    y += height;
  }
  return plan;
}

Result<Pages> label_pages(const std::vector<Label>& all, const labels::Layout& layout, int start) {
  if (all.empty()) return Error{ErrorCode::missing_key, "labels", "there is no label of this kind to print", {}};
  PRILLBOOK_ASSIGN(const auto where, labels::spots(layout, all.size(), start));
  Pages pages;
  pages.size = layout.paper == labels::SheetPaper::a4 ? PaperSize::a4 : PaperSize::letter;
  pages.title = QStringLiteral("Labels");
  pages.sheets.resize(std::size_t(where.back().sheet) + 1);
  for (std::size_t i = 0; i < all.size(); ++i) {
    PRILLBOOK_ASSIGN(Stroke stroke, painted_label(all[i], on_paper(labels::place_on(layout, where[i].place))));
    pages.sheets[std::size_t(where[i].sheet)].push_back(std::move(stroke));
  }
  return pages;
}

}  // namespace prillbook::paper
