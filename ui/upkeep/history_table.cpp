// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/upkeep/history_table.h"

#include <QtCore/QStringList>
#include <QtGui/QKeyEvent>
#include <QtGui/QPainter>
#include <QtWidgets/QHeaderView>
#include <QtWidgets/QScrollBar>

#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

// Widths in rhythms; the last column takes what is left.
constexpr int widths[] = {21, 9, 26, 18, 22, 28, 18};
constexpr int longest_cell = 200;

QString standing_words(const versions::Version& version) {
  if (version.undone) return HistoryModel::tr("taken back");
  if (version.standing == versions::Standing::undoes) return HistoryModel::tr("takes back");
  return version.standing == versions::Standing::redoes ? HistoryModel::tr("puts back") : QString();
}

}  // namespace

void HistoryModel::clear() {
  beginResetModel();
  lines_.clear();
  endResetModel();
}

HistoryModel::Line HistoryModel::line_of(store::Connection& connection, const versions::Version& version) {
  const versions::Words words = versions::words_of(connection, version.row);
  Line line{version, {}};
  line.cells[when_column] = date_time_text(version.row.when);
  line.cells[who_column] = to_qt(version.row.who);
  line.cells[record_column] = to_qt(words.kind + (words.record.empty() ? "" : " " + words.record));
  line.cells[field_column] = version.made() ? tr("made") : to_qt(words.field);
  line.cells[old_column] = to_qt(words.old_text);
  line.cells[new_column] = to_qt(words.new_text);
  QStringList why;
  if (const QString standing = standing_words(version); !standing.isEmpty()) why << standing;
  if (version.row.why) why << to_qt(*version.row.why);
  line.cells[why_column] = why.join(QStringLiteral(" · "));
  return line;
}

void HistoryModel::append(store::Connection& connection, const std::vector<versions::Version>& versions) {
  if (versions.empty()) return;
  const int first = int(lines_.size());
  beginInsertRows({}, first, first + int(versions.size()) - 1);
  for (const versions::Version& version : versions) lines_.push_back(line_of(connection, version));
  endInsertRows();
}

const versions::Version* HistoryModel::version(int row) const {
  return row >= 0 && row < int(lines_.size()) ? &lines_[std::size_t(row)].version : nullptr;
}

int HistoryModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : int(lines_.size()); }
int HistoryModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : column_count; }

QVariant HistoryModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= int(lines_.size())) return {};
  const Line& line = lines_[std::size_t(index.row())];
  const QString& cell = line.cells[index.column()];
  const bool quiet = index.column() == when_column || index.column() == who_column || index.column() == old_column;
  switch (role) {
    case Qt::DisplayRole: return in_short(QString(cell).replace('\n', ' '), longest_cell);
    case Qt::ToolTipRole: return cell.toHtmlEscaped();
    case Qt::ForegroundRole: return quiet || line.version.undone ? QVariant(inks().quiet) : QVariant();
    case Qt::FontRole: {
      QFont font = face(TextSize::small);
      font.setStrikeOut(line.version.undone && (index.column() == new_column || index.column() == field_column));
      return font;
    }
    default: return {};
  }
}

QVariant HistoryModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole) return int(Qt::AlignLeft | Qt::AlignVCenter);
  if (role == Qt::FontRole) return face(TextSize::small);
  if (role != Qt::DisplayRole) return {};
  const QString heads[] = {tr("When"), tr("Who"), tr("Record"), tr("Field"), tr("Before"), tr("Since then"), tr("Why")};
  return section < column_count ? heads[section] : QString();
}

HistoryTable::HistoryTable(const QString& accessible_name, QWidget* parent) : QTableView(parent) {
  setAccessibleName(accessible_name);
  setModel(&model_);
  setFrameShape(QFrame::NoFrame);
  setShowGrid(false);
  setWordWrap(false);
  setTabKeyNavigation(false);
  setSelectionBehavior(QAbstractItemView::SelectRows);
  setSelectionMode(QAbstractItemView::SingleSelection);
  setEditTriggers(QAbstractItemView::NoEditTriggers);
  setVerticalScrollMode(QAbstractItemView::ScrollPerItem);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  verticalHeader()->hide();
  verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  verticalHeader()->setDefaultSectionSize(4 * rhythm);
  horizontalHeader()->setHighlightSections(false);
  horizontalHeader()->setSectionsClickable(false);
  horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  horizontalHeader()->setStretchLastSection(true);
  horizontalHeader()->setFont(face(TextSize::small));
  connect(this, &QTableView::doubleClicked, this, &HistoryTable::open_current);
  connect(verticalScrollBar(), &QScrollBar::valueChanged, this, [this](int value) {
    if (value >= verticalScrollBar()->maximum()) emit end_reached();
  });
}

void HistoryTable::set_empty_words(const QString& words) {
  empty_words_ = words;
  viewport()->update();
}

QString HistoryTable::whole_words() const {
  const versions::Version* version = model_.version(currentIndex().row());
  if (!version) return {};
  const auto cell = [this](int column) { return model_.index(currentIndex().row(), column).data(Qt::ToolTipRole).toString(); };
  QStringList words{
      QStringLiteral("<b>%1</b> · %2 · %3")
          .arg(cell(HistoryModel::record_column), to_qt(version->row.gesture).toHtmlEscaped(), cell(HistoryModel::field_column))};
  if (!cell(HistoryModel::old_column).isEmpty()) words << tr("before: %1").arg(cell(HistoryModel::old_column));
  words << tr("since then: %1").arg(cell(HistoryModel::new_column));
  if (!cell(HistoryModel::why_column).isEmpty()) words << cell(HistoryModel::why_column);
  return words.join(QStringLiteral("<br>"));
}

// The columns share the width there is; at arm's length a value matters more than its reason.
void HistoryTable::resizeEvent(QResizeEvent* event) {
  QTableView::resizeEvent(event);
  int wanted = 0;
  for (const int width : widths) wanted += width;
  const double share = double(viewport()->width()) / (wanted * rhythm);
  for (int column = 0; column + 1 < HistoryModel::column_count; ++column)
    setColumnWidth(column, int(widths[column] * rhythm * share));
}

void HistoryTable::paintEvent(QPaintEvent* event) {
  QTableView::paintEvent(event);
  if (model_.rowCount() > 0 || empty_words_.isEmpty()) return;
  QPainter painter(viewport());
  painter.setFont(face(TextSize::body));
  painter.setPen(inks().quiet);
  painter.drawText(viewport()->rect().adjusted(2 * rhythm, 2 * rhythm, -2 * rhythm, 0), Qt::AlignTop | Qt::TextWordWrap,
                   empty_words_);
}

void HistoryTable::keyPressEvent(QKeyEvent* event) {
  if (event->key() != Qt::Key_Return && event->key() != Qt::Key_Enter) return QTableView::keyPressEvent(event);
  open_current();
}

void HistoryTable::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
  QTableView::currentChanged(current, previous);
  emit taken();
  if (current.row() + 1 >= model_.rowCount()) emit end_reached();
}

void HistoryTable::open_current() {
  if (const versions::Version* version = model_.version(currentIndex().row()))
    emit opened(version->row.entity, version->row.record);
}

}  // namespace prillbook::ui
