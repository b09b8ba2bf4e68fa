// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>

#include "core/base/number.h"

namespace prillbook::wording {

enum class Language { english, spanish };

struct LanguageName {
  Language language;
  std::string_view code, name;  // "es", "español"
  DecimalMark mark;             // usual in it
};
std::span<const LanguageName> languages();
const LanguageName& name_of(Language language);
// nullptr for a code that is none.
const LanguageName* language_of(std::string_view code);

}  // namespace prillbook::wording
