// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieve_records/analyses.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/lab.h"
#include "core/sieve_records/statements.h"
#include "core/units/units.h"

namespace prillbook::sieves {

namespace sql = sieve_records::sql;

namespace {

namespace analysis_fields = history::fields::sieve_analysis;
namespace cut_fields = history::fields::sieve_cut;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::Figure;

// One sieve cannot hold more than the portion, but for iron and the balance.
constexpr double gain_allowance = 0.02;

Result<Cut> cut_of(const Record& record) {
  Cut cut;
  cut.id = SieveCutId{record.id()};
  cut.sieve = record.reference<SieveId>(cut_fields::sieve);
  cut.name = record.text(cut_fields::name);
  cut.series = find_sieve_series(record.text(cut_fields::series));
  cut.fraction = record.reference<PortionId>(cut_fields::fraction);
  PRILLBOOK_ASSIGN(const Figure opening, readings::figure_of(record, cut_fields::opening));
  if (opening && !(opening->value > 0))
    return Error{ErrorCode::damaged, "sieve_cut.opening", fmt::format("sieve_cut {} has no opening", record.id()), {}};
  if (opening) cut.opening = opening->opening();
  PRILLBOOK_ASSIGN(cut.diameter, readings::figure_of(record, cut_fields::diameter));
  PRILLBOOK_ASSIGN(cut.retained, readings::figure_of(record, cut_fields::retained));
  return cut;
}

Result<Analysis> analysis_of(history::Source source, const Record& record) {
  Analysis made;
  made.id = SieveAnalysisId{record.id()};
  made.portion = record.reference<PortionId>(analysis_fields::portion);
  made.stack = record.reference<SieveStackId>(analysis_fields::stack);
  made.sieved_by = record.reference<PersonId>(analysis_fields::sieved_by);
  made.method = record.optional_text(analysis_fields::method);
  made.minutes = record.optional_whole(analysis_fields::minutes);
  made.balance = record.reference<BalanceId>(analysis_fields::balance);
  made.spoiled = record.optional_text(analysis_fields::spoiled);
  made.remarks = record.optional_text(analysis_fields::remarks);
  if (const auto at = record.optional_text(analysis_fields::sieved_at)) {
    PRILLBOOK_ASSIGN(made.sieved_at, parse_iso(*at));
  }
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, cut_fields::analysis, record.id()));
  for (const Record& line : records) {
    PRILLBOOK_ASSIGN(Cut cut, cut_of(line));
    made.cuts.push_back(std::move(cut));
  }
  std::stable_sort(made.cuts.begin(), made.cuts.end(),
                   [](const Cut& a, const Cut& b) { return a.opening.value_or(Opening()) > b.opening.value_or(Opening()); });
  return made;
}

// The cells of a sieve as it is now, carried over to the line of an analysis.
Result<void> make_line(history::ChangeSet& set, SieveAnalysisId id, const Sieve& sieve) {
  namespace sieve_fields = history::fields::sieve;
  PRILLBOOK_ASSIGN(const Record record, history::load_record(set.connection(), Entity::sieve, sieve.id.value));
  auto made = set.make(Entity::sieve_cut, {{cut_fields::analysis, cell_of(id)},
                                           {cut_fields::sieve, cell_of(sieve.id)},
                                           {cut_fields::name, record.value(sieve_fields::name)},
                                           {cut_fields::series, record.value(sieve_fields::series)},
                                           {cut_fields::opening, record.value(sieve_fields::opening)},
                                           {cut_fields::diameter, record.value(sieve_fields::diameter)}});
  if (!made) return made.error();
  return {};
}

Result<void> check_weight(store::Connection& connection, const Analysis& held, const Figure& mass) {
  if (!mass) return {};
  PRILLBOOK_ASSIGN(const portions::Portion portion, portions::portion(connection, held.portion));
  if (!portion.mass || mass->mass() <= portion.mass->mass() * (1 + gain_allowance)) return {};
  return Error{ErrorCode::inconsistent,
               "sieve_cut.retained",
               fmt::format("{} of a portion of {}", mass->typed, portion.mass->typed),
               {mass->typed, portion.mass->typed}};
}

