// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/dry_share.h"

namespace prillbook::results {

double dry_share(const SampleRecord& record, const portions::Portion& portion) {
  const bool wet = record.sample.moisture && !record.cut_dry(portion);
  return wet ? 1 - record.sample.moisture->value / 100 : 1;
}

}  // namespace prillbook::results
