// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/controls/roles.h"

#include <array>
#include <charconv>

#include "core/controls/materials.h"
#include "core/custody/custody.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/portions/portions.h"

namespace prillbook::controls {
namespace {

using history::Entity;
using history::Field;
using history::Record;
using readings::cell_of;

struct RoleName {
  Role role;
  std::string_view name, words;
};

constexpr std::array names{RoleName{Role::ordinary, "", "ordinary"},
                           RoleName{Role::reference, "reference", "reference material"},
                           RoleName{Role::blank_rock, "blank_rock", "rock blank"},
                           RoleName{Role::blank_flux, "blank_flux", "flux blank"},
                           RoleName{Role::duplicate_field, "duplicate_field", "field duplicate"},
                           RoleName{Role::duplicate_coarse, "duplicate_coarse", "coarse duplicate"},
                           RoleName{Role::duplicate_pulp, "duplicate_pulp", "pulp duplicate"},
                           RoleName{Role::flush, "flush", "flush of a machine"}};

// The fields of charge and of pan_test that duplicates are written in.
struct TestFields {
  const Field *portion, *role, *duplicate_of;
  std::string_view place;
};
constexpr TestFields of_charges{&history::fields::charge::portion, &history::fields::charge::role,
                                &history::fields::charge::duplicate_of, "charge.duplicate_of_id"};
constexpr TestFields of_pan_tests{&history::fields::pan_test::portion, &history::fields::pan_test::role,
                                  &history::fields::pan_test::duplicate_of, "pan_test.duplicate_of_id"};

Result<SampleId> sample_of(store::Connection& connection, const Record& test, const Field& portion_field) {
  PRILLBOOK_ASSIGN(const auto portion, portions::portion(connection, test.reference<PortionId>(portion_field)));
  return portion.sample;
}

Result<void> check_pair(store::Connection& connection, const TestFields& fields, RecordId id, RecordId of, Role role) {
  const auto wrong = [&](const char* detail) { return refusal(ErrorCode::inconsistent, std::string(fields.place), detail); };
  if (!is_duplicate(role)) return refusal(ErrorCode::out_of_range, std::string(fields.place), "this is no kind of duplicate");
  if (id == of) return wrong("nothing is the duplicate of itself");
  PRILLBOOK_ASSIGN(const Record test, history::load_record(connection, fields.role->entity, id));
  PRILLBOOK_ASSIGN(const Record first, history::load_record(connection, fields.role->entity, of));
  if (first.whole(*fields.duplicate_of) == id) return wrong("the other is the duplicate of this one already");
  PRILLBOOK_ASSIGN(const SampleId mine, sample_of(connection, test, *fields.portion));
  PRILLBOOK_ASSIGN(const SampleId its, sample_of(connection, first, *fields.portion));
  if (role == Role::duplicate_field && mine == its) return wrong("a field duplicate is another sample of the same place");
  if (role != Role::duplicate_field && mine != its) return wrong("it is of another sample: a coarse or pulp duplicate is not");
  return {};
}

Result<void> write_pair(history::ChangeSet& set, const TestFields& fields, RecordId id, RecordId of, Role role) {
  if (of) PRILLBOOK_TRY(check_pair(set.connection(), fields, id, of, role));
  PRILLBOOK_TRY(set.set(*fields.duplicate_of, id, of ? history::Value{of} : history::Value{}));
  return set.set(*fields.role, id, of ? history::Value{std::string(role_name(role))} : history::Value{});
}

Error no_such_test(std::string_view label, std::string_view field) {
  return {ErrorCode::not_found, std::string(field), "there is no such test", {std::string(label)}};
}

Result<RecordId> test_by_label(store::Connection& connection, std::string_view label, std::string_view field,
                               const Field& portion_field) {
  label = trimmed(label);
  const std::size_t slash = label.rfind('/');
  if (slash == std::string_view::npos) return no_such_test(label, field);
  std::int64_t number = 0;
  const auto read = std::from_chars(label.data() + slash + 1, label.data() + label.size(), number);
  const auto sample = custody::sample_by_number(connection, label.substr(0, slash));
  if (read.ec != std::errc() || read.ptr != label.data() + label.size() || !sample) return no_such_test(label, field);
  PRILLBOOK_ASSIGN(const auto cut, portions::portions_of(connection, *sample));
  for (const portions::Portion& portion : cut) {
    if (portion.number != number) continue;
    PRILLBOOK_ASSIGN(const auto tests, history::load_referring(connection, portion_field, portion.id.value));
    if (!tests.empty()) return tests.back().id();
  }
  return no_such_test(label, field);
}

}  // namespace

std::string_view role_name(Role role) {
  for (const RoleName& one : names)
    if (one.role == role) return one.name;
  return "";
}

Role role_named(std::string_view name) {
  for (const RoleName& one : names)
    if (one.name == name) return one.role;
  return Role::ordinary;
}

std::string_view role_in_words(Role role) {
  for (const RoleName& one : names)
    if (one.role == role) return one.words;
  return "";
}

Result<Role> role_of_portion(store::Connection& connection, PortionId id) {
  PRILLBOOK_ASSIGN(const auto portion, portions::portion(connection, id));
  PRILLBOOK_ASSIGN(const auto material, material_of(connection, portion.sample));
  return material ? role_named(material->kind) : Role::ordinary;
}

Result<void> set_duplicate(history::ChangeSet& set, ChargeId charge, ChargeId of, Role role) {
  return write_pair(set, of_charges, charge.value, of.value, role);
}
Result<void> set_duplicate(history::Journal& journal, ChargeId charge, ChargeId of, Role role) {
  return journal.record("mark duplicate", [&](history::ChangeSet& set) { return set_duplicate(set, charge, of, role); });
}
Result<void> set_duplicate(history::ChangeSet& set, PanTestId test, PanTestId of, Role role) {
  return write_pair(set, of_pan_tests, test.value, of.value, role);
}
Result<void> set_duplicate(history::Journal& journal, PanTestId test, PanTestId of, Role role) {
  return journal.record("mark duplicate", [&](history::ChangeSet& set) { return set_duplicate(set, test, of, role); });
}

Result<void> set_flush(history::ChangeSet& set, ChargeId charge, CleaningId cleaning) {
  namespace f = history::fields::charge;
  PRILLBOOK_ASSIGN(const Record held, history::load_record(set.connection(), Entity::cleaning, cleaning.value));
  if (held.text(history::fields::cleaning::way) != "flush")
    return refusal(ErrorCode::inconsistent, "charge.cleaning_id", "nothing comes out of a cleaning that is no flush");
  PRILLBOOK_TRY(set.set(f::role, charge.value, std::string(role_name(Role::flush))));
  return set.set(f::cleaning, charge.value, cell_of(cleaning));
}
Result<void> set_flush(history::Journal& journal, ChargeId charge, CleaningId cleaning) {
  return journal.record("mark flush assay", [&](history::ChangeSet& set) { return set_flush(set, charge, cleaning); });
}

Result<ChargeId> charge_by_label(store::Connection& connection, std::string_view label, std::string_view field) {
  PRILLBOOK_ASSIGN(const RecordId id, test_by_label(connection, label, field, history::fields::charge::portion));
  return ChargeId{id};
}

Result<PanTestId> pan_test_by_label(store::Connection& connection, std::string_view label, std::string_view field) {
  PRILLBOOK_ASSIGN(const RecordId id, test_by_label(connection, label, field, history::fields::pan_test::portion));
  return PanTestId{id};
}

}  // namespace prillbook::controls
