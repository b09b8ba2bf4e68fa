// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/pairs_pane.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>

#include "core/assay/rounding.h"
#include "core/quality/cochran.h"
#include "core/quality/precision.h"
#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/quality/pairs_picture.h"
#include "ui/quality/row_list.h"
#include "ui/quality/words.h"

namespace prillbook::ui {
namespace {

constexpr std::int64_t most_pairs = 200;

QString gold_words(const results::SingleTest& test, DecimalMark mark) {
  return test.gold() ? to_qt(written(test.gold()->g_t(), {}, 0.01, mark)) : PairsPane::tr("no gold yet");
}

// A row is known by its test; a pan test under its id with a minus.
WaitingRow row_of_pair(const results::DuplicatePair& pair, DecimalMark mark) {
  QStringList words{verdict_word(pair.verdict)};
  words << PairsPane::tr("%1 and %2 g/t").arg(gold_words(pair.first, mark), gold_words(pair.second, mark));
  if (pair.apart_pct)
    words << PairsPane::tr("%1 % apart, %2 let pass")
                 .arg(to_qt(fixed(*pair.apart_pct, 0, mark)), to_qt(written(pair.limit_pct, {}, {}, mark)));
  return {pair.second.charge ? pair.second.charge.value : -pair.second.pan_test.value, to_qt(pair.second.label),
          PairsPane::tr("%1 of %2").arg(role_word(pair.second.role), to_qt(pair.first.label)), words.join(QStringLiteral(" · ")),
          Urgency::usual};
}

}  // namespace

PairsPane::PairsPane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      picture_(new PairsPicture),
      statistics_(new QLabel),
      list_(new RowList(tr("Pairs, the newest first"))),
      second_(new TextField(tr("The duplicate"))),
      first_(new TextField(tr("of"))),
      kind_(new ChoiceField(
          tr("It is a duplicate"),
          {{"duplicate_field", tr("field")}, {"duplicate_coarse", tr("coarse")}, {"duplicate_pulp", tr("pulp")}})) {
  statistics_->setFont(face(TextSize::body));
  statistics_->setWordWrap(true);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(picture_);
  column->addWidget(statistics_);
  column->addWidget(list_);
  column->addWidget(hairline());
  auto* form = new Form(3);
  form->heading(tr("A new pair"));
  form->row({second_, first_, kind_});
  column->addWidget(form);
  column->addStretch();
  second_->set_hint(tr("number of its portion: 26-0003/5"));
  first_->set_hint(tr("26-0003/2"));
  second_->on_commit([this](const auto& label) -> Result<void> {
    second_label_ = label.value_or("");
    return {};
  });
  first_->on_commit([this](const auto& label) -> Result<void> {
    first_label_ = label.value_or("");
    return {};
  });
  kind_->on_commit([this](const auto& kind) { return join(kind); });
  for (Field* field : {static_cast<Field*>(second_), static_cast<Field*>(first_), static_cast<Field*>(kind_)})
    field->set_read_only(session_.read_only());
  connect(list_, &WaitingList::opened, this, [this](RecordId id) {
    emit open_requested(id > 0 ? RecordRef{history::Entity::charge, id} : RecordRef{history::Entity::pan_test, -id});
  });
}

Result<void> PairsPane::join(const std::optional<std::string>& kind) {
  if (!kind) return {};
  store::Connection& connection = session_.connection;
  const controls::Role role = controls::role_named(*kind);
  const auto second = controls::charge_by_label(connection, second_label_, "charge.duplicate_of_id");
  Result<void> written;
  if (second.ok()) {
    const auto first = controls::charge_by_label(connection, first_label_, "charge.duplicate_of_id");
    if (!first.ok()) return first.error();
    written = controls::set_duplicate(session_.journal, *second, *first, role);
  } else {
    const auto panned = controls::pan_test_by_label(connection, second_label_, "charge.duplicate_of_id");
    if (!panned.ok()) return panned.error();
    const auto first = controls::pan_test_by_label(connection, first_label_, "charge.duplicate_of_id");
    if (!first.ok()) return first.error();
    written = controls::set_duplicate(session_.journal, *panned, *first, role);
  }
  if (!written.ok()) return written;
  QMetaObject::invokeMethod(
      this,
      [this] {
        second_->set_value(std::nullopt);
        first_->set_value(std::nullopt);
        kind_->set_value(std::nullopt);
        second_label_.clear();
        first_label_.clear();
        enter();
      },
      Qt::QueuedConnection);
  return {};
}

void PairsPane::refresh() {
  auto reader = results::TestReader::open(session_.connection);
  if (!reader.ok()) return statistics_->setText(sentence(reader.error()));
  const auto pairs = results::duplicate_pairs(*reader, most_pairs);
  if (!pairs.ok()) return statistics_->setText(sentence(pairs.error()));
  std::vector<WaitingRow> rows;
  for (const results::DuplicatePair& pair : *pairs) rows.push_back(row_of_pair(pair, session_.writing.mark));
  list_->show_rows(std::move(rows));
  picture_->show_pairs(*pairs, session_.writing.mark);
  show_statistics(*pairs);
}

void PairsPane::show_statistics(const std::vector<results::DuplicatePair>& pairs) {
  const auto gold = results::gold_pairs(pairs);
  const auto statistics = pair_statistics(gold);
  picture_->setVisible(statistics.ok());
  if (!statistics.ok())
    return statistics_->setText(
        tr("No pair can be compared yet. Cut a second portion of a sample for “fire”, or pan it again, and name the two below: "
           "a pulp duplicate tells of the furnace and the balance, a coarse one of the splitting besides, a field one of the "
           "sampling too."));
  const DecimalMark mark = session_.writing.mark;
  QString words =
      tr("Pairs: %1. Coefficient of variation %2 % (root mean square); difference over sum %3 % (median).")
          .arg(statistics->n)
          .arg(to_qt(fixed(statistics->cv_average_pct, 1, mark)), to_qt(fixed(statistics->half_ard_median_pct, 1, mark)));
  const auto precision = precision_by_grade(gold);
  if (precision.ok() && precision->rise)
    words +=
        QLatin1Char(' ') + tr("The scatter of one result grows from %1 g/t at nothing by %2 % of the grade.")
                               .arg(to_qt(fixed(*precision->sd_at_zero, 2, mark)), to_qt(fixed(100 * *precision->rise, 1, mark)));
  else
    words += QLatin1Char(' ') + tr("How the scatter grows with the grade is told from 22 pairs on.");
  if (const auto widest = widest_pair(gold); widest && widest->stands_out())
    words += QLatin1Char(' ') +
             tr("The pair %1 holds %2 % of the scatter, more than one of %3 should (Cochran, 5 %: %4 %): look for its reason "
                "before the others are judged by it.")
                 .arg(to_qt(results::comparable(pairs)[widest->index]->second.label), to_qt(fixed(100 * widest->share, 0, mark)))
                 .arg(statistics->n)
                 .arg(to_qt(fixed(100 * widest->critical, 0, mark)));
  statistics_->setText(words);
}

void PairsPane::enter() { second_->setFocus(Qt::OtherFocusReason); }

}  // namespace prillbook::ui
