// SPDX-License-Identifier: GPL-3.0-or-later
// The findings of every sample of a notebook, kept while nothing that they rest on changes. What is kept is short: the
// words and the evidence of one finding are computed when somebody looks at it.
#pragma once

#include <map>
#include <set>
#include <span>
#include <string_view>
#include <vector>

#include "core/findings/page_look.h"
#include "core/results/machine_books.h"

namespace prillbook::findings {

enum class Standing { open, explained, gone };  // gone: it was answered, and the evidence is another now

struct Noticed {
  SampleId sample;
  std::string_view rule;  // of rule_names()
  Severity severity = Severity::note;
  Standing standing = Standing::open;

  friend bool operator==(const Noticed&, const Noticed&) = default;
};

class Board {
 public:
  // `connection` outlives the board.
  explicit Board(store::Connection& connection);
  Board(const Board&) = delete;
  Board& operator=(const Board&) = delete;

  // Every sample is owed a look, with the rules about `now`.
  Result<void> begin(const Instant& now);
  // What the changes reach is owed a look; what was found before stands until then.
  Result<void> changed(std::span<const history::Change> changes);
  // Looks at so many of the samples that are owed one, those of the latest changes first. Gives how many were looked at.
  Result<std::size_t> look_at(std::size_t most);

  std::size_t owed() const { return fresh_.size() + owed_.size(); }
  std::size_t samples() const { return samples_; }
  // Samples whose records are damaged: nothing is said of them.
  const std::set<SampleId>& unread() const { return unread_; }
  const std::map<SampleId, std::vector<Noticed>>& noticed() const { return noticed_; }
  std::size_t count(Standing standing) const;
  std::size_t count(Severity severity) const;  // open ones

 private:
  Result<void> look_at_page(std::span<const SampleId> samples);
  std::vector<SampleId> take_owed(std::size_t most);
  Result<void> look_at_one(PageLook& page, SampleId sample);

  store::Connection& connection_;
  results::SampleRecord record_;  // one after another; what samples share is read once
  bool lab_read_ = false;
  results::MachineBooks books_;
  Instant now_;
  std::set<SampleId> fresh_, owed_, unread_;
  std::size_t samples_ = 0;
  std::map<SampleId, std::vector<Noticed>> noticed_;
};

enum class BoardOrder { severity, sample, rule };

struct BoardWish {
  BoardOrder order = BoardOrder::severity;
  Standing standing = Standing::open;
  std::optional<Severity> severity;
  std::string rule;  // a part of its name in words; empty: every rule
  SampleId sample;   // none: every sample
};

// In the order wished: the most serious first, the newest sample first, or by the name of the rule; then by the others.
std::vector<Noticed> listed(const Board& board, const BoardWish& wish);

// The names of all rules, and one in words: "gold left behind".
std::span<const std::string_view> rule_names();
std::string rule_in_words(std::string_view rule);

}  // namespace prillbook::findings
