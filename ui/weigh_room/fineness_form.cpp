// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/fineness_form.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLineEdit>

#include "core/weighing/in_water.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

FinenessForm::FinenessForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      method_(new ChoiceField(tr("Fineness of this bead by"), {{"parted", tr("parting")},
                                                               {"density", tr("density")},
                                                               {"touchstone", tr("touchstone")},
                                                               {"colour", tr("colour")},
                                                               {"stated", tr("another lab")}})),
      fineness_(new ReadingField(tr("Gold in the bead"), {Measure::fineness, "‰", session.writing.mark})),
      uncertainty_(new ReadingField(tr("Its standard uncertainty"), {Measure::fineness, "‰", session.writing.mark})),
      in_air_(new ReadingField(tr("Weight in air"), {Measure::mass, "mg", session.writing.mark, false})),
      in_water_(new ReadingField(tr("in water, 20 °C"), {Measure::mass, "mg", session.writing.mark})) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(3 * rhythm);
  row->addWidget(method_, 3);
  for (ReadingField* field : {in_air_, in_water_, fineness_, uncertainty_}) {
    row->addWidget(field, 1);
    field->set_width_in_digits(7);
  }
  method_->on_commit([this](const std::optional<std::string>& method) {
    chosen_ = method;
    if (!chosen_ || *chosen_ == "parted") figure_.reset(), figure_u_.reset();
    return write();
  });
  fineness_->on_commit([this](const readings::Figure& figure) {
    figure_ = figure;
    return write();
  });
  uncertainty_->on_commit([this](const readings::Figure& figure) {
    figure_u_ = figure;
    return write();
  });
  in_air_->on_commit([this](const readings::Figure& figure) {
    air_ = figure;
    return write_weights();
  });
  in_water_->on_commit([this](const readings::Figure& figure) {
    water_ = figure;
    return write_weights();
  });
}

bool FinenessForm::needs_uncertainty() const { return chosen_ && (*chosen_ == "density" || *chosen_ == "stated"); }

// What is not whole yet is kept here and said so; the command of core refuses halves.
Result<void> FinenessForm::write() {
  const bool parted = chosen_ && *chosen_ == "parted";
  const bool nothing = !chosen_ && !figure_ && !figure_u_;
  const bool whole = chosen_ && figure_ && (!needs_uncertainty() || figure_u_);
  Result<void> result;
  if (parted || nothing || whole) result = weighing::set_fineness(session_.journal, bead_, chosen_, figure_, figure_u_);
  show_state();
  return result;
}

Result<void> FinenessForm::write_weights() {
  Result<void> result;
  if (air_ && water_)
    result = weighing::weigh_in_water(session_.journal, bead_, {*air_, *water_, balance_});
  else if (!air_ && !water_ && !figure_)
    result = weighing::set_fineness(session_.journal, bead_, {}, {}, {});
  show_state();
  return result;
}

void FinenessForm::show_state() {
  const bool parted = chosen_ && *chosen_ == "parted", density = chosen_ && *chosen_ == "density";
  in_air_->setVisible(density);
  in_water_->setVisible(density);
  in_water_->set_hint(air_ && !water_ ? tr("not written yet: needed too") : QString());
  in_air_->set_hint(water_ && !air_ ? tr("not written yet: needed too") : QString());
  fineness_->setVisible(chosen_ && !parted);
  uncertainty_->setVisible(chosen_ && !parted && (needs_uncertainty() || figure_u_));
  method_->set_hint(parted ? tr("from the gold weighed after parting") : QString());
  const bool weights = air_ || water_;
  fineness_->set_hint(chosen_ && !figure_ && !weights ? tr("not written yet: the figure") : QString());
  uncertainty_->set_hint(needs_uncertainty() && !figure_u_ && !weights ? tr("not written yet: needed here") : QString());
}

void FinenessForm::show_bead(const weighing::Bead& bead) {
  if (bead.id != bead_) leave();
  const bool half = bead.id == bead_ && chosen_ && (!bead.method || bool(air_) != bool(water_));  // begun here, not whole yet
  bead_ = bead.id;
  if (!half) {
    chosen_ = bead.method;
    figure_ = bead.fineness;
    figure_u_ = bead.fineness_u;
    method_->set_value(bead.method);
    fineness_->set_value(bead.fineness);
    uncertainty_->set_value(bead.fineness_u);
    air_ = bead.in_air;
    water_ = bead.in_water;
    in_air_->set_value(air_);
    in_water_->set_value(water_);
  }
  show_state();
}

void FinenessForm::leave() {
  leave_all(this);
  bead_ = {};
  chosen_.reset();
  figure_.reset();
  figure_u_.reset();
  air_.reset();
  water_.reset();
}

}  // namespace prillbook::ui
