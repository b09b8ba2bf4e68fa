// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/column_strip.h"

#include <QtCore/QEvent>
#include <QtCore/QSignalBlocker>
#include <QtGui/QKeyEvent>
#include <QtGui/QWheelEvent>
#include <QtWidgets/QHeaderView>
#include <QtWidgets/QScrollBar>
#include <QtWidgets/QTableView>
#include <algorithm>

#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/receiving/import_words.h"

namespace prillbook::ui {
namespace {

using intake::ColumnUse;
using intake::ListField;

// Units that a mass is offered in; others come from the heading.
constexpr std::array<std::string_view, 3> offered_masses{"kg", "g", "lb"};

std::vector<ColumnUse> offered_uses(const ColumnUse& in_use) {
  std::vector<ColumnUse> uses;
  for (const ListField field : intake::list_fields) {
    const auto measure = intake::measure_of(field);
    if (measure == Measure::mass)
      for (const std::string_view unit : offered_masses) uses.push_back({field, std::string(unit)});
    else
      uses.push_back({field, std::string(intake::usual_unit(field))});
  }
  if (std::find(uses.begin(), uses.end(), in_use) == uses.end()) uses.push_back(in_use);
  return uses;
}

}  // namespace

void QuietCombo::wheelEvent(QWheelEvent* event) { event->ignore(); }

void QuietCombo::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return showPopup();
  QComboBox::keyPressEvent(event);
}

ColumnStrip::ColumnStrip(QTableView* table, QWidget* parent) : QWidget(parent), table_(table) {
  setFixedHeight(4 * rhythm + 2);
  const QHeaderView* header = table_->horizontalHeader();
  connect(header, &QHeaderView::sectionResized, this, &ColumnStrip::place);
  connect(header, &QHeaderView::geometriesChanged, this, &ColumnStrip::place);
  connect(table_->horizontalScrollBar(), &QScrollBar::valueChanged, this, &ColumnStrip::place);
  table_->viewport()->installEventFilter(this);
}

bool ColumnStrip::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Resize || event->type() == QEvent::Move) place();
  // A choice that was reached by Tab is brought into sight.
  if (event->type() == QEvent::FocusIn)
    for (std::size_t i = 0; i < combos_.size(); ++i)
      if (combos_[i] == watched) {
        const int row = std::max(0, table_->currentIndex().row());
        table_->scrollTo(table_->model()->index(row, int(i)));
      }
  return QWidget::eventFilter(watched, event);
}

void ColumnStrip::show_columns(const std::vector<intake::ListColumn>& columns) {
  while (combos_.size() > columns.size()) {
    combos_.back()->hide();
    combos_.back()->deleteLater();
    combos_.pop_back();
  }
  while (combos_.size() < columns.size()) {
    auto* combo = new QuietCombo(this);
    const int column = int(combos_.size());
    combo->installEventFilter(this);
    connect(combo, &QComboBox::activated, this, [this, combo, column] {
      const auto field = ListField(combo->currentData().toInt());
      emit chosen(column, {field, to_core(combo->currentData(Qt::UserRole + 1).toString())});
    });
    combo->show();
    combos_.push_back(combo);
  }
  for (std::size_t i = 0; i < columns.size(); ++i) {
    fill(combos_[i], columns[i].use);
    const QString heading = to_qt(columns[i].heading).simplified();
    combos_[i]->setAccessibleName(heading.isEmpty() ? tr("Column %1 stands for").arg(i + 1)
                                                    : tr("Column %1, %2, stands for").arg(i + 1).arg(heading));
  }
  place();
}

void ColumnStrip::fill(QComboBox* combo, const ColumnUse& use) {
  const QSignalBlocker quiet(combo);
  combo->clear();
  for (const ColumnUse& offered : offered_uses(use)) {
    combo->addItem(column_use_words(offered), int(offered.field));
    combo->setItemData(combo->count() - 1, to_qt(offered.unit), Qt::UserRole + 1);
    if (offered == use) combo->setCurrentIndex(combo->count() - 1);
  }
}

void ColumnStrip::place() {
  const QHeaderView* header = table_->horizontalHeader();
  const int left = table_->viewport()->x();
  for (std::size_t i = 0; i < combos_.size(); ++i) {
    if (int(i) >= header->count()) break;
    const int x = left + header->sectionViewportPosition(int(i));
    combos_[i]->setGeometry(x + rhythm, 0, header->sectionSize(int(i)) - 2 * rhythm, height());
  }
}

}  // namespace prillbook::ui
