// SPDX-License-Identifier: GPL-3.0-or-later
// When the next control is due, by what the lab has set.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/lab/settings.h"
#include "core/store/connection.h"

namespace prillbook::controls {

enum class Insertion { blank, reference, duplicate };

// How many ordinary charges were made since the last control of a kind.
struct Since {
  Insertion what = Insertion::blank;
  int one_in = 0;            // 0: the lab asks for none
  bool ever = false;         // there was one before
  std::int64_t charges = 0;  // ordinary ones since, at most most_counted
  std::optional<Instant> last_at;
};
inline constexpr std::int64_t most_counted = 1000;

struct Due {
  std::vector<Since> counts;           // one a kind
  std::vector<std::string> lots;       // of flux and litharge that no flux blank was made of, nor silver entered
  bool reference_by_day = false;       // the last reference material is too many days ago, and charges were made since
  bool due(const Since& since) const;  // by count, or by day
  int count() const;                   // how many things are due
};

// By now. Charges count in the order in which they were made up; spoiled ones do not.
Result<Due> due_now(store::Connection& connection, const lab::Settings& settings, const Instant& now);

// The controls that charges from `first` to `last` look back on, read once for all of them.
class Insertions {
 public:
  static Result<Insertions> read(store::Connection& connection, ChargeId first, ChargeId last);
  // As it was when a charge was made up, itself counted; of the kinds that the lab had begun with by then. Domain: a charge from
  // the first to the last.
  Result<std::vector<Since>> since_at(const lab::Settings& settings, ChargeId charge) const;

 private:
  struct Control {
    RecordId charge = 0;
    std::string fired_at;
  };
  using Controls = std::vector<Control>;  // by id

  explicit Insertions(store::Connection& connection) : connection_(&connection) {}

  store::Connection* connection_;
  std::array<Controls, 3> controls_;  // by Insertion
};

}  // namespace prillbook::controls
