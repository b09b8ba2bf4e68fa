// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/hand_overs.h"

#include <algorithm>
#include <cstdlib>

#include "core/base/text.h"
#include "core/custody/places.h"
#include "core/custody/statements.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/lab.h"

namespace prillbook::custody {
namespace {

namespace hand_over_fields = history::fields::hand_over;
using history::Entity;
using history::Record;
using readings::cell_of;

constexpr std::int64_t minute_ms = 60'000;

Result<HandOverId> write_hand_over(history::ChangeSet& set, SampleId sample, ConsignmentId consignment, const NewHandOver& what) {
  namespace f = hand_over_fields;
  const bool says_more = what.place || what.seal || what.seal_state || what.condition;
  if (!trimmed(what.to).empty() && lower_ascii(trimmed(what.from)) == lower_ascii(trimmed(what.to)) && !says_more)
    return refusal(ErrorCode::conflict, "hand_over.to_holder", "giver and taker are one, and nothing else changed");
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::hand_over, {{f::sample, cell_of(sample)},
                                                                   {f::consignment, cell_of(consignment)},
                                                                   {f::from, cell_of(std::optional(what.from))},
                                                                   {f::to, cell_of(std::optional(what.to))},
                                                                   {f::place, cell_of(what.place)},
                                                                   {f::handed_at, to_iso(what.at.value_or(set.when()))},
                                                                   {f::reason, cell_of(what.reason)},
                                                                   {f::seal, cell_of(what.seal)},
                                                                   {f::seal_state, cell_of(what.seal_state)},
                                                                   {f::condition, cell_of(what.condition)},
                                                                   {f::written_by, cell_of(what.written_by)},
                                                                   {f::remarks, cell_of(what.remarks)}}));
  return HandOverId{id};
}

std::string initials(std::span<const lab::Person> people, PersonId id) {
  for (const lab::Person& one : people)
    if (one.id == id) return one.initials;
  return {};
}

std::string name_of(std::span<const Place> places, PlaceId id) {
  for (const Place& one : places)
    if (one.id == id) return one.name;
  return {};
}

Result<Link> link_of(store::Connection& connection, const Record& record, const CommonChain& common) {
  namespace f = hand_over_fields;
  Link link;
  link.id = HandOverId{record.id()};
  link.of_consignment = record.optional_whole(f::consignment).has_value();
  link.from = record.text(f::from);
  link.to = record.text(f::to);
  link.place = name_of(common.places, record.reference<PlaceId>(f::place));
  PRILLBOOK_ASSIGN(link.at, parse_iso(record.text(f::handed_at)));
  link.reason = record.optional_text(f::reason);
  link.seal = record.optional_text(f::seal);
  link.seal_state = record.optional_text(f::seal_state);
  link.condition = record.optional_text(f::condition);
  link.remarks = record.optional_text(f::remarks);
  link.initials = initials(common.people, record.reference<PersonId>(f::written_by));
  PRILLBOOK_ASSIGN(link.typed, typed(connection, Entity::hand_over, record.id()));
  if (link.initials.empty() && link.typed) link.initials = link.typed->who;
  return link;
}

Result<void> add_links(history::Source source, const history::Field& reference, RecordId id, const CommonChain& common,
                       std::vector<Link>& links) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, reference, id));
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Link link, link_of(source.connection(), record, common));
    links.push_back(std::move(link));
  }
  return {};
}

// What follows from the consignment alone: the carrier, or the client where none is named, gave it to who took it in.
Result<Link> arrival_of(store::Connection& connection, const Consignment& consignment, const lab::Client& client,
                        const CommonChain& common) {
  Link link;
  link.of_consignment = true;
  link.at = consignment.arrived;
  link.to = initials(common.people, consignment.received_by);
  link.initials = link.to;
  link.seal = consignment.seals;
  link.from = consignment.carrier.value_or(client.name);
  PRILLBOOK_ASSIGN(link.typed, typed(connection, Entity::consignment, consignment.id.value));
  if (link.initials.empty() && link.typed) link.initials = link.typed->who;
  return link;
}

Chain in_order(std::vector<Link> links) {
  std::stable_sort(links.begin(), links.end(), [](const Link& a, const Link& b) { return a.at.utc_ms < b.at.utc_ms; });
  return {std::move(links)};
}

}  // namespace

Result<HandOverId> hand_over(history::ChangeSet& set, SampleId sample, const NewHandOver& what) {
  return write_hand_over(set, sample, {}, what);
}