Result<std::vector<SieveLine>> lines(store::Connection& connection, const store::Sql& statement, std::int64_t limit,
                                     std::int64_t offset, bool complete) {
  std::vector<SieveLine> list;
  PRILLBOOK_TRY(connection.rows(statement, {limit, offset}, [&](const store::Row& row) {
    list.push_back({PortionId{row.integer(0)}, SieveAnalysisId{row.integer(1)}, row.text(2), row.text(3), row.text(4), complete});
    return true;
  }));
  return list;
}

}  // namespace

Result<SieveAnalysisId> start_analysis(history::ChangeSet& set, const NewAnalysis& fresh) {
  store::Connection& connection = set.connection();
  PRILLBOOK_ASSIGN(const portions::Portion portion, portions::portion(connection, fresh.portion));
  PRILLBOOK_ASSIGN(const auto earlier, analyses_of(connection, fresh.portion));
  for (const Analysis& other : earlier)
    if (!other.spoiled)
      return Error{ErrorCode::already_exists, "sieve_analysis.portion_id", "this portion is sieved already; cut another", {}};
  PRILLBOOK_ASSIGN(const Stack taken, stack(connection, fresh.stack));
  if (taken.sieves.empty()) return Error{ErrorCode::too_small, "sieve_stack.sieves", "the stack has no sieve", {}};
  BalanceId balance = fresh.balance;
  if (!balance && portion.mass && portion.mass->balance) balance = *portion.mass->balance;
  PRILLBOOK_ASSIGN(const RecordId made,
                   set.make(Entity::sieve_analysis, {{analysis_fields::portion, cell_of(fresh.portion)},
                                                     {analysis_fields::stack, cell_of(fresh.stack)},
                                                     {analysis_fields::sieved_at, to_iso(fresh.sieved_at.value_or(set.when()))},
                                                     {analysis_fields::sieved_by, cell_of(fresh.sieved_by)},
                                                     {analysis_fields::method, cell_of(fresh.method)},
                                                     {analysis_fields::minutes, cell_of(fresh.minutes)},
                                                     {analysis_fields::balance, cell_of(balance)}}));
  const SieveAnalysisId id{made};
  for (const Sieve& sieve : taken.sieves) PRILLBOOK_TRY(make_line(set, id, sieve));
  PRILLBOOK_TRY(set.make(Entity::sieve_cut, {{cut_fields::analysis, cell_of(id)}}));
  return id;
}

Result<SieveAnalysisId> start_analysis(history::Journal& journal, const NewAnalysis& fresh) {
  return journal.record_for<SieveAnalysisId>("start sieve analysis",
                                             [&](history::ChangeSet& set) { return start_analysis(set, fresh); });
}

Result<void> set_retained(history::ChangeSet& set, SieveCutId id, const Figure& mass) {
  store::Connection& connection = set.connection();
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::sieve_cut, id.value));
  PRILLBOOK_ASSIGN(const Analysis held, analysis(connection, record.reference<SieveAnalysisId>(cut_fields::analysis)));
  PRILLBOOK_TRY(check_weight(connection, held, mass));
  Figure weighed = mass;
  if (weighed && held.balance && !weighed->balance) {
    PRILLBOOK_ASSIGN(weighed, lab::on_balance(connection, *weighed, held.balance));
  }
  PRILLBOOK_TRY(set.set(cut_fields::retained, id.value, cell_of(weighed)));
  const PortionId fraction = record.reference<PortionId>(cut_fields::fraction);
  if (!fraction) return {};
  if (!weighed || !(weighed->value > 0))
    return Error{ErrorCode::out_of_range, "portion.mass", "a fraction was made of it, which has a mass above zero", {}};
  PRILLBOOK_TRY(set.set(history::fields::portion::mass, fraction.value, cell_of(weighed)));
  PRILLBOOK_ASSIGN(const portions::Portion portion, portions::portion(connection, fraction));
  return portions::check_tree(connection, portion.sample);
}

