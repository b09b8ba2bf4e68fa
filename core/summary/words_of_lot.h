// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/milling/lot_account.h"
#include "core/summary/words.h"

namespace prillbook::summary {

// Head, bullion, concentrate, tail, what is accounted for and what is not; only what was written down has a line.
Table lot_table(const milling::MillingLot& lot, const milling::LotAccount& account, const Speech& say);

// Of the lot that a sample stands for, with what fire assay found of it. Domain: it stands for one. Errors: as
// milling::account_of.
Result<milling::LotAccount> lot_account(const SummarySample& sample);

// What was milled, how much of its gold was found again or what is missing to tell, and the split with the owner.
// Domain: `account` is of this lot.
Sentences lot_words(const milling::MillingLot& lot, const milling::LotAccount& account, const Speech& say);

}  // namespace prillbook::summary
