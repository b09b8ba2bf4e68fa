// SPDX-License-Identifier: GPL-3.0-or-later
// One target by itself, driven by libFuzzer; PRILLBOOK_FUZZ_TARGET is its name.
#include <cstddef>
#include <cstdint>

#include "tests/fuzz/targets.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  prillbook::fuzz::PRILLBOOK_FUZZ_TARGET({reinterpret_cast<const char*>(data), size});
  return 0;
}
