// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/ledger.h"

#include <QtGui/QKeyEvent>
#include <QtGui/QPainter>
#include <QtWidgets/QStyledItemDelegate>
#include <algorithm>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int ledger_row = 4 * rhythm, indent = 3 * rhythm;

const LedgerRow* row_at(const QModelIndex& index) {
  const auto* model = qobject_cast<const LedgerModel*>(index.model());
  return model ? model->row(index) : nullptr;
}

class LedgerDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const override {
    return {option.rect.width(), ledger_row};
  }

  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const LedgerRow* row = row_at(index);
    if (!row) return;
    painter->save();
    const Inks& ink = inks();
    const QRect area = option.rect;
    if (option.state & QStyle::State_Selected) {
      painter->fillRect(area, ink.shaded);
      painter->fillRect(QRect(area.x(), area.y(), 3, area.height()), ink.accent);
    }
    painter->fillRect(QRect(area.x(), area.bottom(), area.width(), 1), ink.rule);
    const int mark = area.x() + area.width() * 62 / 100, words_at = mark + 9 * rhythm;
    const int x = area.x() + rhythm + 4 + row->depth * indent, base = area.y() + 22;
    draw_stems(*painter, index, area);
    draw_name(*painter, *row, x, base, row->has_figure ? mark - 8 * rhythm : words_at - rhythm);
    painter->setPen(ink.ink);
    painter->setFont(face(TextSize::body));
    if (row->has_figure) draw_on_mark(*painter, QPointF(mark, base), row->figure, 6 * rhythm);
    const QFontMetrics small(face(TextSize::small));
    painter->setFont(face(TextSize::small));
    painter->setPen(ink.quiet);
    painter->drawText(words_at, base, small.elidedText(row->words, Qt::ElideRight, area.right() - words_at - rhythm));
    painter->restore();
  }

 private:
  // A stem runs on past a row where a later one hangs from it.
  static void draw_stems(QPainter& painter, const QModelIndex& index, const QRect& area) {
    const LedgerRow* row = row_at(index);
    painter.setPen(QPen(inks().line, 1));
    for (int depth = 1; depth <= row->depth; ++depth) {
      const int stem = area.x() + rhythm + 4 + depth * indent - 2 * rhythm, middle = area.y() + ledger_row / 2;
      const bool own = depth == row->depth, on = runs_on(index, depth);
      if (own || on) painter.drawLine(stem, area.y(), stem, on ? area.bottom() : middle);
      if (own) painter.drawLine(stem, middle, stem + 2 * rhythm - rhythm / 2, middle);
    }
  }

  static bool runs_on(const QModelIndex& index, int depth) {
    for (int next = index.row() + 1; next < index.model()->rowCount(); ++next) {
      const LedgerRow* below = row_at(index.siblingAtRow(next));
      if (below->depth <= depth) return below->depth == depth;
    }
    return false;
  }

  static void draw_name(QPainter& painter, const LedgerRow& row, int x, int base, int end) {
    const QFont bold = face(TextSize::body, Weight::bold), book = face(TextSize::body);
    painter.setFont(bold);
    painter.setPen(inks().ink);
    painter.drawText(x, base, row.number);
    const int after = x + QFontMetrics(bold).horizontalAdvance(row.number) + (row.number.isEmpty() ? 0 : rhythm);
    painter.setFont(book);
    painter.drawText(after, base, QFontMetrics(book).elidedText(row.title, Qt::ElideRight, std::max(0, end - after)));
  }
};

}  // namespace

void LedgerModel::set_rows(std::vector<LedgerRow> rows) {
  if (rows == rows_) return;
  beginResetModel();
  rows_ = std::move(rows);
  endResetModel();
}

const LedgerRow* LedgerModel::row(const QModelIndex& index) const {
  return index.isValid() && index.row() < int(rows_.size()) ? &rows_[std::size_t(index.row())] : nullptr;
}

int LedgerModel::row_of(RecordId id) const {
  const auto found = std::find_if(rows_.begin(), rows_.end(), [id](const LedgerRow& row) { return row.id == id; });
  return found == rows_.end() ? -1 : int(found - rows_.begin());
}

int LedgerModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : int(rows_.size()); }

QVariant LedgerModel::data(const QModelIndex& index, int role) const {
  const LedgerRow* found = row(index);
  if (!found) return {};
  if (role == Qt::ToolTipRole) return found->title;
  if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole) return {};
  return QStringLiteral("%1 %2 %3, %4").arg(found->number, found->title, text(found->figure), found->words);
}

Ledger::Ledger(const QString& accessible_name, QWidget* parent) : QListView(parent) {
  setAccessibleName(accessible_name);
  setModel(&model_);
  setItemDelegate(new LedgerDelegate(this));
  setFrameShape(QFrame::NoFrame);
  setUniformItemSizes(true);
  setSelectionMode(QAbstractItemView::SingleSelection);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  setTabKeyNavigation(false);
  viewport()->setAutoFillBackground(false);
  connect(this, &QListView::doubleClicked, this, [this](const QModelIndex& index) {
    if (const LedgerRow* row = model_.row(index)) emit opened(row->id);
  });
  fit();
}

void Ledger::set_rows(std::vector<LedgerRow> rows) {
  const RecordId kept = in_hand();
  const bool had = currentIndex().isValid();
  silent_ = true;
  model_.set_rows(std::move(rows));
  silent_ = false;
  if (had) take(kept);
  fit();
}

RecordId Ledger::in_hand() const {
  const LedgerRow* row = model_.row(currentIndex());
  return row ? row->id : 0;
}

void Ledger::take(RecordId id) {
  const int row = model_.row_of(id);
  silent_ = true;
  setCurrentIndex(row < 0 ? QModelIndex() : model_.index(row));
  silent_ = false;
}

void Ledger::set_most_rows(int rows) {
  most_rows_ = rows;
  fit();
}

void Ledger::fit() {
  const int shown = std::clamp(model_.rowCount(), 1, most_rows_);
  setFixedHeight(shown * ledger_row);
  setVerticalScrollBarPolicy(model_.rowCount() > most_rows_ ? Qt::ScrollBarAsNeeded : Qt::ScrollBarAlwaysOff);
}

void Ledger::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
  QListView::currentChanged(current, previous);
  const LedgerRow* row = model_.row(current);
  if (row && !silent_) emit taken(row->id);
}

void Ledger::keyPressEvent(QKeyEvent* event) {
  if (event->key() != Qt::Key_Return && event->key() != Qt::Key_Enter) return QListView::keyPressEvent(event);
  if (const LedgerRow* row = model_.row(currentIndex())) emit opened(row->id);
}

}  // namespace prillbook::ui
