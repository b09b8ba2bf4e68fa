// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/messages.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QEvent>
#include <QtGui/QPainter>
#include <QtGui/QPainterPath>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QStyle>
#include <QtWidgets/QToolButton>

#include "ui/kit/icons.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

enum MessageKind { neutral, safe, stopped };

// One line that gives way: a name of three hundred letters ends in dots instead of widening the window.
class ElidedLine : public QLabel {
 public:
  ElidedLine() { setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred); }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    style()->drawItemText(&painter, contentsRect(), int(alignment()), palette(), isEnabled(),
                          fontMetrics().elidedText(text(), Qt::ElideRight, contentsRect().width()), foregroundRole());
  }
};

}  // namespace

QString severity_word(Severity severity) {
  switch (severity) {
    case Severity::note: return QCoreApplication::translate("Severity", "Note");
    case Severity::caution: return QCoreApplication::translate("Severity", "Caution");
    case Severity::stop: return QCoreApplication::translate("Severity", "Stop");
  }
  return {};
}

void draw_mark(QPainter& painter, const QRectF& square, Severity severity) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const double s = square.width() / 14;
  painter.translate(square.topLeft());
  painter.scale(s, s);
  const QColor colour = severity == Severity::stop ? inks().signal : severity == Severity::caution ? inks().ink : inks().quiet;
  painter.setPen(QPen(colour, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  if (severity == Severity::note) {
    painter.setBrush(colour);
    painter.drawEllipse(QPointF(5, 7), 2, 2);
  } else {
    QPainterPath pennant(QPointF(3, 1.5));
    pennant.lineTo(12.5, 4.8);
    pennant.lineTo(3, 8.2);
    painter.drawLine(QPointF(3, 1.5), QPointF(3, 13));
    if (severity == Severity::stop) painter.setBrush(colour);
    painter.drawPath(pennant);
    if (severity == Severity::stop) painter.fillPath(pennant, colour);
  }
  painter.restore();
}

FindingRow::FindingRow(Severity severity, const QString& sentence, const QString& action, QWidget* parent)
    : QWidget(parent), severity_(severity), words_(new QLabel) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(3 * rhythm - 2, rhythm / 2, 0, rhythm / 2);
  row->setSpacing(rhythm);
  words_->setFont(face(TextSize::body));
  words_->setWordWrap(true);
  words_->setTextFormat(Qt::RichText);
  words_->setText(QStringLiteral("<b>%1.</b> %2").arg(severity_word(severity).toHtmlEscaped(), sentence.toHtmlEscaped()));
  if (severity == Severity::stop) words_->setProperty("tone", "signal");
  row->addWidget(words_, 1, Qt::AlignVCenter);
  setAccessibleName(severity_word(severity) + QStringLiteral(". ") + sentence);
  if (action.isEmpty()) return;
  auto* button = new QToolButton;
  button->setText(action);
  connect(button, &QToolButton::clicked, this, &FindingRow::action_wanted);
  row->addWidget(button, 0, Qt::AlignTop);
}

void FindingRow::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const int line = words_->fontMetrics().height();
  draw_mark(painter, QRectF(0, words_->y() + (line - 14) / 2.0, 14, 14), severity_);
}

MessageBar::MessageBar(QWidget* parent) : QWidget(parent), mark_(new QLabel), words_(new ElidedLine) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(rhythm);
  mark_->setFixedWidth(18);
  words_->setFont(face(TextSize::small));
  words_->setTextFormat(Qt::PlainText);
  row->addWidget(mark_);
  row->addWidget(words_, 1);
  put({}, neutral);
}

void MessageBar::say(const QString& words) { put(words, neutral); }
void MessageBar::written(const QString& words) { put(words, safe); }
void MessageBar::refused(const Error& error) { put(sentence(error), stopped); }
void MessageBar::stop(const QString& words) { put(words, stopped); }
QString MessageBar::words() const { return words_->text(); }

void MessageBar::put(const QString& words, int kind) {
  kind_ = kind;
  words_->setText(words);
  words_->setToolTip(words);
  words_->setProperty("tone", kind == stopped ? "signal" : "quiet");
  restyle(words_);
  const qreal ratio = devicePixelRatioF();
  QPixmap mark(int(16 * ratio), int(16 * ratio));
  mark.setDevicePixelRatio(ratio);
  mark.fill(Qt::transparent);
  if (kind == safe) mark = pixmap(Icon::written, inks().accent, 18, ratio);
  if (kind == stopped) {
    QPainter painter(&mark);
    draw_mark(painter, QRectF(0, 1, 14, 14), Severity::stop);
  }
  mark_->setPixmap(mark);
  mark_->setVisible(kind != neutral);
}

void MessageBar::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) put(words_->text(), kind_);
}

CautionLine::CautionLine(const QString& words, const QString& guide_page, QWidget* parent) : QWidget(parent), page_(guide_page) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(3 * rhythm - 2, 0, 0, 0);
  row->setSpacing(rhythm);
  auto* label = new QLabel(words);
  label->setFont(face(TextSize::small));
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  auto* more = new QToolButton;
  more->setText(tr("more…"));
  more->setFont(face(TextSize::small));
  more->setAccessibleName(tr("More about these cautions"));
  connect(more, &QToolButton::clicked, this, [this] { emit more_wanted(page_); });
  row->addWidget(label, 1);
  row->addWidget(more, 0, Qt::AlignTop);
}

void CautionLine::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  draw_mark(painter, QRectF(0, (height() - 14) / 2.0, 14, 14), Severity::caution);
}

}  // namespace prillbook::ui
