// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace prillbook {

// What a figure measures; each has one base unit in which values are kept: g, ‰, µm, %, g/t.
enum class Measure { mass, fineness, opening, share, grade };

}  // namespace prillbook
