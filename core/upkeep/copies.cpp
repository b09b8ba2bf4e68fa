// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/copies.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <string_view>

#include "core/history/journal.h"
#include "core/upkeep/keep.h"
#include "core/upkeep/sealed.h"
#include "core/upkeep/statements.h"

namespace prillbook::upkeep {
namespace {

namespace fs = std::filesystem;

// "lab", ".prillbook"
struct Name {
  std::string stem, ending;
};
Name name_of(const std::string& notebook) {
  const fs::path path(notebook);
  return {path.stem().string(), path.extension().string()};
}

std::string first_place(const std::string& notebook, const CopyPlaces& places) {
  return places.first.empty() ? usual_copy_place(notebook) : places.first;
}

std::optional<Copy> known(const fs::path& file, const Name& name) {
  const std::string text = file.filename().string();
  if (!text.starts_with(name.stem + ".") || !text.ends_with(name.ending)) return std::nullopt;
  Copy copy;
  copy.path = file.string();
  std::string_view middle(text);
  middle.remove_prefix(name.stem.size() + 1);
  middle.remove_suffix(std::min(middle.size(), name.ending.size()));
  const auto after = [&middle](std::string_view word) {
    const bool begins = middle.starts_with(word);
    if (begins) middle.remove_prefix(word.size());
    return begins;
  };
  if (after("before-v")) {
    copy.kind = CopyKind::before_migration;
    return copy;
  }
  if (after("replaced-"))
    copy.kind = CopyKind::replaced;
  else if (!after("copy-"))
    return std::nullopt;
  copy.taken = parse_copy_time(middle);
  return copy.taken ? std::optional(copy) : std::nullopt;
}

void measure(Copy& copy) {
  struct stat held {};
  if (stat(copy.path.c_str(), &held) != 0) return;
  copy.bytes = held.st_size;
  copy.written_s = held.st_mtim.tv_sec;
}

// What tells one notebook from another: the hash of its first entry. Nothing where the file can't be read.
std::optional<history::Hash> first_hash(store::Connection& connection) {
  history::Hash hash{};
  const auto read = connection.rows(sql::first_hash, {}, [&](const store::Row& row) {
    hash = history::hash_from_bytes(row.blob(0)).value_or(history::Hash{});
    return false;
  });
  return read ? std::optional(hash) : std::nullopt;
}

// A copy of a notebook without entries may go as well: it holds nothing.
bool is_of(const std::string& copy, const history::Hash& notebook) {
  const auto connection = store::Connection::open(copy, store::Access::read_only);
  const auto first = connection ? first_hash(**connection) : std::nullopt;
  return first && (*first == notebook || *first == history::Hash{});
}

std::vector<Copy> taken_in(const std::string& folder, const std::string& notebook) {
  auto copies = copies_in(folder, notebook);
  std::erase_if(copies, [](const Copy& copy) { return copy.kind != CopyKind::taken; });
  return copies;
}

std::size_t thin_out(const std::string& folder, const std::string& notebook, const history::Hash& first,
                     const std::string& newest) {
  std::vector<Copy> ours;
  for (Copy& copy : taken_in(folder, notebook))
    if (copy.path == newest || is_of(copy.path, first)) ours.push_back(std::move(copy));
  std::vector<CopyTime> times;
  for (const Copy& copy : ours) times.push_back(*copy.taken);
  const std::vector<bool> kept = kept_copies(times);
  std::size_t gone = 0;
  for (std::size_t i = 0; i < ours.size(); ++i) {
    if (kept[i] || ours[i].path == newest) continue;
    store::discard(ours[i].path);
    ++gone;
  }
  return gone;
}

// Whether the newest copy of the folder says what the notebook says, by the hash of the last entry.
bool holds_the_same(const std::string& folder, const std::string& notebook, const history::Hash& head, int version) {
  const auto copies = taken_in(folder, notebook);
  if (copies.empty()) return false;
  const auto copy = store::Connection::open(copies.front().path, store::Access::read_only);
  if (!copy) return false;
  const auto held = history::head_of(**copy);
  const auto held_version = (*copy)->version();
  return held && *held == head && head != history::Hash{} && held_version && *held_version == version;
}

std::string copy_name(const std::string& folder, const std::string& notebook, const Instant& now) {
  const Name name = name_of(notebook);
  return (fs::path(folder) / fmt::format("{}.copy-{}{}", name.stem, to_text(copy_time(now)), name.ending)).string();
}

// The rest of one folder, once `copy` is due there.
class CopyRun {
 public:
  CopyRun(store::Connection& source, const std::string& notebook, const Instant& now, const store::BackupOptions& options)
      : source_(source), notebook_(notebook), now_(now), options_(options) {}

