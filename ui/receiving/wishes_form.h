// SPDX-License-Identifier: GPL-3.0-or-later
// What is seldom asked for when a bag comes in: bag and rock on the scale, tests wanted and by when, the price, whether
// it is treated apart, how long the rest is kept.
#pragma once

#include <QtWidgets/QWidget>

#include "ui/kit/record_fields.h"

namespace prillbook::ui {

// A form over `fields`, which belong to the sample in hand.
QWidget* wishes_form(Session& session, RecordFields& fields);

}  // namespace prillbook::ui
