// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/import_model.h"

#include <QtGui/QPainter>
#include <QtGui/QPixmap>

#include "ui/kit/messages.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/receiving/import_words.h"

namespace prillbook::ui {
namespace {

using intake::RowNote;

constexpr int mark_size = 14, longest_shown = 200;

QPixmap mark_of(bool warning) {
  QPixmap mark(mark_size, mark_size);
  mark.fill(Qt::transparent);
  QPainter painter(&mark);
  draw_mark(painter, QRectF(1, 1, mark_size - 2, mark_size - 2), warning ? Severity::caution : Severity::stop);
  return mark;
}

// The refusal before the warning.
const RowNote* heavier(const RowNote* one, const RowNote* other) {
  return !one || (one->warning && !other->warning) ? other : one;
}

QString shown(const std::string& cell) {
  const QString text = to_qt(cell).simplified();
  return text.size() > longest_shown ? text.left(longest_shown) + QChar(0x2026) : text;
}

}  // namespace

void ImportModel::show_list(std::optional<intake::SampleList> list) {
  beginResetModel();
  list_ = std::move(list);
  endResetModel();
  emit checked();
}

Result<void> ImportModel::read_rest() {
  if (!list_) return {};
  beginResetModel();
  auto outcome = list_->read_rest();
  endResetModel();
  emit checked();
  return outcome;
}

Result<void> ImportModel::read_as(const intake::ListOptions& options) {
  if (!list_) return {};
  beginResetModel();
  auto outcome = list_->read_as(options);
  endResetModel();
  emit checked();
  return outcome;
}

void ImportModel::use_column(int column, const intake::ColumnUse& use) {
  if (!list_ || column < 0) return;
  list_->use_column(std::size_t(column), use);
  tell_all();
}

void ImportModel::say_mark(DecimalMark mark) {
  if (!list_) return;
  list_->say_mark(mark);
  tell_all();
}

void ImportModel::say_heading(bool heading) {
  if (!list_) return;
  beginResetModel();
  list_->say_heading(heading);
  endResetModel();
  emit checked();
}

void ImportModel::tell_all() {
  if (rowCount() > 0) emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
  if (rowCount() > 0) emit headerDataChanged(Qt::Vertical, 0, rowCount() - 1);
  emit checked();
}

const RowNote* ImportModel::note(const QModelIndex& at) const {
  if (!list_ || !at.isValid()) return nullptr;
  const RowNote *own = nullptr, *of_row = nullptr;
  bool first_has_own = false;
  for (const RowNote& one : list_->notes(std::size_t(at.row()))) {
    if (one.column == std::size_t(at.column())) own = heavier(own, &one);
    if (one.column == intake::whole_row) of_row = heavier(of_row, &one);
    first_has_own = first_has_own || one.column == 0;
  }
  const int place = first_has_own && columnCount() > 1 ? 1 : 0;
  return own ? own : at.column() == place ? of_row : nullptr;
}

QModelIndex ImportModel::next_refused(int from_row) const {
  if (!list_) return {};
  const std::size_t row = list_->next_refused(std::size_t(std::max(0, from_row)));
  if (row >= list_->rows()) return {};
  for (int column = 0; column < columnCount(); ++column)
    if (const RowNote* one = note(index(int(row), column)); one && !one->warning) return index(int(row), column);
  return index(int(row), 0);
}

int ImportModel::rowCount(const QModelIndex& parent) const { return parent.isValid() || !list_ ? 0 : int(list_->rows()); }
int ImportModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() || !list_ ? 0 : int(list_->columns().size());
}

QVariant ImportModel::data(const QModelIndex& at, int role) const {
  if (!list_ || !at.isValid()) return {};
  const std::string& cell = list_->cell(std::size_t(at.row()), std::size_t(at.column()));
  if (role == Qt::EditRole) return to_qt(cell);
  const RowNote* one = note(at);
  switch (role) {
    case Qt::DisplayRole: {
      const QString text = shown(cell);
      if (!one) return text;
      return text.isEmpty() ? note_word(*one) : QStringLiteral("%1 · %2").arg(text, note_word(*one));
    }
    case Qt::DecorationRole: return one ? QVariant(mark_of(one->warning)) : QVariant();
    case Qt::ToolTipRole:
    case Qt::AccessibleDescriptionRole: return one ? note_sentence(*one) : QString();
    case Qt::ForegroundRole: {
      if (one && !one->warning) return inks().signal;
      const bool used = list_->columns()[std::size_t(at.column())].use.field != intake::ListField::none;
      return used ? inks().ink : inks().quiet;
    }
    default: return {};
  }
}

QVariant ImportModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (!list_ || section < 0) return {};
  if (orientation == Qt::Vertical) {
    if (section >= rowCount()) return {};
    if (role == Qt::DisplayRole) return QString::number(list_->line(std::size_t(section)));
    return {};
  }
  if (section >= columnCount() || role != Qt::DisplayRole) return {};
  const QString heading = shown(list_->columns()[std::size_t(section)].heading);
  return heading.isEmpty() ? tr("Column %1").arg(section + 1) : heading;
}

Qt::ItemFlags ImportModel::flags(const QModelIndex& at) const {
  return at.isValid() ? Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable : Qt::NoItemFlags;
}

bool ImportModel::setData(const QModelIndex& at, const QVariant& value, int role) {
  if (!list_ || !at.isValid() || role != Qt::EditRole) return false;
  const std::string text = to_core(value.toString());
  if (text == list_->cell(std::size_t(at.row()), std::size_t(at.column()))) return true;
  list_->set_cell(std::size_t(at.row()), std::size_t(at.column()), text);
  tell_all();
  return true;
}

}  // namespace prillbook::ui