  Result<void> begin() {
    PRILLBOOK_ASSIGN(head_, history::head_of(source_));
    PRILLBOOK_ASSIGN(version_, source_.version());
    first_ = first_hash(source_).value_or(history::Hash{});
    return {};
  }
  // The path of the copy, nothing where one with the same is there.
  Result<std::optional<std::string>> into(const std::string& folder) {
    if (holds_the_same(folder, notebook_, head_, version_)) return std::optional<std::string>();
    const std::string to = copy_name(folder, notebook_, now_);
    PRILLBOOK_TRY(back_up(source_, to, options_));
    thinned_out_ += thin_out(folder, notebook_, first_, to);
    return std::optional(to);
  }
  std::size_t thinned_out() const { return thinned_out_; }

 private:
  store::Connection& source_;
  const std::string& notebook_;
  const Instant& now_;
  const store::BackupOptions& options_;
  history::Hash head_{}, first_{};
  int version_ = 0;
  std::size_t thinned_out_ = 0;
};

}  // namespace

std::string usual_copy_place(const std::string& notebook) {
  const fs::path path(notebook);
  return (path.parent_path() / (path.stem().string() + "-copies")).string();
}

std::vector<Copy> copies_in(const std::string& folder, const std::string& notebook) {
  std::vector<Copy> copies;
  const Name name = name_of(notebook);
  std::error_code code;
  for (fs::directory_iterator entry(folder, code), end; !code && entry != end; entry.increment(code)) {
    std::error_code ignored;
    if (!entry->is_regular_file(ignored)) continue;
    auto copy = known(entry->path(), name);
    if (!copy && entry->path().extension() != ".part" && is_sealed(entry->path().string()))
      copy = Copy{entry->path().string(), CopyKind::sealed, std::nullopt};
    if (!copy) continue;
    measure(*copy);
    copies.push_back(*std::move(copy));
  }
  std::sort(copies.begin(), copies.end(), [](const Copy& a, const Copy& b) {
    if (a.taken != b.taken) return a.taken > b.taken;
    return std::pair(a.written_s, a.path) > std::pair(b.written_s, b.path);
  });
  return copies;
}

std::vector<Copy> all_copies(const std::string& notebook, const CopyPlaces& places) {
  std::vector<Copy> all;
  std::set<std::string> folders;
  std::string own = fs::path(notebook).parent_path().string();
  if (own.empty()) own = ".";
  for (const std::string& folder : {first_place(notebook, places), places.second, own}) {
    if (folder.empty() || !folders.insert(folder).second) continue;
    for (Copy& copy : copies_in(folder, notebook)) all.push_back(std::move(copy));
  }
  return all;
}

bool copy_is_due(const std::string& notebook, const CopyPlaces& places, const Instant& now) {
  const auto copies = taken_in(first_place(notebook, places), notebook);
  return copies.empty() ||
         std::chrono::floor<std::chrono::days>(*copies.front().taken) < std::chrono::floor<std::chrono::days>(copy_time(now));
}

Result<TakenCopy> take_copy(const std::string& notebook, const CopyPlaces& places, const Instant& now,
                            const store::BackupOptions& options) {
  PRILLBOOK_ASSIGN(const auto source, store::Connection::open(notebook, store::Access::read_only));
  CopyRun run(*source, notebook, now, options);
  PRILLBOOK_TRY(run.begin());
  const std::string first = first_place(notebook, places);
  std::error_code ignored;
  fs::create_directory(first, ignored);  // where that fails the copy says why
  TakenCopy taken;
  PRILLBOOK_ASSIGN(taken.path, run.into(first));
  if (!places.second.empty())
    if (const auto second = run.into(places.second); !second) taken.second_fault = second.error();
  taken.thinned_out = run.thinned_out();
  return taken;
}

}  // namespace prillbook::upkeep
