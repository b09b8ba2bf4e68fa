// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pan/panning_rows.h"

#include <QtWidgets/QGridLayout>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/lab/lab.h"
#include "ui/kit/figures.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

QString kind_in_words(const std::string& kind) {
  if (kind == "first") return PanningRows::tr("first pan");
  if (kind == "repan") return PanningRows::tr("re-pan of the tail");
  return PanningRows::tr("clean-up");
}

}  // namespace

PanningRows::PanningRows(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      first_(new PressButton(tr("First pan"))),
      repan_(new PressButton(tr("Re-pan of the tail"))),
      clean_up_(new PressButton(tr("Clean-up"))) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(rhythm);
  const std::pair<PressButton*, const char*> kinds[] = {{first_, "first"}, {repan_, "repan"}, {clean_up_, "clean_up"}};
  for (const auto& [button, kind] : kinds) {
    connect(button, &QPushButton::clicked, this, [this, name = std::string(kind)] { add(name); });
    button->setEnabled(!session.read_only());
    buttons->addWidget(button);
  }
  buttons->addStretch();
  column->addLayout(buttons);
}

void PanningRows::show_pannings(const results::SampleRecord& record, const results::PanEntry& entry) {
  bool same = test_ == entry.test.id && rows_.size() == entry.pannings.size();
  for (std::size_t i = 0; same && i < rows_.size(); ++i) same = rows_[i].id == entry.pannings[i].id;
  test_ = entry.test.id;
  if (!same) rebuild(entry);
  bool has_first = false;
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    const gravity::Panning& panning = entry.pannings[i];
    has_first = has_first || panning.kind == "first";
    QStringList words{QString::number(panning.number), kind_in_words(panning.kind)};
    if (const std::string who = record.initials(panning.panned_by); !who.empty()) words << to_qt(who);
    if (panning.panned_at) words << date_time_text(*panning.panned_at);
    rows_[i].words->setText(words.join(QStringLiteral(" · ")));
    rows_[i].kept->set_value(panning.concentrate);
  }
  first_->setVisible(!has_first);
}

void PanningRows::rebuild(const results::PanEntry& entry) {
  for (Row& row : rows_) row.kept->field()->commit();
  rows_.clear();
  if (sheet_) sheet_->deleteLater();
  sheet_ = new QWidget;
  grid_ = new QGridLayout(sheet_);
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setHorizontalSpacing(2 * rhythm);
  grid_->setColumnStretch(0, 2);
  grid_->setColumnStretch(1, 1);
  static_cast<QVBoxLayout*>(layout())->insertWidget(0, sheet_);
  for (const gravity::Panning& panning : entry.pannings) add_row(panning);
  sheet_->setVisible(!rows_.empty());
  QWidget* before = nullptr;
  for (Row& row : rows_) {
    if (before) setTabOrder(before, row.kept->field());
    before = row.kept->field();
  }
  if (before) setTabOrder(before, first_);
}

void PanningRows::add_row(const gravity::Panning& panning) {
  auto* words = new QLabel;
  words->setFont(face(TextSize::body));
  words->setTextFormat(Qt::PlainText);
  words->setWordWrap(true);
  auto* kept =
      new FigureEntry(tr("Kept in %1").arg(kind_in_words(panning.kind)), {Measure::mass, "g", session_.writing.mark, true});
  kept->field()->set_read_only(session_.read_only());
  kept->on_commit([this, id = panning.id](const auto& mass, const auto& why) {
    return gravity::set_concentrate(session_.journal, id, mass, why);
  });
  const int row = int(rows_.size());
  grid_->addWidget(words, row, 0, Qt::AlignVCenter);
  grid_->addWidget(kept, row, 1);
  rows_.push_back({panning.id, kept, words});
  kept->field()->keep_drafts(session_.drafts, QStringLiteral("panning/%1/concentrate").arg(panning.id.value));
}

void PanningRows::add(const std::string& kind) {
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  const auto made = gravity::add_panning(session_.journal, {test_, kind, {}, person.ok() ? person->id : PersonId{}, {}});
  if (!made.ok()) emit said(sentence(made.error()));
}

}  // namespace prillbook::ui
