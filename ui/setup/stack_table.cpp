// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/stack_table.h"

#include <QtWidgets/QGridLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <algorithm>

#include "core/history/fields.h"
#include "core/readings/entry.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

namespace stack_fields = history::fields::sieve_stack;

}  // namespace

StackTable::StackTable(Session& session, QWidget* parent) : QWidget(parent), session_(session), grid_(new QGridLayout(this)) {
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setHorizontalSpacing(3 * rhythm);
  grid_->setVerticalSpacing(0);
  int column = 0;
  for (const QString& words : {tr("Sieves of the stack"), tr("Stack")}) {
    auto* head = new QLabel(words);
    head->setFont(face(TextSize::small));
    head->setProperty("tone", "quiet");
    grid_->addWidget(head, 0, column++);
  }
  grid_->setColumnStretch(0, 3);
  grid_->setColumnStretch(1, 2);
  refresh();
}

StackTable::Row StackTable::make_row(SieveStackId id, int place) {
  Row row{id, new TextField(tr("Stack")), new TextField(tr("Sieves of the stack"))};
  for (TextField* field : {row.sieves, row.name}) {
    field->set_in_row(true);
    field->set_read_only(session_.read_only());
  }
  grid_->addWidget(row.sieves, place, 0, Qt::AlignTop);
  grid_->addWidget(row.name, place, 1, Qt::AlignTop);
  grid_->setRowMinimumHeight(place, 4 * rhythm + 4);
  setTabOrder(row.sieves->line(), row.name->line());
  if (!id) {
    row.sieves->line()->setPlaceholderText(tr("20, 60, 100 ASTM"));
    row.name->line()->setPlaceholderText(tr("a name, or none"));
    row.name->on_commit([](const auto&) -> Result<void> { return {}; });
    row.sieves->on_commit([this](const auto& words) -> Result<void> {
      if (!words) return {};
      const auto made = sieves::add_stack(session_.journal, {}, *words);
      if (!made.ok()) return made.error();
      QMetaObject::invokeMethod(
          this,
          [this, id = *made] {
            foot_.sieves->leave_record();
            refresh();
            for (const Row& one : rows_)
              if (one.id == id) {
                one.name->line()->setFocus(Qt::OtherFocusReason);
                one.name->line()->selectAll();
              }
          },
          Qt::QueuedConnection);
      return {};
    });
    return row;
  }
  row.sieves->on_commit([this, id](const auto& words) -> Result<void> {
    return sieves::set_stack(session_.journal, id, words.value_or(std::string()));
  });
  row.name->on_commit([this, id](const auto& name) {
    return readings::enter(session_.journal, stack_fields::name, id.value, readings::cell_of(name));
  });
  return row;
}

void StackTable::refresh() {
  const auto held = sieves::stacks(session_.connection);
  if (!held.ok()) return;
  std::erase_if(rows_, [&](const Row& row) {
    const bool there = std::any_of(held->begin(), held->end(), [&](const sieves::Stack& stack) { return stack.id == row.id; });
    if (!there)
      for (TextField* field : {row.sieves, row.name}) field->hide(), field->deleteLater();
    return !there;
  });
  for (const sieves::Stack& stack : *held) {
    auto row = std::find_if(rows_.begin(), rows_.end(), [&](const Row& one) { return one.id == stack.id; });
    if (row == rows_.end()) row = rows_.insert(rows_.end(), make_row(stack.id, int(stack.id.value)));
    row->name->set_value(stack.name);
    row->sieves->set_value(stack.openings_in_words(session_.writing.mark));
  }
  if (!session_.read_only() && !foot_.sieves) {
    constexpr int below_all = 10'000;
    foot_ = make_row({}, below_all);
    foot_.name->setEnabled(false);
  }
}

void StackTable::enter() {
  if (foot_.sieves) foot_.sieves->line()->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
