// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/origins_view.h"

#include <QtWidgets/QHeaderView>

#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

OriginsView::OriginsView(QWidget* parent) : QTreeWidget(parent) {
  setAccessibleName(tr("Where the figures come from"));
  setColumnCount(2);
  setHeaderLabels({tr("Where this comes from"), tr("Figure")});
  header()->setSectionResizeMode(0, QHeaderView::Stretch);
  header()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
  header()->setStretchLastSection(false);
  setFrameShape(QFrame::NoFrame);
  setFont(face(TextSize::small));
  setFixedHeight(22 * rhythm);
  setWordWrap(true);
}

void OriginsView::show_origins(const std::vector<summary::Origin>& origins) {
  clear();
  for (const summary::Origin& origin : origins) {
    auto* figure = new QTreeWidgetItem(this, {to_qt(origin.what), to_qt(origin.figure)});
    const auto add = [&](const QString& words) {
      auto* line = new QTreeWidgetItem(figure, {words});
      line->setFirstColumnSpanned(true);
      line->setToolTip(0, words);
    };
    add(tr("Formula: %1").arg(to_qt(origin.formula)));
    for (const std::string& constant : origin.constants) add(tr("With: %1").arg(to_qt(constant)));
    add(tr("Source: %1").arg(to_qt(origin.source)));
    for (const std::string& other : origin.from) add(tr("From: %1").arg(to_qt(other)));
    for (const summary::ReadingLine& reading : origin.readings)
      add(tr("Read: %1").arg(to_qt(summary::reading_in_words(reading))));
  }
  setVisible(topLevelItemCount() > 0);
}

}  // namespace prillbook::ui
