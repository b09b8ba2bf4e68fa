// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/first_steps.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QVBoxLayout>

#include "core/lab/lab.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/setup/lab_page.h"
#include "ui/setup/tables.h"

namespace prillbook::ui {
namespace {

constexpr int number_column = 5 * rhythm, page_width = 98 * rhythm;

QLabel* words(const QString& text, TextSize size, Weight weight, const char* tone = "") {
  auto* label = new QLabel(text);
  label->setFont(face(size, weight));
  label->setProperty("tone", tone);
  label->setWordWrap(true);
  return label;
}

}  // namespace

bool FirstSteps::wanted(Session& session) {
  const auto people = lab::people(session.connection);
  const auto balances = lab::balances(session.connection);
  const auto clients = lab::clients(session.connection);
  return people.ok() && balances.ok() && clients.ok() && people->empty() && balances->empty() && clients->empty();
}

FirstSteps::FirstSteps(Session& session, Ways ways, QWidget* parent)
    : QWidget(parent),
      session_(session),
      ways_(std::move(ways)),
      name_(new SettingField(session, "lab.name", tr("Name of the lab"))),
      people_(people_table(session, Columns::needed)),
      balances_(balances_table(session, Columns::needed)),
      clients_(clients_table(session, Columns::needed)),
      on_(new PressButton(tr("Log the first consignment"), PressButton::Rank::main)) {
  auto* sheet = new QWidget;
  auto* column = new QVBoxLayout(sheet);
  column->setContentsMargins(6 * rhythm, 3 * rhythm, 4 * rhythm, 3 * rhythm);
  column->setSpacing(rhythm);
  column->addWidget(words(tr("An empty notebook"), TextSize::large, Weight::bold));
  column->addWidget(words(tr("Three things, then the first bag. All of it can be changed later in Lab set-up."), TextSize::body,
                          Weight::book, "quiet"));
  auto* first = new QWidget;
  auto* first_row = new QHBoxLayout(first);
  first_row->setContentsMargins(0, 0, 0, 0);
  first_row->setSpacing(3 * rhythm);
  first_row->addWidget(name_, 2, Qt::AlignTop);
  first_row->addWidget(people_, 3, Qt::AlignTop);
  column->addWidget(step(1, tr("The lab and who works in it"), tr("Initials stand beside every entry."), first));
  column->addWidget(step(2, tr("A balance with its step"),
                         tr("The smallest change it shows decides how far a bead may be trusted."), balances_));
  column->addWidget(step(3, tr("A client"), tr("Whose rock it is."), clients_));
  auto* buttons = new QHBoxLayout;
  buttons->setContentsMargins(number_column, 2 * rhythm, 0, 0);
  buttons->setSpacing(2 * rhythm);
  buttons->addWidget(on_);
  if (ways_.show_demonstration) {
    auto* demonstration = new PressButton(tr("Look at the demonstration instead"));
    connect(demonstration, &QPushButton::clicked, this, [this] { ways_.show_demonstration(); });
    buttons->addWidget(demonstration);
  }
  buttons->addStretch();
  column->addLayout(buttons);
  column->addStretch();
  sheet->setMaximumWidth(page_width);

  auto* scroll = new QScrollArea;
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setWidget(sheet);
  scroll->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  scroll->viewport()->setAutoFillBackground(false);
  sheet->setAutoFillBackground(false);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(scroll);

  connect(on_, &QPushButton::clicked, this, [this] {
    if (ways_.log_first) ways_.log_first();
  });
  connect(people_, &RecordTable::made, this, [this](RecordId id) {
    const auto people = lab::people(session_.connection);
    if (!people.ok() || people->size() != 1 || people->front().id.value != id) return;
    if (session_.journal.author().empty() && ways_.works_here) ways_.works_here(to_qt(people->front().initials));
  });
  for (RecordTable* table : {people_, balances_, clients_}) connect(table, &RecordTable::made, this, [this] { refresh(); });
  connect(&session_.notifier, &Notifier::written, this, [this] { refresh(); });
  setFocusProxy(name_->editor());
  refresh();
}

QWidget* FirstSteps::step(int number, const QString& what, const QString& why, QWidget* content) {
  auto* holder = new QWidget;
  auto* row = new QHBoxLayout(holder);
  row->setContentsMargins(0, 2 * rhythm, 0, 0);
  row->setSpacing(0);
  auto* mark = words(QString::number(number), TextSize::large, Weight::bold, "accent");
  mark->setFixedWidth(number_column);
  mark->setAlignment(Qt::AlignTop);
  marks_.push_back(mark);
  row->addWidget(mark, 0, Qt::AlignTop);
  auto* column = new QVBoxLayout;
  column->setSpacing(rhythm / 2);
  auto* head = new QHBoxLayout;
  head->setSpacing(2 * rhythm);
  auto* first_words = words(what, TextSize::body, Weight::bold);
  first_words->setWordWrap(false);
  head->addWidget(first_words);
  head->addWidget(words(why, TextSize::small, Weight::book, "quiet"), 1);
  column->addLayout(head);
  column->addWidget(content);
  row->addLayout(column, 1);
  return holder;
}

// A step that is done is ticked; the way on opens with the third.
void FirstSteps::refresh() {
  const auto settings = lab::settings(session_.connection);
  if (settings.ok()) name_->refresh(*settings);
  people_->refresh();
  balances_->refresh();
  clients_->refresh();
  const auto balances = lab::balances(session_.connection);
  const bool step_known = balances.ok() && !balances->empty() && balances->front().step.has_value();
  const bool done[] = {people_->count() > 0, step_known, clients_->count() > 0};
  for (std::size_t i = 0; i < marks_.size(); ++i) {
    marks_[i]->setText(done[i] ? QStringLiteral("✓") : QString::number(i + 1));
    marks_[i]->setAccessibleName(done[i] ? tr("step %1, done").arg(i + 1) : tr("step %1").arg(i + 1));
  }
  on_->setEnabled(done[0] && done[2]);
}

}  // namespace prillbook::ui
