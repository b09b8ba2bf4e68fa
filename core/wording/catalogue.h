// SPDX-License-Identifier: GPL-3.0-or-later
// Every text of the client's pages, in each language. A key that is not here does not compile.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string_view>

#include "core/wording/texts_findings.h"
#include "core/wording/texts_found.h"
#include "core/wording/texts_lot.h"
#include "core/wording/texts_method.h"
#include "core/wording/texts_names.h"
#include "core/wording/texts_page.h"
#include "core/wording/texts_pan.h"

namespace prillbook::wording {

namespace detail {

template <std::size_t... sizes>
constexpr auto joined(const Text (&... parts)[sizes]) {
  std::array<Text, (sizes + ...)> all{};
  std::size_t at = 0;
  const auto add = [&](std::span<const Text> part) {
    for (const Text& text : part) all[at++] = text;
  };
  (add(parts), ...);
  return all;
}

}  // namespace detail

inline constexpr auto catalogue =
    detail::joined(page_texts, found_texts, pan_texts, lot_texts, method_texts, name_texts, finding_texts);

class Key {
 public:
  consteval Key(const char* name) : at_(place_of(name)) {}
  constexpr const Text& text() const { return catalogue[at_]; }

 private:
  static constexpr std::size_t place_of(std::string_view name) {
    for (std::size_t i = 0; i < catalogue.size(); ++i)
      if (catalogue[i].key == name) return i;
    throw "there is no such text";
  }
  std::size_t at_;
};

// nullptr where there is none.
const Text* find_text(std::string_view key);

}  // namespace prillbook::wording
