// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/many_page.h"

#include <QtCore/QElapsedTimer>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QHeaderView>
#include <QtWidgets/QLabel>
#include <QtWidgets/QTableWidget>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"
#include "core/summary/figure.h"
#include "ui/compare/many_chart.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr qint64 reading_ms = 8;  // of one turn; a frame has 16
constexpr int rows_in_sight = 9, row_height = 3 * rhythm + 4;

QString verdict_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::gold_left_behind: return ManyPage::tr("gold left behind");
    case Verdict::no_gap_shown: return ManyPage::tr("no gap shown");
    case Verdict::pan_exceeds_fire: return ManyPage::tr("pan above fire");
    case Verdict::not_determined: return ManyPage::tr("not determined");
  }
  return {};
}

std::optional<double> half_width(const std::optional<double>& lo, const std::optional<double>& hi) {
  if (!lo || !hi) return std::nullopt;
  return (*hi - *lo) / 2;
}

QString grade_words(Grade grade, const std::optional<Grade>& lo, const std::optional<Grade>& hi, DecimalMark mark) {
  if (!(grade > Grade()) && hi) return to_qt(summary::limit(hi->in(unit::gram_per_tonne), {}, mark).written);
  std::optional<double> half;
  if (lo && hi) half = (hi->in(unit::gram_per_tonne)-lo->in(unit::gram_per_tonne)) / 2;
  return to_qt(written(grade.in(unit::gram_per_tonne), half, half ? std::nullopt : std::optional(0.01), mark));
}

QString recovery_words(const results::ComparedSample& one, DecimalMark mark) {
  if (!one.recovery) return {};
  const auto half = half_width(one.recovery_lo, one.recovery_hi);
  return to_qt(written(100 * *one.recovery, half ? std::optional(100 * *half) : std::nullopt, 1.0, mark));
}

// Sorts by the figure, not by its digits.
class FigureItem : public QTableWidgetItem {
 public:
  FigureItem(const QString& words, double figure) : QTableWidgetItem(words), figure_(figure) {
    setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
  }
  bool operator<(const QTableWidgetItem& other) const override {
    const auto* figure = dynamic_cast<const FigureItem*>(&other);
    return figure ? figure_ < figure->figure_ : QTableWidgetItem::operator<(other);
  }

 private:
  double figure_;
};

}  // namespace

