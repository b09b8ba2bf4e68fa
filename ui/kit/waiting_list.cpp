// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/waiting_list.h"

#include <QtGui/QPainter>
#include <QtWidgets/QStyledItemDelegate>
#include <algorithm>

#include "ui/kit/messages.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int waiting_row = 8 * rhythm, left = 3 * rhythm;

class WaitingDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const override {
    return {option.rect.width(), waiting_row};
  }

  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const Inks& ink = inks();
    const QRect area = option.rect;
    painter->save();
    if (option.state & QStyle::State_Selected) {
      painter->fillRect(area, ink.shaded);
      painter->fillRect(QRect(area.x(), area.y(), 3, area.height()), ink.accent);
    }
    painter->fillRect(QRect(area.x() + left, area.bottom(), area.width() - left, 1), ink.rule);
    const auto text = [&](int role) { return index.data(role).toString(); };
    const QFont bold = face(TextSize::body, Weight::bold), book = face(TextSize::body), small = face(TextSize::small);
    const QFontMetrics bold_metrics(bold), book_metrics(book), small_metrics(small);
    const int x = area.x() + left, right = area.right() - rhythm;
    const int first = area.y() + 27, second = area.y() + 50;

    painter->setPen(ink.ink);
    painter->setFont(bold);
    painter->drawText(x, first, text(WaitingModel::number_role));
    const int number_width = bold_metrics.horizontalAdvance(text(WaitingModel::number_role));
    const int after = number_width > 0 ? x + number_width + rhythm : x;
    painter->setFont(book);
    painter->drawText(after, first, book_metrics.elidedText(text(WaitingModel::title_role), Qt::ElideRight, right - after));

    int room = right;
    const auto urgency = Urgency(index.data(WaitingModel::urgency_role).toInt());
    if (urgency != Urgency::usual) {
      const QString word = urgency == Urgency::now ? tr("now") : tr("soon");
      room -= small_metrics.horizontalAdvance(word);
      painter->setFont(small);
      painter->setPen(urgency == Urgency::now ? ink.signal : ink.ink);
      painter->drawText(room, second, word);
      room -= 18;
      draw_mark(*painter, QRectF(room, second - 12, 14, 14), urgency == Urgency::now ? Severity::stop : Severity::caution);
      room -= rhythm;
    }
    painter->setFont(small);
    painter->setPen(ink.quiet);
    painter->drawText(x, second, small_metrics.elidedText(text(WaitingModel::words_role), Qt::ElideRight, room - x));
    painter->restore();
  }
};

}  // namespace

void WaitingModel::read_from(WaitingPage page) {
  beginResetModel();
  page_ = std::move(page);
  rows_ = page_ ? page_(0, page_size) : std::vector<WaitingRow>{};
  complete_ = int(rows_.size()) < page_size;
  endResetModel();
}

void WaitingModel::refresh() {
  if (!page_) return;
  const int wanted = std::max(page_size, int(rows_.size()));
  auto rows = page_(0, wanted);
  if (rows == rows_) return;
  const bool same_rows = rows.size() == rows_.size() && std::equal(rows.begin(), rows.end(), rows_.begin(),
                                                                   [](const auto& a, const auto& b) { return a.id == b.id; });
  if (same_rows) {
    rows_ = std::move(rows);
    emit dataChanged(index(0), index(int(rows_.size()) - 1));
    return;
  }
  beginResetModel();
  rows_ = std::move(rows);
  complete_ = int(rows_.size()) < wanted;
  endResetModel();
}

const WaitingRow* WaitingModel::row(const QModelIndex& index) const {
  return index.isValid() && index.row() < int(rows_.size()) ? &rows_[std::size_t(index.row())] : nullptr;
}

int WaitingModel::row_of(RecordId id) const {
  const auto found = std::find_if(rows_.begin(), rows_.end(), [id](const WaitingRow& row) { return row.id == id; });
  return found == rows_.end() ? -1 : int(found - rows_.begin());
}

int WaitingModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : int(rows_.size()); }

QVariant WaitingModel::data(const QModelIndex& index, int role) const {
  const WaitingRow* found = row(index);
  if (!found) return {};
  switch (role) {
    case Qt::DisplayRole:
    case Qt::AccessibleTextRole: {
      const QString urgency = found->urgency == Urgency::now    ? tr(", now")
                              : found->urgency == Urgency::soon ? tr(", soon")
                                                                : QString();
      return QStringLiteral("%1 %2, %3").arg(found->number, found->title, found->words) + urgency;
    }
    case id_role: return QVariant::fromValue(qlonglong(found->id));
    case number_role: return found->number;
    case title_role: return found->title;
    case words_role: return found->words;
    case urgency_role: return int(found->urgency);
    default: return {};
  }
}

bool WaitingModel::canFetchMore(const QModelIndex& parent) const { return !parent.isValid() && !complete_; }

void WaitingModel::fetchMore(const QModelIndex&) {
  const auto more = page_(int(rows_.size()), page_size);
  complete_ = int(more.size()) < page_size;
  if (more.empty()) return;
  beginInsertRows({}, int(rows_.size()), int(rows_.size() + more.size()) - 1);
  rows_.insert(rows_.end(), more.begin(), more.end());
  endInsertRows();
}

WaitingList::WaitingList(const QString& accessible_name, QWidget* parent) : QListView(parent) {
  setAccessibleName(accessible_name);
  setModel(&model_);
  setItemDelegate(new WaitingDelegate(this));
  setFrameShape(QFrame::NoFrame);
  setSelectionMode(QAbstractItemView::SingleSelection);
  setUniformItemSizes(true);
  setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  viewport()->setAutoFillBackground(false);
  connect(this, &QListView::activated, this, [this](const QModelIndex& index) {
    if (const WaitingRow* row = model_.row(index)) emit opened(row->id);
  });
}

void WaitingList::read_from(WaitingPage page) {
  silent_ = true;
  model_.read_from(std::move(page));
  silent_ = false;
  viewport()->update();
}

void WaitingList::refresh() {
  const RecordId kept = in_hand();
  silent_ = true;
  model_.refresh();
  silent_ = false;
  take(kept);
}

void WaitingList::set_empty_words(const QString& words) {
  empty_words_ = words;
  viewport()->update();
}

RecordId WaitingList::in_hand() const {
  const WaitingRow* row = model_.row(currentIndex());
  return row ? row->id : 0;
}

void WaitingList::take(RecordId id) {
  const int row = model_.row_of(id);
  silent_ = true;
  setCurrentIndex(row < 0 ? QModelIndex() : model_.index(row));
  silent_ = false;
}

void WaitingList::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
  QListView::currentChanged(current, previous);
  const WaitingRow* row = model_.row(current);
  if (row && !silent_) emit taken(row->id);
}

void WaitingList::paintEvent(QPaintEvent* event) {
  QListView::paintEvent(event);
  if (model_.rowCount() > 0 || empty_words_.isEmpty()) return;
  QPainter painter(viewport());
  painter.setFont(face(TextSize::body));
  painter.setPen(inks().quiet);
  const QRect area = viewport()->rect().adjusted(left, 2 * rhythm, -2 * rhythm, 0);
  painter.drawText(area, int(Qt::AlignTop | Qt::AlignLeft) | Qt::TextWordWrap, empty_words_);
}

}  // namespace prillbook::ui

#include "waiting_list.moc"
