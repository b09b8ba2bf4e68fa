// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/thread.h"

#include <QtGui/QPainter>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QScrollBar>
#include <QtWidgets/QToolButton>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int time_column = 8 * rhythm, thread_at = time_column + rhythm, body_at = thread_at + 3 * rhythm;
constexpr int first_line = 28, knot_at = 4 + first_line / 2;

QLabel* words(const QString& text, TextSize size, Weight weight = Weight::book, const char* tone = nullptr) {
  auto* label = new QLabel(text);
  label->setFont(face(size, weight));
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  if (tone) label->setProperty("tone", tone);
  return label;
}

// "pan bead 0.022 g": the name quiet, the number plain, the unit light.
QLabel* figure_line(const ThreadEntry& entry) {
  QString text;
  for (const auto& [name, figure] : entry.figures) {
    const QString number =
        figure.measured() ? figure.number.toHtmlEscaped() : QStringLiteral("<u>&nbsp;&nbsp;&nbsp;&nbsp;&nbsp;&nbsp;</u>");
    const QString unit = figure.measured() ? figure.unit.toHtmlEscaped() : QString();
    text += QStringLiteral(
                "<span style='color:%1'>%2</span>&nbsp;&nbsp;%3&#8239;<span style='color:%1;font-family:\"%5\"'>%4</span>"
                " &nbsp; &nbsp; ")
                .arg(inks().quiet.name(), name.toHtmlEscaped().replace(QLatin1Char(' '), QStringLiteral("&nbsp;")), number, unit,
                     face(TextSize::body, Weight::light).family());
  }
  auto* label = words({}, TextSize::body);
  label->setTextFormat(Qt::RichText);
  label->setText(text);
  return label;
}

class Knot : public QWidget {
  Q_OBJECT
 public:
  Knot(const ThreadEntry& entry, bool first, bool last) : first_(first), last_(last) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(body_at, 4, 0, 2 * rhythm);
    column->setSpacing(2);
    auto* head = new QHBoxLayout;
    head->setSpacing(rhythm);
    auto* what = words(entry.what, TextSize::body, Weight::bold);
    what->setMinimumHeight(first_line);
    head->addWidget(what, 1);
    for (const ThreadAction& action : entry.actions) {
      auto* button = new QToolButton;
      button->setText(action.words);
      button->setFont(face(TextSize::small));
      button->setFixedHeight(first_line);
      button->setAccessibleName(action.words + QStringLiteral(", ") + entry.what);
      connect(button, &QToolButton::clicked, this, [this, id = action.id] { emit action_wanted(id); });
      head->addWidget(button, 0, Qt::AlignTop);
    }
    auto* who = words(entry.who, TextSize::small, Weight::book, "quiet");
    who->setMinimumWidth(4 * rhythm);
    who->setFixedHeight(first_line);
    who->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    head->addWidget(who, 0, Qt::AlignTop);
    column->addLayout(head);
    if (!entry.figures.empty()) column->addWidget(figure_line(entry));
    if (!entry.words.isEmpty()) column->addWidget(words(entry.words, TextSize::small, Weight::book, "quiet"));
    if (entry.finding) column->addWidget(new FindingRow(entry.finding->first, entry.finding->second));
    time_ = time_text(entry.when);
    setAccessibleName(QStringLiteral("%1, %2, %3").arg(date_time_text(entry.when), entry.what, entry.who));
  }

 signals:
  void action_wanted(const QString& action);

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(face(TextSize::small));
    painter.setPen(inks().quiet);
    painter.drawText(QRect(0, 0, time_column - rhythm, 2 * knot_at), Qt::AlignRight | Qt::AlignVCenter, time_);
    painter.setPen(QPen(inks().line, 1.5));
    painter.drawLine(QPointF(thread_at, first_ ? knot_at : 0), QPointF(thread_at, last_ ? knot_at : height()));
    painter.setPen(QPen(inks().line, 1.5));
    painter.setBrush(last_ ? inks().accent : inks().ground);
    painter.drawEllipse(QPointF(thread_at, knot_at), 4.5, 4.5);
  }

 private:
  QString time_;
  bool first_, last_;
};

// The day stands once, where it begins.
class DayLine : public QWidget {
 public:
  DayLine(const QString& day, bool first) : day_(day), first_(first) { setFixedHeight(first ? 3 * rhythm + 4 : 4 * rhythm); }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    if (!first_) {
      painter.setPen(QPen(inks().line, 1.5));
      painter.drawLine(QPointF(thread_at, 0), QPointF(thread_at, height()));
    }
    painter.setFont(face(TextSize::small, Weight::bold));
    painter.setPen(inks().quiet);
    painter.drawText(QRect(body_at, 0, width() - body_at, height()), Qt::AlignLeft | Qt::AlignVCenter, day_);
  }

 private:
  QString day_;
  bool first_;
};

}  // namespace

Thread::Thread(QWidget* parent) : QScrollArea(parent), sheet_(new QWidget), layout_(new QVBoxLayout(sheet_)) {
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  setWidget(sheet_);
  viewport()->setAutoFillBackground(false);
  sheet_->setAutoFillBackground(false);
  layout_->setContentsMargins(0, 0, 2 * rhythm, 0);
  layout_->setSpacing(0);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* bar = verticalScrollBar();
  connect(bar, &QScrollBar::rangeChanged, this, [this, bar](int, int most) {
    if (at_end_) bar->setValue(most);
  });
  connect(bar, &QScrollBar::valueChanged, this, [this, bar](int value) { at_end_ = value >= bar->maximum(); });
}

void Thread::set_empty_words(const QString& words) { empty_words_ = words; }

int Thread::count() const { return int(sheet_->findChildren<Knot*>(Qt::FindDirectChildrenOnly).size()); }

void Thread::set_entries(const std::vector<ThreadEntry>& entries) {
  while (QLayoutItem* item = layout_->takeAt(0)) {
    if (QWidget* old = item->widget()) {
      old->setParent(nullptr);
      old->deleteLater();
    }
    delete item;
  }
  QString day;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const ThreadEntry& entry = entries[i];
    if (const QString its_day = date_text(entry.when); its_day != day) {
      layout_->addWidget(new DayLine(its_day, i == 0));
      day = its_day;
    }
    auto* knot = new Knot(entry, i == 0, i + 1 == entries.size());
    connect(knot, &Knot::action_wanted, this, [this, id = entry.id](const QString& action) { emit action_wanted(id, action); });
    layout_->addWidget(knot);
  }
  if (entries.empty() && !empty_words_.isEmpty()) layout_->addWidget(words(empty_words_, TextSize::body, Weight::book, "quiet"));
  layout_->addStretch();
}

}  // namespace prillbook::ui

#include "thread.moc"
