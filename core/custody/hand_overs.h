// SPDX-License-Identifier: GPL-3.0-or-later
// Who gave what to whom. A lab that writes nothing more than the arrival has a chain of one link: the carrier to
// whoever took it in.
#pragma once

#include "core/custody/custody.h"
#include "core/custody/places.h"
#include "core/lab/lab.h"

namespace prillbook::custody {

struct HandOver {
  HandOverId id;
  SampleId sample;  // one of the two
  ConsignmentId consignment;
  std::string from, to;  // initials, a name or a firm
  PlaceId place;
  Instant at;
  std::optional<std::string> reason, seal, seal_state, condition, remarks;
  PersonId written_by;
};

struct NewHandOver {
  std::string from, to;
  PlaceId place;
  std::optional<Instant> at;  // absent: now
  std::optional<std::string> reason, seal, seal_state, condition, remarks;
  PersonId written_by;
};

// The same change of holder for each of these samples, as one gesture. Errors: missing_key (no sample, nobody named),
// conflict where giver and taker are one and no place or state is said, not_found, out_of_range.
Result<std::vector<HandOverId>> hand_over(history::Journal& journal, const std::vector<SampleId>& samples,
                                          const NewHandOver& what);
Result<HandOverId> hand_over(history::ChangeSet& set, SampleId sample, const NewHandOver& what);
Result<HandOverId> hand_over(history::ChangeSet& set, ConsignmentId consignment, const NewHandOver& what);
Result<HandOverId> hand_over(history::Journal& journal, ConsignmentId consignment, const NewHandOver& what);

// When an entry was typed and by whom, as the history has it.
struct Typed {
  Instant at;
  std::string who;
};
Result<std::optional<Typed>> typed(store::Connection& connection, history::Entity entity, RecordId record);

// One holder after another.
struct Link {
  HandOverId id;  // none: it follows from the arrival
  bool of_consignment = false;
  std::string from, to;  // `to` empty: nobody was named
  std::string place;
  Instant at;
  std::optional<std::string> reason, seal, seal_state, condition, remarks;
  std::string initials;
  std::optional<Typed> typed;
};

struct Chain {
  std::vector<Link> links;  // oldest first; at least one

  const Link& last() const { return links.back(); }
  std::string holder() const;  // who has it now; empty where nobody was named
  std::string place() const;   // where it is now, as the last hand-over that said so has it
};

// What all samples of a consignment went through together.
struct CommonChain {
  std::vector<Link> links;      // its hand-overs, by id
  std::optional<Link> arrival;  // absent where a hand-over stands for it
  std::vector<Place> places;    // of the lab
  std::vector<lab::Person> people;
};
Result<CommonChain> common_chain(history::Source source, const Consignment& consignment, const lab::Client& client,
                                 std::span<const lab::Person> people);
Result<Chain> chain_of(history::Source source, const Sample& sample, const CommonChain& common);

// The hand-overs of the sample and of its consignment, and the arrival. The arrival itself is left out where a hand-over
// of the consignment stands at the same minute. Errors: not_found, damaged.
Result<Chain> chain_of(store::Connection& connection, const Sample& sample, const Consignment& consignment);
// What the whole consignment went through.
Result<Chain> chain_of(store::Connection& connection, const Consignment& consignment);

// True where two names mean one holder: the same words whatever their case, or initials and name of one person.
class Holders {
 public:
  Holders() = default;
  explicit Holders(std::span<const lab::Person> people);
  bool same(std::string_view a, std::string_view b) const;

 private:
  std::vector<std::pair<std::string, std::string>> initials_and_names_;  // lower case
};

}  // namespace prillbook::custody
