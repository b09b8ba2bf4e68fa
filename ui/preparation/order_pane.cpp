// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/order_pane.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/lab/lab.h"
#include "core/results/due_order.h"
#include "ui/kit/figures.h"
#include "ui/kit/ledger.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/preparation/words.h"

namespace prillbook::ui {

OrderPane::OrderPane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      words_(new QLabel),
      places_(new Ledger(tr("Crushing order, poor to rich"))),
      keep_(new PressButton(tr("Take this order as the queue"))),
      refused_(new QLabel) {
  words_->setTextFormat(Qt::PlainText);
  words_->setWordWrap(true);
  places_->set_most_rows(12);
  refused_->setTextFormat(Qt::PlainText);
  refused_->setWordWrap(true);
  refused_->setFont(face(TextSize::small));
  refused_->setProperty("tone", QStringLiteral("signal"));
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(keep_);
  buttons->addWidget(refused_, 1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(words_);
  column->addWidget(places_);
  column->addLayout(buttons);
  connect(keep_, &QPushButton::clicked, this, &OrderPane::keep_order);
  refresh();
}

QString OrderPane::words() const { return words_->text(); }
QString OrderPane::refusal_words() const { return refused_->text(); }

void OrderPane::show_machine(MachineId machine) {
  machine_ = machine;
  refresh();
}

void OrderPane::refresh() {
  places_->hide();
  keep_->hide();
  refused_->clear();
  if (!machine_) return words_->setText(tr("No machine is chosen."));
  const Instant now = session_.journal.clock().now();
  const auto order = results::propose_order_by_due(session_.connection, machine_, now);
  if (!order) return words_->setText(preparation_sentence(order.error()));
  if (order->places.empty()) return words_->setText(tr("Nothing waits for this machine."));
  const DecimalMark mark = session_.writing.mark;
  std::vector<LedgerRow> rows;
  for (const results::ProposedPlace& place : order->places) {
    QString words = basis_word(place.grade.basis);
    if (place.rock.flushes > 0) {
      const QString times = place.rock.flushes == 1 ? QString() : tr("%1 times, one after another").arg(place.rock.flushes);
      rows.push_back({-place.sample.id.value, 0, tr("flush"), tr("barren rock"), mass_figure(order->flush, mark), true, times});
    }
    if (place.rock.above_limit)
      words = tr("carry-over %1 % even so · %2").arg(number_words(place.rock.carryover_pct, mark), words);
    if (place.due) words = tr("due %1 · %2").arg(date_text(*place.due), words);
    const QString grade = number_words(place.grade.grade.in(unit::gram_per_tonne), mark);
    rows.push_back({place.sample.id.value,
                    0,
                    to_qt(place.sample.number),
                    to_qt(place.sample.mark),
                    {grade, QStringLiteral("g/t")},
                    true,
                    words});
  }
  places_->set_rows(std::move(rows));
  places_->show();
  keep_->setVisible(!session_.read_only());
  words_->setText(tr("What is due within %n days first, then poor to rich: ", nullptr, results::urgent_days) +
                  tr("%1 of barren rock in all; as they came in it would take %2.")
                      .arg(mass_words(order->flush_total, mark), mass_words(order->arrival_flush_total, mark)));
}

void OrderPane::keep_order() {
  const auto order = results::propose_order_by_due(session_.connection, machine_, session_.journal.clock().now());
  if (!order) return refused_->setText(preparation_sentence(order.error()));
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  const auto kept =
      milling::keep_plan(session_.journal, machine_, person ? person->id : PersonId{}, results::places_to_keep(*order));
  if (!kept) refused_->setText(preparation_sentence(kept.error()));
}

}  // namespace prillbook::ui
