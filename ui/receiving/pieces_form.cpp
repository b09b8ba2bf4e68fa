// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/pieces_form.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/history/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/ledger.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

namespace piece_fields = history::fields::piece;

QString seal_in_words(const custody::Piece& piece) {
  QStringList words;
  if (piece.seal) words << PiecesForm::tr("seal %1").arg(to_qt(*piece.seal));
  if (piece.seal_declared && piece.seal_declared != piece.seal)
    words << PiecesForm::tr("%1 named").arg(to_qt(*piece.seal_declared));
  if (piece.seal_state)
    words << (piece.seal ? choice_word(*piece.seal_state) : PiecesForm::tr("seal %1").arg(choice_word(*piece.seal_state)));
  return words.join(QStringLiteral(", "));
}

}  // namespace

PiecesForm::PiecesForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::piece, this)),
      list_(new Ledger(tr("Pieces of this consignment"))),
      add_(new PressButton(tr("Add a piece"))),
      refused_(new QLabel) {
  condition_ = fields_->choice(tr("Condition of the piece"), piece_fields::condition);
  auto* form = new Form(2);
  form->row({condition_});
  form->row({fields_->text(tr("Seal named"), piece_fields::seal_declared), fields_->text(tr("Seal found"), piece_fields::seal)});
  form->row({fields_->choice(tr("State of the seal"), piece_fields::seal_state)});
  form->row({fields_->text(tr("Remarks on the piece"), piece_fields::remarks)});
  form_ = form;
  list_->set_most_rows(4);
  refused_->setFont(face(TextSize::small));
  refused_->setProperty("tone", "signal");
  refused_->setWordWrap(true);
  auto* foot = new QHBoxLayout;
  foot->addWidget(add_);
  foot->addWidget(refused_, 1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(list_);
  column->addWidget(form_);
  column->addLayout(foot);
  connect(list_, &Ledger::taken, this, [this](RecordId id) { take(PieceId{id}); });
  connect(list_, &Ledger::opened, this, [this](RecordId) { condition_->editor()->setFocus(Qt::OtherFocusReason); });
  connect(add_, &QPushButton::clicked, this, &PiecesForm::add);
  add_->setVisible(!session.read_only());
  refresh();
}

void PiecesForm::show_consignment(ConsignmentId id) {
  if (id != consignment_) {
    fields_->show(0);
    refused_->clear();
  }
  consignment_ = id;
  refresh();
}

void PiecesForm::take(PieceId id) {
  fields_->show(id.value);
  refresh();
}

void PiecesForm::add() {
  custody::NewPiece fresh;
  fresh.consignment = consignment_;
  const auto made = custody::add_piece(session_.journal, fresh);
  refused_->setText(made.ok() ? QString() : sentence(made.error()));
  if (!made.ok()) return;
  take(*made);
  condition_->editor()->setFocus(Qt::OtherFocusReason);
}

void PiecesForm::refresh() {
  using Pieces = std::vector<custody::Piece>;
  const auto pieces = consignment_ ? custody::pieces_of(session_.connection, consignment_) : Result<Pieces>(Pieces{});
  if (!pieces.ok()) return;
  std::vector<LedgerRow> rows;
  for (const custody::Piece& piece : *pieces)
    rows.push_back({piece.id.value,
                    0,
                    tr("Piece %1").arg(piece.number),
                    piece.condition ? choice_word(*piece.condition) : tr("not looked at yet"),
                    {},
                    false,
                    seal_in_words(piece)});
  const bool held = std::any_of(pieces->begin(), pieces->end(), [&](const auto& p) { return p.id.value == fields_->record(); });
  if (!held && fields_->record()) fields_->show(0);
  list_->setVisible(!rows.empty());
  list_->set_rows(std::move(rows));
  list_->take(fields_->record());
  form_->setVisible(held);
  add_->setEnabled(bool(consignment_));
  fields_->refresh();
}

}  // namespace prillbook::ui