Result<HandOverId> hand_over(history::ChangeSet& set, ConsignmentId consignment, const NewHandOver& what) {
  return write_hand_over(set, {}, consignment, what);
}

Result<HandOverId> hand_over(history::Journal& journal, ConsignmentId consignment, const NewHandOver& what) {
  return journal.record_for<HandOverId>("hand over", [&](history::ChangeSet& set) { return hand_over(set, consignment, what); });
}

Result<std::vector<HandOverId>> hand_over(history::Journal& journal, const std::vector<SampleId>& samples,
                                          const NewHandOver& what) {
  if (samples.empty()) return refusal(ErrorCode::missing_key, "hand_over.sample_id", "no sample is named");
  return journal.record_for<std::vector<HandOverId>>("hand over",
                                                     [&](history::ChangeSet& set) -> Result<std::vector<HandOverId>> {
                                                       std::vector<HandOverId> made;
                                                       for (const SampleId sample : samples) {
                                                         PRILLBOOK_ASSIGN(const HandOverId id, hand_over(set, sample, what));
                                                         made.push_back(id);
                                                       }
                                                       return made;
                                                     });
}

Result<std::optional<Typed>> typed(store::Connection& connection, Entity entity, RecordId record) {
  std::optional<Typed> found;
  PRILLBOOK_TRY(connection.rows(sql::made_at, {static_cast<std::int64_t>(entity), record}, [&](const store::Row& row) {
    found = Typed{{row.integer(0), static_cast<std::int32_t>(row.integer(1))}, row.text(2)};
    return false;
  }));
  return found;
}

std::string Chain::holder() const { return links.empty() ? std::string() : links.back().to; }

std::string Chain::place() const {
  for (auto link = links.rbegin(); link != links.rend(); ++link)
    if (!link->place.empty()) return link->place;
  return {};
}

Result<CommonChain> common_chain(history::Source source, const Consignment& consignment, const lab::Client& client,
                                 std::span<const lab::Person> people) {
  CommonChain common;
  common.people.assign(people.begin(), people.end());
  PRILLBOOK_ASSIGN(common.places, places(source.connection()));
  std::vector<Link> links;
  PRILLBOOK_TRY(add_links(source, hand_over_fields::consignment, consignment.id.value, common, links));
  const bool arrival_written = std::any_of(links.begin(), links.end(), [&](const Link& link) {
    return std::abs(link.at.utc_ms - consignment.arrived.utc_ms) < minute_ms;
  });
  if (!arrival_written) {
    PRILLBOOK_ASSIGN(common.arrival, arrival_of(source.connection(), consignment, client, common));
  }
  common.links = std::move(links);
  return common;
}

Result<Chain> chain_of(history::Source source, const Sample& sample, const CommonChain& common) {
  std::vector<Link> links = common.links;
  if (common.arrival) {
    links.push_back(*common.arrival);
    links.back().condition = sample.condition;
  }
  PRILLBOOK_TRY(add_links(source, hand_over_fields::sample, sample.id.value, common, links));
  return in_order(std::move(links));
}

Result<Chain> chain_of(store::Connection& connection, const Sample& sample, const Consignment& consignment) {
  PRILLBOOK_ASSIGN(const auto people, lab::people(connection));
  PRILLBOOK_ASSIGN(const lab::Client client, lab::client(connection, consignment.client));
  PRILLBOOK_ASSIGN(const CommonChain common, common_chain(connection, consignment, client, people));
  return chain_of(connection, sample, common);
}

Result<Chain> chain_of(store::Connection& connection, const Consignment& consignment) {
  PRILLBOOK_ASSIGN(const auto people, lab::people(connection));
  PRILLBOOK_ASSIGN(const lab::Client client, lab::client(connection, consignment.client));
  PRILLBOOK_ASSIGN(CommonChain common, common_chain(connection, consignment, client, people));
  std::vector<Link> links = std::move(common.links);
  if (common.arrival) links.push_back(*std::move(common.arrival));
  return in_order(std::move(links));
}

Holders::Holders(std::span<const lab::Person> people) {
  for (const lab::Person& person : people)
    initials_and_names_.emplace_back(lower_ascii(person.initials), lower_ascii(person.name.value_or("")));
}

bool Holders::same(std::string_view a, std::string_view b) const {
  const std::string first = lower_ascii(trimmed(a)), second = lower_ascii(trimmed(b));
  if (first == second) return true;
  return std::any_of(initials_and_names_.begin(), initials_and_names_.end(), [&](const auto& one) {
    return (one.first == first && one.second == second) || (one.first == second && one.second == first);
  });
}

}  // namespace prillbook::custody
