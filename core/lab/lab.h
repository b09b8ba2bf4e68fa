// SPDX-License-Identifier: GPL-3.0-or-later
// Who works here, for whom, and with which balances.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/entry.h"

namespace prillbook::lab {

struct Person {
  PersonId id;
  std::string initials;
  std::optional<std::string> name;
};

struct Client {
  ClientId id;
  std::string name;
  std::optional<std::string> contact, address, remarks;
  std::optional<std::string> language = {};  // of summaries, "es"; none: the lab's
};

struct Balance {
  BalanceId id;
  std::string name;
  readings::Figure step, capacity, repeatability;
  std::optional<std::string> remarks;
};

// Errors: missing_key without a name or initials; already_exists for initials that are taken.
Result<PersonId> add_person(history::Journal& journal, const std::string& initials, const std::optional<std::string>& name = {});
Result<ClientId> add_client(history::Journal& journal, const std::string& name);
Result<BalanceId> add_balance(history::Journal& journal, const std::string& name, const readings::Figure& step);
// The reading with the balance it was read off and that balance's step. Errors: out_of_range above its capacity.
Result<readings::Reading> on_balance(store::Connection& connection, readings::Reading mass, BalanceId id);
Result<Balance> balance_by_name(store::Connection& connection, std::string_view name);  // errors: not_found, ambiguous

Result<std::vector<Person>> people(store::Connection& connection);
Result<std::vector<Client>> clients(store::Connection& connection);
Result<std::vector<Balance>> balances(store::Connection& connection);
Result<Client> client(history::Source source, ClientId id);
Result<Balance> balance(store::Connection& connection, BalanceId id);
// The person with these initials, whatever their case. Errors: not_found.
Result<Person> person_by_initials(store::Connection& connection, std::string_view initials);
// Errors: not_found; ambiguous where two clients have this name.
Result<Client> client_by_name(store::Connection& connection, std::string_view name);

}  // namespace prillbook::lab
