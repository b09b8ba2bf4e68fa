// SPDX-License-Identifier: GPL-3.0-or-later
// Result<T>: a value or an Error. No function of core throws across its border or aborts on data from outside.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace prillbook {

// Closed list. The first group and the notebook group are the names of the batch contract; the last group is
// used at entry in the window and leaves the batch verbs under the contract name given by contract_name().
enum class ErrorCode {
  unknown_key,
  missing_key,
  wrong_type,
  not_finite,
  out_of_range,
  conflict,
  inconsistent,
  too_small,
  malformed_json,
  unknown_verb,
  // notebook faults
  not_a_notebook,
  newer_version,
  locked,
  read_only,
  disk_full,
  damaged,
  not_found,
  ambiguous,
  // entry
  not_a_number,    // the text holds no number; argument: the text
  unknown_unit,    // argument: the unit as typed
  ambiguous_mark,  // "1,234": argument 1: as thousands, argument 2: as decimals
  overdrawn,       // arguments: what is asked for, what is left
  already_exists,  // argument: the value that is taken
  changed_since,   // undo or edit meets a later change
  cancelled,
};

struct Error {
  ErrorCode code;
  std::string field;   // path of the offending key or field, "cuts[1].retained_g"; may be empty
  std::string detail;  // English, for logs and the batch verbs; the window translates the code instead
  std::vector<std::string> arguments;
};

inline Error refusal(ErrorCode code, std::string field, std::string detail) {
  return {code, std::move(field), std::move(detail), {}};
}

// Name of a code in the batch contract.
std::string_view contract_name(ErrorCode code);
// Exit status of a batch verb that ends with this code: 1 refused, 2 wrong call, 3 file or notebook fault.
int exit_status(ErrorCode code);

template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Result(Error error) : state_(std::in_place_index<1>, std::move(error)) {}

  explicit operator bool() const { return state_.index() == 0; }
  bool ok() const { return state_.index() == 0; }

  // Precondition of value(): ok(). Precondition of error(): !ok(). std::get checks both.
  T& value() & { return std::get<0>(state_); }
  const T& value() const& { return std::get<0>(state_); }
  T value() && { return std::get<0>(std::move(state_)); }
  const Error& error() const { return std::get<1>(state_); }

  T& operator*() & { return value(); }
  const T& operator*() const& { return value(); }
  T operator*() && { return std::move(*this).value(); }
  T* operator->() { return &value(); }
  const T* operator->() const { return &value(); }

  T value_or(T fallback) const& { return ok() ? value() : std::move(fallback); }

 private:
  std::variant<T, Error> state_;
};

template <>
class [[nodiscard]] Result<void> {
 public:
  Result() = default;
  Result(Error error) : error_(std::in_place_index<1>, std::move(error)) {}

  explicit operator bool() const { return error_.index() == 0; }
  bool ok() const { return error_.index() == 0; }
  const Error& error() const { return std::get<1>(error_); }

 private:
  std::variant<std::monostate, Error> error_;
};

// Leaves the enclosing function with the error of `expression`, which is a Result.
#define PRILLBOOK_TRY(expression)                                                                   \
  do {                                                                                              \
    if (auto prillbook_tried = (expression); !prillbook_tried.ok()) return prillbook_tried.error(); \
  } while (false)

#define PRILLBOOK_JOIN_(a, b) a##b
#define PRILLBOOK_JOIN(a, b) PRILLBOOK_JOIN_(a, b)
// PRILLBOOK_ASSIGN(auto x, f()): x takes the value of f(), or the enclosing function leaves with its error.
#define PRILLBOOK_ASSIGN(declaration, expression) \
  PRILLBOOK_ASSIGN_(declaration, expression, PRILLBOOK_JOIN(prillbook_result_, __LINE__))
#define PRILLBOOK_ASSIGN_(declaration, expression, name) \
  auto name = (expression);                              \
  if (!name.ok()) return name.error();                   \
  declaration = std::move(name).value()

}  // namespace prillbook
