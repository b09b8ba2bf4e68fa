// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/milling_panel.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "core/summary/gather.h"
#include "core/summary/words_of_lot.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

namespace lot_fields = history::fields::milling_lot;

QLabel* account_line(TextSize size) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

QString cell_words(const summary::Cell& cell) {
  if (const auto* words = std::get_if<std::string>(&cell)) return to_qt(*words);
  QStringList figures;
  for (const summary::Figure& figure : std::get<std::vector<summary::Figure>>(cell)) figures << to_qt(with_unit(figure));
  return figures.join(QStringLiteral(", "));
}

}  // namespace

MillingPanel::MillingPanel(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      begin_(new PressButton(tr("This sample is the head of a milling lot"))),
      fields_(new RecordFields(session, history::Entity::milling_lot, this)),
      form_(build_form()),
      words_(account_line(TextSize::small)),
      refused_(account_line(TextSize::small)),
      account_(account_line(TextSize::body)) {
  words_->setProperty("tone", "quiet");
  refused_->setProperty("tone", "signal");
  refused_->hide();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(words_);
  column->addWidget(begin_, 0, Qt::AlignLeft);
  column->addWidget(refused_);
  column->addWidget(form_);
  column->addWidget(account_);
  begin_->setEnabled(!session.read_only());
  connect(begin_, &QPushButton::clicked, this, &MillingPanel::begin);
  show_sample({});
}

QWidget* MillingPanel::build_form() {
  auto* form = new Form(3);
  form->row({fields_->figure(tr("Mass milled"), lot_fields::mass, "kg", false),
             fields_->figure(tr("Moisture"), lot_fields::moisture, "%"), fields_->time(tr("Milled"), lot_fields::milled_at)});
  FigureEntry* head = fields_->figure(tr("Head, gold"), lot_fields::head, "g/t");
  form->row({head, fields_->figure(tr("Tail, gold"), lot_fields::tail_gold, "g/t")});
  form->row({fields_->figure(tr("Concentrate kept"), lot_fields::concentrate, "kg"),
             fields_->figure(tr("its gold"), lot_fields::concentrate_gold, "g/t")});
  form->row({fields_->figure(tr("Sponge"), lot_fields::sponge, "g"), fields_->figure(tr("Bullion"), lot_fields::bullion, "g"),
             fields_->figure(tr("its gold"), lot_fields::bullion_fineness, "‰")});
  form->row({fields_->figure(tr("Owner’s share"), lot_fields::owner_share, "%"),
             fields_->text(tr("What was agreed"), lot_fields::agreement)});
  form->row({fields_->text(tr("Remarks"), lot_fields::remarks)});
  return form;
}

void MillingPanel::show_sample(SampleId sample) {
  if (sample != sample_) {
    refused_->hide();
    fields_->show(0);
    form_->hide();
  }
  sample_ = sample;
  refresh();
}

void MillingPanel::begin() {
  if (!sample_) return;
  const auto made = milling::begin_lot(session_.journal, sample_);
  if (made.ok()) return refresh();
  refuse(made.error());
}

void MillingPanel::refuse(const Error& error) {
  refused_->setText(sentence(error));
  refused_->show();
}

void MillingPanel::refresh() {
  const auto lot = sample_ ? milling::lot_of(session_.connection, sample_) : Result(std::optional<milling::MillingLot>());
  if (!lot.ok()) return refuse(lot.error());  // what is typed stays in sight
  const bool there = lot->has_value();
  fields_->show(there ? (*lot)->id.value : 0);
  form_->setVisible(there);
  begin_->setVisible(bool(sample_) && !there);
  if (there) refused_->hide();
  words_->setText(!sample_ ? tr("Choose one sample alone to see whether it stands for a milling lot.")
                  : there ? tr("Where no head is entered the fire assay of the sample stands for it. The tail is not weighed: it "
                               "is what was milled, dry, less the concentrate.")
                          : QString());
  words_->setVisible(!words_->text().isEmpty());
  show_account();
}

void MillingPanel::show_account() {
  account_->clear();
  if (!sample_) return;
  const auto sample = summary::gather(session_.connection, sample_);
  if (!sample.ok()) return refuse(sample.error());
  if (!sample->lot) return;
  const auto account = summary::lot_account(*sample);
  if (!account.ok()) return account_->setText(sentence(account.error()));
  QStringList lines;
  for (const summary::TableRow& row : summary::lot_table(*sample->lot, *account, session_.writing.mark).rows)
    if (const QString gold = cell_words(row.cells[3]); !gold.isEmpty())
      lines << tr("%1: %2 of gold").arg(cell_words(row.cells[0]), gold);
  for (const std::string& words : summary::lot_words(*sample->lot, *account, session_.writing.mark)) lines << to_qt(words);
  account_->setText(lines.join(QLatin1Char('\n')));
}

}  // namespace prillbook::ui
