// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "core/exchange/record_loader.h"

namespace prillbook::exchange {

using readings::cell_of;
using readings::Figure;
namespace fields = history::fields;

Result<void> Loader::sieve(RecordReader reader) {
  namespace f = fields::sieve;
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  PRILLBOOK_ASSIGN(const auto series, reader.optional_text("series"));
  const auto named = read_sieve_name(name, series ? find_sieve_series(*series) : std::nullopt, preferred_);
  if (!named) return reader.placed(named.error());
  if (series && !find_sieve_series(*series))
    return reader.input().error(ErrorCode::out_of_range, "series", fmt::format("there is no series {}", *series));
  const auto made = sieves::add_sieve(set_, *named);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(figure(reader, f::diameter, made->value, "mm"));
  PRILLBOOK_ASSIGN(const auto due, reader.instant("inspect_by"));
  if (due) PRILLBOOK_TRY(set_.set(f::inspect_by, made->value, to_iso(*due)));
  PRILLBOOK_TRY(text(reader, f::remarks, made->value));
  return reader.finish();
}

Result<void> Loader::stack(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  PRILLBOOK_ASSIGN(const std::string words, reader.text("sieves"));
  const auto ids = sieves::sieves_from_words(set_, words);
  if (!ids) return reader.placed(ids.error());
  const auto made = sieves::add_stack(set_, name, *ids);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(text(reader, fields::sieve_stack::remarks, made->value));
  return reader.finish();
}

Result<void> Loader::sieve_analysis(RecordReader reader, SampleId sample, PortionId portion) {
  namespace f = fields::sieve_analysis;
  sieves::NewAnalysis fresh{portion, {}, {}, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(const std::string stack_name, reader.text("stack"));
  const auto taken = sieves::stack_by_name(set_.connection(), stack_name);
  if (!taken) return reader.placed(taken.error());
  fresh.stack = taken->id;
  PRILLBOOK_ASSIGN(fresh.sieved_at, reader.instant("sieved_at"));
  PRILLBOOK_ASSIGN(fresh.sieved_by, reader.person("sieved_by"));
  PRILLBOOK_ASSIGN(fresh.method, reader.optional_text("method"));
  PRILLBOOK_ASSIGN(fresh.minutes, reader.whole("minutes"));
  PRILLBOOK_ASSIGN(fresh.balance, reader.balance("balance"));
  const auto made = sieves::start_analysis(set_, fresh);
  if (!made) return reader.placed(made.error());
  ++loaded_.sieve_analyses;
  for (const history::Field* field : {&f::spoiled, &f::remarks}) PRILLBOOK_TRY(text(reader, *field, made->value));
  PRILLBOOK_ASSIGN(const sieves::Analysis held, sieves::analysis(set_.connection(), *made));
  PRILLBOOK_TRY(each(reader, "cuts", [&](const RecordReader& one) { return cut(one, held, sample, fresh.sieved_by); }));
  return reader.finish();
}

// The line of a sieve, or of the pan where none is named.
Result<void> Loader::cut(RecordReader reader, const sieves::Analysis& analysis, SampleId sample, PersonId by) {
  PRILLBOOK_ASSIGN(const auto words, reader.optional_text("sieve"));
  std::optional<Opening> opening;
  if (words) {
    std::optional<SieveSeries> series;
    for (const sieves::Cut& line : analysis.cuts)
      if (line.series) series = line.series;
    const auto named = read_sieve_name(*words, series, preferred_);
    if (!named) return reader.placed(named.error());
    opening = named->opening;
  }
  const auto found =
      std::find_if(analysis.cuts.begin(), analysis.cuts.end(), [&](const sieves::Cut& line) { return line.opening == opening; });
  if (found == analysis.cuts.end())
    return reader.input().error(ErrorCode::not_found, "sieve", fmt::format("the stack has no sieve {}", words.value_or("")));
  PRILLBOOK_ASSIGN(const Figure retained, reader.figure("retained", Measure::mass, "g"));
  if (auto written = sieves::set_retained(set_, found->id, retained); !written) return reader.placed(written.error());
  PRILLBOOK_ASSIGN(auto fraction, reader.object("fraction"));
  if (fraction) {
    const auto made = sieves::make_fraction(set_, found->id, by);
    if (!made) return fraction->placed(made.error());
    PRILLBOOK_TRY(tests_of(*fraction, sample, *made));
    PRILLBOOK_TRY(fraction->finish());
  }
  return reader.finish();
}

}  // namespace prillbook::exchange
