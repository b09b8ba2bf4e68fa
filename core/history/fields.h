// SPDX-License-Identifier: GPL-3.0-or-later
// The fields of every record, by table. Add a field at the end of its table with the next free code.
#pragma once

#include "core/history/fields_furnace.h"
#include "core/history/fields_lab.h"
#include "core/history/fields_milling.h"
#include "core/history/fields_pan.h"
#include "core/history/fields_preparation.h"
#include "core/history/fields_quality.h"
#include "core/history/fields_receiving.h"
#include "core/history/fields_sieves.h"
#include "core/history/fields_summary.h"
#include "core/history/fields_tests.h"
#include "core/history/fields_weigh_room.h"
