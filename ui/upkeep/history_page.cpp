// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/upkeep/history_page.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/versions/names.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/upkeep/history_table.h"

namespace prillbook::ui {

HistoryPage::HistoryPage(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      head_(new Headline),
      journal_(new PressButton(tr("The whole journal…"))),
      table_(new HistoryTable(tr("Versions"))),
      whole_(new QLabel) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(3 * rhythm, 2 * rhythm, 3 * rhythm, rhythm);
  whole->setSpacing(rhythm);
  auto* top = new QHBoxLayout;
  top->addWidget(head_, 1);
  top->addWidget(journal_, 0, Qt::AlignTop);
  whole->addLayout(top);
  whole->addWidget(hairline());
  whole->addWidget(table_, 1);
  whole->addWidget(hairline());
  whole_->setFont(face(TextSize::body));
  whole_->setWordWrap(true);
  whole->addWidget(whole_);
  connect(table_, &HistoryTable::taken, this, &HistoryPage::show_whole);
  connect(table_, &HistoryTable::opened, this, [this](qint64 entity, qint64 record) {
    emit open_requested({history::Entity(entity), record});
  });
  connect(journal_, &QPushButton::clicked, this, &HistoryPage::journal_requested);
  connect(&session_.notifier, &Notifier::written, this, [this] {
    if (isVisible()) refresh();
  });
}

bool HistoryPage::show_record(const RecordRef& wanted) {
  record_ = wanted;
  return refresh();
}

bool HistoryPage::refresh() {
  std::vector<versions::RecordKey> records{{record_.entity, record_.record}};
  if (record_.entity == history::Entity::sample)
    if (auto all = versions::records_of_sample(session_.connection, record_.record)) records = *std::move(all);
  auto versions = versions::versions_of(session_.connection, records);
  table_->lines().clear();
  if (!versions || versions->empty()) return false;
  std::reverse(versions->begin(), versions->end());
  table_->lines().append(session_.connection, *versions);
  table_->selectRow(0);
  const QString name = to_qt(versions::record_name(session_.connection, record_.entity, record_.record));
  head_->set(name.isEmpty() ? to_qt(versions::kind_name(history::spec_of(record_.entity))) : name,
             tr("%n entries, the newest first", nullptr, count()));
  show_whole();
  return true;
}

int HistoryPage::count() const { return table_->lines().rowCount(); }
void HistoryPage::enter() { table_->setFocus(); }
void HistoryPage::show_whole() { whole_->setText(table_->whole_words()); }

}  // namespace prillbook::ui