ManyPage::ManyPage(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      list_(session.connection),
      head_(new Headline),
      client_(choice(tr("Client"), {tr("every client")})),
      place_(choice(tr("Place"), {tr("every place")})),
      period_(choice(tr("Period"), {tr("ever")})),
      picture_(choice(tr("Picture"), {tr("pan against fire"), tr("recovery against grade")})),
      group_(choice(tr("Groups"), {tr("by client"), tr("by place"), tr("by month")})),
      chart_(new ManyChart),
      legend_(new QLabel),
      table_(new QTableWidget),
      groups_(new QLabel) {
  build();
  connect(&pump_, &QTimer::timeout, this, &ManyPage::read_on);
}

void ManyPage::build() {
  auto* column = new QVBoxLayout(this);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(hairline());
  auto* filters = new QHBoxLayout;
  filters->setSpacing(rhythm);
  for (QComboBox* box : {client_, place_, period_, picture_}) filters->addWidget(box, 1);
  column->addLayout(filters);
  column->addWidget(chart_);
  legend_->setFont(face(TextSize::small));
  legend_->setProperty("tone", "quiet");
  legend_->setWordWrap(true);
  legend_->setText(
      tr("Filled: gold left behind. Open: no gap shown. Square: pan above fire. Lines: 95 %, with sampling where it "
         "was judged. Dashed: what the pan would catch if nothing stayed behind."));
  column->addWidget(legend_);
  table_->setAccessibleName(tr("Samples compared"));
  table_->setFont(face(TextSize::small));
  table_->setFrameShape(QFrame::NoFrame);
  table_->setShowGrid(false);
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setTabKeyNavigation(false);
  table_->verticalHeader()->hide();
  table_->horizontalHeader()->setFont(face(TextSize::small));
  table_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  table_->verticalHeader()->setDefaultSectionSize(row_height);
  table_->setMinimumHeight(rows_in_sight * row_height);
  table_->installEventFilter(this);
  column->addWidget(table_, 1);
  auto* grouping = new QHBoxLayout;
  grouping->addWidget(group_);
  grouping->addStretch();
  column->addLayout(grouping);
  groups_->setFont(face(TextSize::small));
  groups_->setWordWrap(true);
  groups_->setTextFormat(Qt::PlainText);
  column->addWidget(groups_);
  connect(table_, &QTableWidget::currentCellChanged, this, [this] { row_in_hand(); });
  connect(table_, &QTableWidget::cellDoubleClicked, this,
          [this](int row, int) { emit opened(table_->item(row, 0)->data(Qt::UserRole).toLongLong()); });
  connect(chart_, &ManyChart::picked, this, &ManyPage::take);
}

QComboBox* ManyPage::choice(const QString& name, const QStringList& words) {
  auto* box = new QComboBox;
  box->addItems(words);
  box->setFont(face(TextSize::small));
  box->setAccessibleName(name);
  box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  box->setMinimumContentsLength(10);
  connect(box, &QComboBox::activated, this, &ManyPage::refresh);
  return box;
}

void ManyPage::read() {
  if (const auto begun = list_.begin(); !begun.ok()) return head_->set(tr("Many samples"), sentence(begun.error()));
  pump_.start(0);
  read_on();
}

void ManyPage::read_on() {
  QElapsedTimer watch;
  watch.start();
  while (list_.owed() > 0 && watch.elapsed() < reading_ms)
    if (const auto read = list_.read(2); !read.ok()) {
      pump_.stop();
      return head_->set(tr("Many samples"), sentence(read.error()));
    }
  if (list_.owed() > 0) return head_->set(tr("Many samples"), tr("%1 still to be read").arg(list_.owed()));
  pump_.stop();
  fill_choices();
  refresh();
}

// Only what samples have; what was chosen stays.
void ManyPage::fill_choices() {
  QStringList clients, places, periods;
  for (const results::ComparedSample& one : list_.samples()) {
    clients << to_qt(one.client);
    if (!one.place.empty()) places << to_qt(one.place);
    const QString month = to_qt(results::group_of(one, results::GroupBy::month));
    periods << month << month.left(4);
  }
  for (auto& [box, words] : {std::pair{client_, &clients}, {place_, &places}, {period_, &periods}}) {
    words->sort(Qt::CaseInsensitive);
    words->removeDuplicates();
    const QString held = box->currentIndex() > 0 ? box->currentText() : QString();
    while (box->count() > 1) box->removeItem(1);
    box->addItems(*words);
    box->setCurrentIndex(std::max(0, held.isEmpty() ? 0 : box->findText(held)));
  }
}

results::ComparedWish ManyPage::wish() const {
  const auto word = [](const QComboBox* box) { return box->currentIndex() > 0 ? to_core(box->currentText()) : std::string(); };
  return {word(client_), word(place_), word(period_)};
}

void ManyPage::refresh() {
  shown_ = results::chosen(list_.samples(), wish());
  head_->set(tr("Many samples"), tr("%1 of %2 with pan and fire").arg(shown_.size()).arg(list_.samples().size()));
  chart_->show_samples(shown_, ManyChart::Kind(picture_->currentIndex()), session_.writing.mark);
  fill_table();
  fill_groups();
}

void ManyPage::fill_table() {
  const DecimalMark mark = session_.writing.mark;
  const QSignalBlocker quiet(table_);
  table_->setSortingEnabled(false);
  table_->clear();
  const QStringList titles{tr("Sample"), tr("Mark"), tr("Pan, g/t"), tr("Fire, g/t"), tr("Recovery, %"), tr("Verdict")};
  table_->setColumnCount(int(titles.size()));
  table_->setHorizontalHeaderLabels(titles);
  table_->setRowCount(int(shown_.size()));
  for (int row = 0; row < int(shown_.size()); ++row) {
    const results::ComparedSample& one = shown_[std::size_t(row)];
    auto* number = new QTableWidgetItem(to_qt(one.number));
    number->setData(Qt::UserRole, QVariant::fromValue(qlonglong(one.sample.value)));
    table_->setItem(row, 0, number);
    table_->setItem(row, 1, new QTableWidgetItem(in_short(to_qt(one.mark), 20)));
    table_->setItem(row, 2, new FigureItem(grade_words(one.pan, one.pan_lo, one.pan_hi, mark), one.pan.in(unit::gram_per_tonne)));
    table_->setItem(row, 3,
                    new FigureItem(grade_words(one.fire, one.fire_lo, one.fire_hi, mark), one.fire.in(unit::gram_per_tonne)));
    table_->setItem(row, 4, new FigureItem(recovery_words(one, mark), one.recovery.value_or(-1)));
    table_->setItem(row, 5, new QTableWidgetItem(verdict_words(one.verdict)));
  }
  table_->setSortingEnabled(true);
  table_->resizeColumnsToContents();
  table_->horizontalHeader()->setStretchLastSection(true);
}

void ManyPage::fill_groups() {
  const DecimalMark mark = session_.writing.mark;
  const auto percent = [mark](double ratio) { return to_qt(rounded(100 * ratio, 0, mark)); };
  QStringList lines;
  for (const results::ComparedGroup& group : results::grouped(shown_, results::GroupBy(group_->currentIndex()))) {
    QString words = tr("%1: %n samples", nullptr, int(group.samples))
                        .arg(group.name.empty() ? tr("not said") : in_short(to_qt(group.name), 40));
    if (group.median_recovery)
      words += tr(", recovery %1 % in the middle (%2 to %3 %)")
                   .arg(percent(*group.median_recovery), percent(*group.least), percent(*group.most));
    if (group.left_behind) words += tr(", gold left behind in %1").arg(group.left_behind);
    if (group.above) words += tr(", pan above fire in %1").arg(group.above);
    lines << words;
  }
  groups_->setText(lines.join(QLatin1Char('\n')));
}

void ManyPage::row_in_hand() {
  const QTableWidgetItem* item = table_->currentRow() >= 0 ? table_->item(table_->currentRow(), 0) : nullptr;
  chart_->mark_sample(SampleId{item ? item->data(Qt::UserRole).toLongLong() : 0});
}

void ManyPage::take(std::int64_t sample) {
  for (int row = 0; row < table_->rowCount(); ++row)
    if (table_->item(row, 0)->data(Qt::UserRole).toLongLong() == sample) table_->setCurrentCell(row, 0);
}

bool ManyPage::eventFilter(QObject* watched, QEvent* event) {
  if (watched == table_ && event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if ((key == Qt::Key_Return || key == Qt::Key_Enter) && table_->currentRow() >= 0) {
      emit opened(table_->item(table_->currentRow(), 0)->data(Qt::UserRole).toLongLong());
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

void ManyPage::enter() {
  if (table_->rowCount() > 0 && table_->currentRow() < 0) table_->setCurrentCell(0, 0);
  table_->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
