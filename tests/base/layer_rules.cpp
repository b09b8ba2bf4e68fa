// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/base/layer_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <optional>
#include <sstream>

#include "core/base/number.h"

namespace prillbook::testing_support {
namespace {

struct Library {
  std::string_view name;
  std::string_view headers;  // a folder ends in '/' and stands for all that is in it
};

// A new outside library needs its headers here and its target in app/build/layers.cmake.
constexpr Library libraries[] = {
    {"fmt", "fmt/"},          {"nlohmann", "nlohmann/"},  {"CLI", "CLI/"},        {"SQLiteCpp", "SQLiteCpp/"},
    {"sqlite3", "sqlite3.h"}, {"boost", "boost/"},        {"sodium", "sodium.h"}, {"xlsxwriter", "xlsxwriter.h"},
    {"csv", "csv.h"},         {"posix", "sys/"},          {"posix", "fcntl.h"},   {"posix", "unistd.h"},
    {"posix", "pwd.h"},       {"qrencode", "qrencode.h"}, {"qpdf", "qpdf/"},      {"posix", "sys/"},
    {"posix", "fcntl.h"},     {"posix", "unistd.h"},      {"posix", "pwd.h"},
};

constexpr std::string_view standard_headers[] = {
    "algorithm",
    "any",
    "array",
    "atomic",
    "barrier",
    "bit",
    "bitset",
    "cassert",
    "cctype",
    "cerrno",
    "cfenv",
    "cfloat",
    "charconv",
    "chrono",
    "cinttypes",
    "climits",
    "clocale",
    "cmath",
    "codecvt",
    "compare",
    "complex",
    "concepts",
    "condition_variable",
    "coroutine",
    "csetjmp",
    "csignal",
    "cstdarg",
    "cstddef",
    "cstdint",
    "cstdio",
    "cstdlib",
    "cstring",
    "ctime",
    "cuchar",
    "cwchar",
    "cwctype",
    "deque",
    "exception",
    "execution",
    "filesystem",
    "format",
    "forward_list",
    "fstream",
    "functional",
    "future",
    "initializer_list",
    "iomanip",
    "ios",
    "iosfwd",
    "iostream",
    "istream",
    "iterator",
    "latch",
    "limits",
    "list",
    "locale",
    "map",
    "memory",
    "memory_resource",
    "mutex",
    "new",
    "numbers",
    "numeric",
    "optional",
    "ostream",
    "queue",
    "random",
    "ranges",
    "ratio",
    "regex",
    "scoped_allocator",
    "semaphore",
    "set",
    "shared_mutex",
    "source_location",
    "span",
    "sstream",
    "stack",
    "stdexcept",
    "stop_token",
    "streambuf",
    "string",
    "string_view",
    "strstream",
    "syncstream",
    "system_error",
    "thread",
    "tuple",
    "type_traits",
    "typeindex",
    "typeinfo",
    "unordered_map",
    "unordered_set",
    "utility",
    "valarray",
    "variant",
    "vector",
    "version",
};

template <class Range, class Value>
bool holds(const Range& range, const Value& value) {
  return std::find(std::begin(range), std::end(range), value) != std::end(range);
}

std::vector<std::string> words(std::string_view text) {
  std::istringstream stream{std::string(text)};
  std::vector<std::string> result;
  for (std::string word; stream >> word;) result.push_back(word);
  return result;
}

std::vector<std::string_view> split(std::string_view text, char mark) {
  std::vector<std::string_view> parts;
  for (std::size_t end = 0; (end = text.find(mark)) != std::string_view::npos; text.remove_prefix(end + 1))
    parts.push_back(text.substr(0, end));
  parts.push_back(text);
  return parts;
}

std::string_view folder_of(std::string_view path) {
  const auto slash = path.rfind('/');
  return slash == std::string_view::npos ? std::string_view{} : path.substr(0, slash);
}

// 0 core, 1 ui, 2 app; 3 for what is none of the project's.
std::size_t storey(std::string_view layer) {
  static constexpr std::string_view storeys[] = {"core", "ui", "app"};
  const auto top = layer.substr(0, layer.find('/'));
  return static_cast<std::size_t>(std::find(std::begin(storeys), std::end(storeys), top) - std::begin(storeys));
}

bool known_library(std::string_view name) {
  return name.starts_with("Qt") ||
         std::any_of(std::begin(libraries), std::end(libraries), [&](auto& l) { return l.name == name; });
}

std::string library_of(std::string_view header, const QtModule& qt_module) {
  for (const Library& library : libraries)
    if (library.headers.ends_with('/') ? header.starts_with(library.headers) : header == library.headers)
      return std::string(library.name);
  return qt_module(header);
}

std::optional<std::string> fault_of(const Include& include, const LayerRow& row, const QtModule& qt_module) {
  if (include.header.empty()) return "an #include that is neither quoted nor angled";
  if (include.angled) {
    if (holds(standard_headers, std::string_view(include.header))) return {};
    const std::string library = library_of(include.header, qt_module);
    if (library.empty()) return fmt::format("<{}> is of no library that tests/base/layer_rules.cpp knows", include.header);
    if (holds(row.libraries, library)) return {};
    return fmt::format("<{}> is of {}, which the row does not allow", include.header, library);
  }
  if (include.header.ends_with(".moc") && include.header.find('/') == std::string::npos) return {};
  if (storey(include.header) > 2) return fmt::format("\"{}\" is not written from the project's root", include.header);
  const std::string layer(folder_of(include.header));
  if (layer == row.layer || holds(row.layers, layer)) return {};
  return fmt::format("\"{}\" is of {}, which the row does not allow", include.header, layer);
}

}  // namespace

std::vector<LayerRow> parse_layers(std::string_view text, Faults& faults) {
  std::vector<LayerRow> rows;
  for (const std::string_view line : split(text, '\n')) {
    if (trimmed(line).empty() || trimmed(line).starts_with('#')) continue;
    const auto columns = split(line, '|');
    if (columns.size() != 3 || words(columns[0]).size() != 1)
      faults.push_back(fmt::format("no row of three columns: {}", line));
    else
      rows.push_back({std::string(trimmed(columns[0])), words(columns[1]), words(columns[2])});
  }
  return rows;
}

Faults row_faults(const std::vector<LayerRow>& rows) {
  Faults faults;
  std::vector<std::string> above;
  for (const LayerRow& row : rows) {
    if (holds(above, row.layer)) faults.push_back(fmt::format("{} has two rows", row.layer));
    if (storey(row.layer) > 2) faults.push_back(fmt::format("{} is not under core, ui or app", row.layer));
    for (const std::string& layer : row.layers) {
      if (!holds(above, layer)) faults.push_back(fmt::format("{} names {}, which has no row above it", row.layer, layer));
      if (storey(layer) > storey(row.layer)) faults.push_back(fmt::format("{} may not reach up to {}", row.layer, layer));
    }
    for (const std::string& library : row.libraries) {
      if (!known_library(library)) faults.push_back(fmt::format("{} names the unknown library {}", row.layer, library));
      if (storey(row.layer) == 0 && library.starts_with("Qt"))
        faults.push_back(fmt::format("{} is core and may not use {}", row.layer, library));
    }
    above.push_back(row.layer);
  }
  return faults;
}

Faults folder_faults(const std::vector<LayerRow>& rows, const std::vector<SourceFile>& files) {
  std::map<std::string, bool> has_row;
  for (const SourceFile& file : files) has_row[std::string(folder_of(file.path))] = false;
  Faults faults;
  for (const LayerRow& row : rows) {
    if (const auto folder = has_row.find(row.layer); folder != has_row.end())
      folder->second = true;
    else
      faults.push_back(fmt::format("{} has a row but no sources", row.layer));
  }
  for (const auto& [folder, found] : has_row)
    if (!found) faults.push_back(fmt::format("{} has sources but no row", folder));
  return faults;
}

std::vector<Include> includes_of(std::string_view text) {
  std::vector<Include> includes;
  int number = 0;
  for (std::string_view line : split(text, '\n')) {
    ++number;
    line = trimmed(line);
    if (!line.starts_with('#')) continue;
    line = trimmed(line.substr(1));
    if (!line.starts_with("include")) continue;
    line = trimmed(line.substr(std::string_view("include").size()));
    Include include{"", line.starts_with('<'), number};
    const auto end = line.find(include.angled ? '>' : '"', 1);
    if ((include.angled || line.starts_with('"')) && end != std::string_view::npos) include.header = line.substr(1, end - 1);
    includes.push_back(include);
  }
  return includes;
}

Faults include_faults(const std::vector<LayerRow>& rows, const std::vector<SourceFile>& files, const QtModule& qt_module) {
  Faults faults;
  for (const SourceFile& file : files) {
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const LayerRow& r) { return r.layer == folder_of(file.path); });
    if (row == rows.end()) continue;
    for (const Include& include : includes_of(file.text))
      if (const auto fault = fault_of(include, *row, qt_module))
        faults.push_back(fmt::format("{}:{}: {}", file.path, include.line, *fault));
  }
  return faults;
}

QtModule qt_module_in(const std::string& include_folder) {
  std::map<std::string, std::string, std::less<>> modules;
  std::error_code error;
  for (const auto& module : std::filesystem::directory_iterator(include_folder, error)) {
    const std::string name = module.path().filename();
    for (const auto& header : std::filesystem::directory_iterator(module.path(), error)) {
      modules.emplace(header.path().filename().string(), name);
      modules.emplace(name + '/' + header.path().filename().string(), name);
    }
  }
  return [modules = std::move(modules)](std::string_view header) {
    const auto found = modules.find(header);
    return found == modules.end() ? std::string{} : found->second;
  };
}

}  // namespace prillbook::testing_support