Result<void> set_retained(history::Journal& journal, SieveCutId id, const Figure& mass, const std::optional<std::string>& why) {
  return journal.record("weigh sieve", [&](history::ChangeSet& set) {
    if (why) set.because(*why);
    return set_retained(set, id, mass);
  });
}

Result<PortionId> make_fraction(history::ChangeSet& set, SieveCutId id, PersonId by) {
  store::Connection& connection = set.connection();
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::sieve_cut, id.value));
  PRILLBOOK_ASSIGN(const Cut cut, cut_of(record));
  if (cut.fraction) return Error{ErrorCode::already_exists, "sieve_cut.fraction_id", "a fraction was made of it", {}};
  if (!cut.retained) return Error{ErrorCode::missing_key, "sieve_cut.retained", "it is not weighed yet", {}};
  PRILLBOOK_ASSIGN(const Analysis held, analysis(connection, record.reference<SieveAnalysisId>(cut_fields::analysis)));
  PRILLBOOK_ASSIGN(const portions::Portion sieved, portions::portion(connection, held.portion));
  const auto place = std::find_if(held.cuts.begin(), held.cuts.end(), [&](const Cut& c) { return c.id == id; });
  const std::string words = fraction_in_words(held, std::size_t(place - held.cuts.begin()));
  PRILLBOOK_ASSIGN(const PortionId made,
                   portions::cut(set, {sieved.sample, held.portion, "fraction", cut.retained, {}, by, words}));
  PRILLBOOK_TRY(set.set(cut_fields::fraction, id.value, cell_of(made)));
  return made;
}

Result<std::vector<PortionId>> make_fractions(history::Journal& journal, SieveAnalysisId id, PersonId by) {
  return journal.record_for<std::vector<PortionId>>("make fractions",
                                                    [&](history::ChangeSet& set) -> Result<std::vector<PortionId>> {
                                                      PRILLBOOK_ASSIGN(const Analysis held, analysis(set.connection(), id));
                                                      std::vector<PortionId> made;
                                                      for (const Cut& cut : held.cuts) {
                                                        if (cut.fraction || !cut.retained || !(cut.retained->value > 0)) continue;
                                                        PRILLBOOK_ASSIGN(const PortionId portion, make_fraction(set, cut.id, by));
                                                        made.push_back(portion);
                                                      }
                                                      return made;
                                                    });
}

Result<Analysis> analysis(store::Connection& connection, SieveAnalysisId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::sieve_analysis, id.value));
  return analysis_of(connection, record);
}

Result<std::vector<Analysis>> analyses_of(history::Source source, PortionId portion) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, analysis_fields::portion, portion.value));
  std::vector<Analysis> list;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Analysis one, analysis_of(source, record));
    list.push_back(std::move(one));
  }
  return list;
}

std::string fraction_in_words(const Analysis& analysis, std::size_t place, DecimalMark mark) {
  if (place >= analysis.cuts.size()) return "";
  const Cut& cut = analysis.cuts[place];
  std::string words;
  if (place > 0 && analysis.cuts[place - 1].opening) words = "−" + opening_in_words(*analysis.cuts[place - 1].opening, mark);
  if (cut.opening) words += fmt::format("{}+{}", words.empty() ? "" : " ", opening_in_words(*cut.opening, mark));
  return words;
}

Result<std::vector<SieveLine>> waiting_to_sieve(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  return lines(connection, sql::waiting_to_sieve, limit, offset, false);
}

Result<std::int64_t> count_waiting_to_sieve(store::Connection& connection) {
  return connection.integer(sql::count_waiting_to_sieve);
}

Result<std::vector<SieveLine>> analyses_made(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  return lines(connection, sql::analyses_made, limit, offset, true);
}

}  // namespace prillbook::sieves
