// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/form.h"

#include <QtGui/QPainter>
#include <QtWidgets/QGridLayout>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QScrollArea>
#include <algorithm>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

class Hairline : public QWidget {
 public:
  Hairline(Qt::Orientation orientation, QWidget* parent) : QWidget(parent) {
    if (orientation == Qt::Horizontal)
      setFixedHeight(1);
    else
      setFixedWidth(1);
  }

 protected:
  void paintEvent(QPaintEvent*) override { QPainter(this).fillRect(rect(), inks().rule); }
};

// As hasHeightForWidth(), but without measuring, which would style the field before it stands where it stays.
bool wraps(const QWidget& field) {
  if (field.sizePolicy().hasHeightForWidth()) return true;
  const auto parts = field.findChildren<QWidget*>();
  return std::any_of(parts.begin(), parts.end(),
                     [](const QWidget* part) { return !part->isHidden() && part->sizePolicy().hasHeightForWidth(); });
}

}  // namespace

QWidget* hairline(QWidget* parent) { return new Hairline(Qt::Horizontal, parent); }
QWidget* hairline_upright(QWidget* parent) { return new Hairline(Qt::Vertical, parent); }

void bring_into_view(QWidget* widget) {
  QMetaObject::invokeMethod(
      widget,
      [widget] {
        for (QWidget* place = widget->parentWidget(); place; place = place->parentWidget())
          if (auto* scroll = qobject_cast<QScrollArea*>(place)) return scroll->ensureWidgetVisible(widget, 0, 6 * rhythm);
      },
      Qt::QueuedConnection);
}

Form::Form(int columns, QWidget* parent) : QWidget(parent), grid_(new QGridLayout(this)), columns_(columns) {
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setHorizontalSpacing(4 * rhythm);
  grid_->setVerticalSpacing(rhythm);
  for (int column = 0; column < columns_; ++column) grid_->setColumnStretch(column, 1);
}

void Form::heading(const QString& words) {
  auto* label = new QLabel(words);
  label->setFont(face(TextSize::body, Weight::bold));
  label->setContentsMargins(0, rhythm, 0, rhythm / 2);
  wide(label);
}

void Form::row(std::initializer_list<QWidget*> fields) {
  int column = 0;
  const int count = int(fields.size());
  for (QWidget* field : fields) {
    const bool last = column == count - 1;
    grid_->addWidget(field, next_, column, 1, last ? std::max(1, columns_ - column) : 1,
                     wraps(*field) ? Qt::Alignment() : Qt::AlignTop);  // aligned, words that wrap would be cut off
    ++column;
  }
  ++next_;
}

void Form::wide(QWidget* widget) { grid_->addWidget(widget, next_++, 0, 1, columns_); }

void Form::rule() {
  auto* holder = new QWidget;
  auto* layout = new QHBoxLayout(holder);
  layout->setContentsMargins(0, rhythm, 0, rhythm);
  layout->addWidget(hairline(holder));
  wide(holder);
}

void Form::space() { grid_->setRowMinimumHeight(next_++, rhythm); }

Headline::Headline(QWidget* parent) : QWidget(parent), number_(new QLabel), words_(new QLabel) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(2 * rhythm);
  number_->setFont(face(TextSize::large, Weight::bold));
  words_->setFont(face(TextSize::body));
  words_->setProperty("tone", "quiet");
  words_->setWordWrap(true);
  words_->setContentsMargins(0, 6, 0, 0);  // onto the base line of the number
  row->addWidget(number_);
  row->addWidget(words_, 1);
}

void Headline::set_large(int number_px) {
  QFont number = face(TextSize::large, Weight::bold);
  if (number_px > 0) number.setPixelSize(number_px);
  number_->setFont(number);
  words_->setFont(face(number_px > 0 ? TextSize::large : TextSize::body));
}

void Headline::set(const QString& number, const QString& words) {
  number_->setText(number);
  words_->setText(words);
}

}  // namespace prillbook::ui
