// SPDX-License-Identifier: GPL-3.0-or-later
// Pages being filled from top to bottom. What is put down is kept as strokes, so that "page 2 of 5" is known when painted.
#pragma once

#include <QtCore/QRectF>
#include <QtGui/QPainter>
#include <QtGui/QTextLayout>
#include <functional>
#include <memory>
#include <vector>

#include "ui/paper/faces.h"

namespace prillbook::paper {

using Stroke = std::function<void(QPainter&)>;
using Sheet = std::vector<Stroke>;

// Where a heading stands; tenths of a point from the top of its page.
struct Bookmark {
  int level = 1;
  std::string text;
  std::size_t page = 0;
  double y = 0;
};

QString text_of(const std::string& text);  // control characters become blanks

// A text broken into lines of a width; words that are too long break anywhere, markup is text.
class Lines {
 public:
  enum class Side { left, right, centre };
  Lines(const QString& text, const QFont& font, double width, double line_height, Side side = Side::left,
        Qt::LayoutDirection direction = Qt::LeftToRight);

  int count() const { return layout_->lineCount(); }
  double height() const { return count() * line_height_; }
  double natural_width() const;
  QString words(int index) const;                                          // of one line
  Stroke line(int index, double x, double y, const QColor& colour) const;  // y: top of the line
  Stroke all(double x, double y, const QColor& colour) const;

 private:
  std::shared_ptr<QTextLayout> layout_;
  double line_height_;
};

class Flow {
 public:
  Flow(const Paper& paper, double first_top);

  const Faces& faces() const { return faces_; }
  double left() const { return area_.left(); }
  double width() const { return area_.width(); }
  double right() const { return area_.right(); }
  double y() const { return y_; }
  // Room for something this high is here or on a new page; true where a page was begun.
  bool need(double height);
  void put(Stroke stroke) { sheets_.back().push_back(std::move(stroke)); }
  void advance(double height) { y_ += height; }
  // White space, left out at the top of a page.
  void space(double height);
  // Line by line, over pages where it must; its first two lines stay together.
  void text(const Lines& lines, double x, const QColor& colour);
  void rule(double from, double to, const QColor& colour, double thickness);

  // A place that what was put down since can be taken back to.
  struct Mark {
    std::size_t pages = 0, strokes = 0, bookmarks = 0;
    double y = 0;
  };
  Mark here() const { return {sheets_.size(), sheets_.back().size(), bookmarks_.size(), y_}; }
  void back_to(const Mark& mark);
  // Whether its page ended there: what came next is on a new one.
  bool ended_at(const Mark& mark) const;
  // Unless the page is empty yet.
  void begin_page();

  // Here, once there is room for what it names.
  void bookmark(int level, const std::string& text) { bookmarks_.push_back({level, text, sheets_.size() - 1, y_}); }

  std::vector<Sheet> take() { return std::move(sheets_); }
  std::vector<Bookmark> take_bookmarks() { return std::move(bookmarks_); }

 private:
  Faces faces_;
  QRectF area_;
  double y_;
  std::vector<Sheet> sheets_;
  std::vector<Bookmark> bookmarks_;
};

// Width and height of a page.
QSizeF page_size(PaperSize size);

inline constexpr double side_margin = 590, top_margin = 620, foot_margin = 620, running_head = 250;

}  // namespace prillbook::paper
