// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/choice_row.h"

#include <QtGui/QKeyEvent>
#include <QtGui/QPainter>
#include <algorithm>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int gap_between = 20, line_height = 35;

}  // namespace

std::vector<WordKey> keys_of(const QStringList& words) {
  std::vector<WordKey> keys;
  QString taken;
  for (const QString& word : words) {
    WordKey key;
    for (int i = 0; i < word.size() && key.at < 0; ++i)
      if (const QChar letter = word[i].toLower(); letter.isLetter() && !taken.contains(letter)) key = {letter, i};
    for (char digit = '1'; key.at < 0 && key.key.isNull() && digit <= '9'; ++digit)
      if (!taken.contains(QLatin1Char(digit))) key.key = QLatin1Char(digit);
    taken += key.key;
    keys.push_back(key);
  }
  return keys;
}

ChoiceRow::ChoiceRow(const QStringList& words, QWidget* parent) : QWidget(parent), words_(words), keys_(keys_of(words)) {
  setFocusPolicy(Qt::StrongFocus);
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Preferred);  // Fixed would hold it to one line
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setCursor(Qt::PointingHandCursor);
}

void ChoiceRow::show_chosen(int index) {
  chosen_ = index;
  update();
}

void ChoiceRow::set_read_only(bool read_only) {
  read_only_ = read_only;
  setCursor(read_only ? Qt::ArrowCursor : Qt::PointingHandCursor);
}

// Every word is as wide as when it is chosen, so that nothing moves.
std::vector<QRect> ChoiceRow::areas(int width) const {
  const QFontMetrics bold(face(TextSize::body, Weight::bold));
  std::vector<QRect> areas;
  int x = 0, y = 0;
  for (const QString& word : words_) {
    const int wide = bold.horizontalAdvance(word);
    if (x > 0 && x + wide > width) {
      x = 0;
      y += line_height;
    }
    areas.emplace_back(x, y, wide, line_height);
    x += wide + gap_between;
  }
  return areas;
}

QRect ChoiceRow::word_area(int index) const { return areas(width())[std::size_t(index)]; }

int ChoiceRow::heightForWidth(int width) const {
  const auto all = areas(width);
  return all.empty() ? line_height : all.back().bottom() + 1;
}

QSize ChoiceRow::sizeHint() const {
  const auto all = areas(QWIDGETSIZE_MAX);
  return {all.empty() ? line_height : all.back().right() + 1, line_height};
}

QSize ChoiceRow::minimumSizeHint() const { return {12 * rhythm, line_height}; }

void ChoiceRow::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Inks& ink = inks();
  const auto all = areas(width());
  const int lines = all.empty() ? 1 : all.back().y() / line_height + 1;
  for (int line = 1; line <= lines; ++line)
    painter.fillRect(QRect(0, line * line_height - (hasFocus() ? 2 : 1), width(), hasFocus() ? 2 : 1), hasFocus()   ? ink.accent
                                                                                                       : read_only_ ? ink.rule
                                                                                                                    : ink.line);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool chosen = int(i) == chosen_;
    const QFont type = face(TextSize::body, chosen ? Weight::bold : Weight::book);
    const QFontMetrics metrics(type);
    const QString& word = words_[int(i)];
    const int base = all[i].y() + (line_height - metrics.height()) / 2 + metrics.ascent() - 2;
    painter.setFont(type);
    painter.setPen(chosen ? ink.ink : ink.quiet);
    painter.drawText(all[i].x(), base, word);
    if (chosen) painter.fillRect(QRect(all[i].x(), all[i].bottom() - 3, all[i].width(), 4), ink.accent);
    if (read_only_ || chosen || keys_[i].at < 0) continue;
    const int from = metrics.horizontalAdvance(word.left(keys_[i].at));
    painter.fillRect(QRect(all[i].x() + from, base + 4, metrics.horizontalAdvance(word[keys_[i].at]) - 1, 1), ink.quiet);
  }
}

void ChoiceRow::keyPressEvent(QKeyEvent* event) {
  const int count = int(words_.size());
  const bool command = event->modifiers() & (Qt::ControlModifier | Qt::AltModifier);
  if (read_only_ || count == 0 || command) return QWidget::keyPressEvent(event);
  switch (event->key()) {
    case Qt::Key_Left: emit wanted(std::max(0, chosen_ - 1)); return;
    case Qt::Key_Right: emit wanted(std::min(count - 1, chosen_ + 1)); return;
    case Qt::Key_Backspace:
    case Qt::Key_Delete: emit wanted(-1); return;
    case Qt::Key_Return:
    case Qt::Key_Enter: focusNextChild(); return;
    default: break;
  }
  const QString text = event->text().toLower();
  for (int i = 0; i < count && !text.isEmpty(); ++i)
    if (keys_[std::size_t(i)].key == text[0]) {
      emit wanted(i);
      return;
    }
  QWidget::keyPressEvent(event);
}

void ChoiceRow::mousePressEvent(QMouseEvent* event) {
  const auto all = areas(width());
  for (std::size_t i = 0; i < all.size() && !read_only_; ++i)
    if (all[i].adjusted(-gap_between / 2, 0, gap_between / 2, 0).contains(event->pos())) {
      emit wanted(int(i));
      return;
    }
}

void ChoiceRow::wheelEvent(QWheelEvent* event) { event->ignore(); }

void ChoiceRow::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  update();
}

void ChoiceRow::focusOutEvent(QFocusEvent* event) {
  QWidget::focusOutEvent(event);
  update();
}

}  // namespace prillbook::ui
