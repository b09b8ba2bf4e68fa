# SPDX-License-Identifier: GPL-3.0-or-later
# One interface target carries the warnings and sanitizers for every layer.
add_library(prillbook_flags INTERFACE)
target_compile_options(prillbook_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wnon-virtual-dtor -Wold-style-cast -Woverloaded-virtual -Wimplicit-fallthrough
  -Wswitch -Wcast-qual -Wdouble-promotion -Wunused)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  # g++ 12 sees an overlap in std::string::insert and operator+ that is not there (its bug 105651), when optimising.
  target_compile_options(prillbook_flags INTERFACE -Wno-restrict)
endif()
if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
  target_link_options(prillbook_flags INTERFACE -fuse-ld=lld)
endif()
target_include_directories(prillbook_flags INTERFACE ${PROJECT_SOURCE_DIR})
if(PRILLBOOK_SANITIZE)
  # The tests' own sources are watched for addresses only: the rest is for what they test, and takes half of their build.
  set(tested $<NOT:$<BOOL:$<TARGET_PROPERTY:PRILLBOOK_IS_TEST>>>)
  target_compile_options(prillbook_flags INTERFACE
    -fsanitize=address $<${tested}:-fsanitize=undefined> $<${tested}:-fno-sanitize-recover=undefined> -fno-omit-frame-pointer)
  # Checks at every access that take a fifth of a build: a null pointer stops the address sanitizer as well, object sizes are
  # not known at -O0, and alignment is left to the compiler.
  target_compile_options(prillbook_flags INTERFACE $<${tested}:-fno-sanitize=null,alignment,object-size>)
  target_link_options(prillbook_flags INTERFACE -fsanitize=address,undefined)
endif()
if(PRILLBOOK_FUZZ)
  target_compile_options(prillbook_flags INTERFACE -fsanitize=fuzzer-no-link)
endif()
