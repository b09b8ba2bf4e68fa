# SPDX-License-Identifier: GPL-3.0-or-later
# One interface target carries the warnings and sanitizers for every layer.
add_library(prillbook_flags INTERFACE)
target_compile_options(prillbook_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wnon-virtual-dtor -Wold-style-cast -Woverloaded-virtual -Wimplicit-fallthrough
  -Wswitch -Wcast-qual -Wdouble-promotion -Wunused)
# g++ 12 sees overlaps that are not there in std::string when it optimises (GCC bug 105651).
target_compile_options(prillbook_flags INTERFACE $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>)
target_include_directories(prillbook_flags INTERFACE ${PROJECT_SOURCE_DIR})
if(PRILLBOOK_SANITIZE)
  target_compile_options(prillbook_flags INTERFACE
    -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
  target_link_options(prillbook_flags INTERFACE -fsanitize=address,undefined)
endif()
