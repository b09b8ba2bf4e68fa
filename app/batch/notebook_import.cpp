// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "app/batch/notebook_verbs.h"
#include "core/history/fields.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/intake/sample_list.h"
#include "core/lab/lab.h"
#include "core/store/writer_lock.h"
#include "core/upkeep/keep.h"

namespace prillbook::batch {
namespace {

using store::Connection;

Result<std::string> list_bytes(const std::string& path) {
  std::error_code code;
  const auto size = std::filesystem::file_size(path, code);
  std::ifstream stream(path, std::ios::binary);
  if (code || !stream) return Error{ErrorCode::not_found, "--csv", fmt::format("{}: the file can not be opened", path), {path}};
  // One byte more than is read shows the reader that there is more.
  std::string bytes(std::min<std::uintmax_t>(size, tables::largest_file + 1), '\0');
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  return bytes;
}

template <class T>
Result<void> read_option(std::string_view option, const std::string& given, const std::optional<T>& meant, std::optional<T>& to) {
  if (given.empty()) return {};
  if (!meant) return Error{ErrorCode::out_of_range, std::string(option), fmt::format("{}: '{}' is none", option, given), {given}};
  to = meant;
  return {};
}

Result<intake::ListOptions> options_of(const ImportWish& wish) {
  std::optional<DecimalMark> mark;
  if (wish.decimal == "comma" || wish.decimal == ",") mark = DecimalMark::comma;
  if (wish.decimal == "point" || wish.decimal == ".") mark = DecimalMark::point;
  intake::ListOptions options;
  PRILLBOOK_TRY(read_option("--encoding", wish.encoding, tables::encoding_by_name(wish.encoding), options.encoding));
  PRILLBOOK_TRY(read_option("--delimiter", wish.delimiter, tables::delimiter_by_name(wish.delimiter), options.delimiter));
  PRILLBOOK_TRY(read_option("--decimal", wish.decimal, mark, options.mark));
  return options;
}

// Where the list goes. Without a word about it the only client of the notebook is meant; an empty notebook gets a
// client by the name of the file.
struct Goal {
  ConsignmentId consignment;
  ClientId client;         // of a new consignment
  std::string new_client;  // where there is none yet
};

Result<ConsignmentId> consignment_by_number(Connection& connection, const std::string& number) {
  PRILLBOOK_ASSIGN(const auto all, history::load_all(connection, history::Entity::consignment));
  for (const history::Record& record : all)
    if (record.text(history::fields::consignment::number) == number) return ConsignmentId{record.id()};
  return Error{ErrorCode::not_found, "--consignment", fmt::format("there is no consignment {}", number), {number}};
}

Result<Goal> goal_of(Connection& connection, const ImportWish& wish) {
  Goal goal;
  if (!wish.client.empty() && !wish.consignment.empty())
    return Error{ErrorCode::conflict, "--consignment", "give a client or a consignment, not both", {}};
  if (!wish.consignment.empty()) {
    PRILLBOOK_ASSIGN(goal.consignment, consignment_by_number(connection, wish.consignment));
    return goal;
  }
  if (!wish.client.empty()) {
    PRILLBOOK_ASSIGN(goal.client, find_client(connection, wish.client));
    return goal;
  }
  PRILLBOOK_ASSIGN(const auto clients, lab::clients(connection));
  if (clients.size() > 1)
    return Error{ErrorCode::ambiguous, "--client", "the notebook has several clients: say whose list this is", {}};
  if (clients.empty())
    goal.new_client = std::filesystem::path(wish.csv).stem().string();
  else
    goal.client = clients.front().id;
  return goal;
}

Result<void> look_over(const intake::SampleList& list, World& world) {
  if (list.rows() == 0) return Error{ErrorCode::missing_key, "rows", "the list holds a heading and no row", {}};
  for (std::size_t row = 0; row < list.rows(); ++row)
    for (const intake::RowNote& note : list.notes(row))
      world.err << fmt::format("line {}: {}{}\n", list.line(row), note.error.detail,
                               note.warning ? " (entered all the same)" : "");
  if (list.mark_is_open())
    return Error{
        ErrorCode::ambiguous, "--decimal", "some figures mean one thing by a comma and another by a point: say which", {}};
  if (list.refused_rows() > 0)
    if (const auto draft = list.draft(list.next_refused(0)); !draft) {
      Error error = draft.error();
      error.detail += fmt::format(" ({} of {} rows are refused; nothing was entered)", list.refused_rows(), list.rows());
      return error;
    }
  return {};
}

Result<ConsignmentId> reach(history::ChangeSet& set, Goal goal) {
  if (goal.consignment) return goal.consignment;
  if (!goal.client) {
    PRILLBOOK_ASSIGN(goal.client.value,
                     set.make(history::Entity::client, {{history::fields::client::name, history::Value{goal.new_client}}}));
  }
  custody::NewConsignment fresh;
  fresh.client = goal.client;
  return custody::log_consignment(set, fresh);
}

Result<Json> about(Connection& connection, ConsignmentId id, const intake::SampleList& list,
                   const std::vector<SampleId>& samples) {
  PRILLBOOK_ASSIGN(const custody::Consignment consignment, custody::consignment(connection, id));
  PRILLBOOK_ASSIGN(const lab::Client client, lab::client(connection, consignment.client));
  PRILLBOOK_ASSIGN(const custody::Sample first, custody::sample(connection, samples.front()));
  PRILLBOOK_ASSIGN(const custody::Sample last, custody::sample(connection, samples.back()));
  Json object{{"samples", samples.size()},
              {"client", client.name},
              {"consignment", consignment.number},
              {"first", first.number},
              {"last", last.number},
              {"encoding", tables::encoding_name(list.encoding())},
              {"delimiter", tables::delimiter_name(list.delimiter())}};
  if (list.mark()) object["decimal"] = *list.mark() == DecimalMark::comma ? "comma" : "point";
  object["columns"] = Json::array();
  for (const intake::ListColumn& column : list.columns()) {
    Json one{{"heading", column.heading}, {"field", intake::list_field_name(column.use.field)}};
    if (!column.use.unit.empty()) one["unit"] = column.use.unit;
    object["columns"].push_back(one);
  }
  object["warnings"] = Json::array();
  for (std::size_t row = 0; row < list.rows(); ++row)
    for (const intake::RowNote& note : list.notes(row))
      object["warnings"].push_back({{"line", list.line(row)}, {"message", note.error.detail}});
  return object;
}

}  // namespace

Result<Json> notebook_import(const ImportWish& wish, World& world) {
  if (wish.as != "samples")
    return Error{
        ErrorCode::out_of_range, "--as", fmt::format("'{}' is nothing that a list can be entered as", wish.as), {wish.as}};
  PRILLBOOK_ASSIGN(const intake::ListOptions options, options_of(wish));
  PRILLBOOK_ASSIGN(std::string bytes, list_bytes(wish.csv));
  PRILLBOOK_ASSIGN(const auto lock, store::WriterLock::take(wish.file, world.clock.now()));
  PRILLBOOK_ASSIGN(const auto opened, upkeep::open_migrated(wish.file));
  Connection& connection = *opened.connection;
  PRILLBOOK_ASSIGN(const Goal goal, goal_of(connection, wish));
  PRILLBOOK_ASSIGN(auto context, goal.consignment ? intake::context_of(connection, goal.consignment)
                                                  : intake::context_for(connection, goal.client));
  PRILLBOOK_ASSIGN(const auto list, intake::SampleList::read(std::move(bytes), std::move(context), options));
  PRILLBOOK_TRY(look_over(list, world));
  PRILLBOOK_ASSIGN(const auto journal, history::Journal::open(connection, world.clock));
  ConsignmentId consignment;
  std::vector<SampleId> samples;
  PRILLBOOK_TRY(journal->record(intake::list_gesture, [&](history::ChangeSet& set) -> Result<void> {
    PRILLBOOK_ASSIGN(consignment, reach(set, goal));
    PRILLBOOK_ASSIGN(samples, intake::enter_list(set, consignment, list));
    return {};
  }));
  return about(connection, consignment, list, samples);
}

}  // namespace prillbook::batch
