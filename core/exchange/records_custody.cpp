// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/own_metal.h"
#include "core/custody/pieces.h"
#include "core/custody/places.h"
#include "core/custody/wanted.h"
#include "core/exchange/record_loader.h"
#include "core/portions/net_mass.h"

namespace prillbook::exchange {

using readings::Figure;
namespace fields = history::fields;

Result<void> Loader::place(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  const auto made = custody::add_place(set_, name);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(text(reader, fields::place::remarks, made->value));
  return reader.finish();
}

Result<void> Loader::piece(RecordReader reader, ConsignmentId consignment) {
  custody::NewPiece fresh;
  fresh.consignment = consignment;
  PRILLBOOK_ASSIGN(fresh.condition, reader.optional_text("condition"));
  PRILLBOOK_ASSIGN(fresh.seal_declared, reader.optional_text("seal_declared"));
  PRILLBOOK_ASSIGN(fresh.seal, reader.optional_text("seal"));
  PRILLBOOK_ASSIGN(fresh.seal_state, reader.optional_text("seal_state"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  if (const auto made = custody::add_piece(set_, fresh); !made) return reader.placed(made.error());
  return reader.finish();
}

Result<void> Loader::hand_over(RecordReader reader, SampleId sample) {
  PRILLBOOK_ASSIGN(const custody::NewHandOver fresh, hand_over_of(reader));
  if (const auto made = custody::hand_over(set_, sample, fresh); !made) return reader.placed(made.error());
  return reader.finish();
}

Result<void> Loader::hand_over(RecordReader reader, ConsignmentId consignment) {
  PRILLBOOK_ASSIGN(const custody::NewHandOver fresh, hand_over_of(reader));
  if (const auto made = custody::hand_over(set_, consignment, fresh); !made) return reader.placed(made.error());
  return reader.finish();
}

Result<custody::NewHandOver> Loader::hand_over_of(RecordReader& reader) {
  custody::NewHandOver fresh;
  PRILLBOOK_ASSIGN(fresh.from, reader.text("from"));
  PRILLBOOK_ASSIGN(fresh.to, reader.text("to"));
  PRILLBOOK_ASSIGN(fresh.at, reader.instant("handed_at"));
  PRILLBOOK_ASSIGN(fresh.reason, reader.optional_text("reason"));
  PRILLBOOK_ASSIGN(fresh.seal, reader.optional_text("seal"));
  PRILLBOOK_ASSIGN(fresh.seal_state, reader.optional_text("seal_state"));
  PRILLBOOK_ASSIGN(fresh.condition, reader.optional_text("condition"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  PRILLBOOK_ASSIGN(fresh.written_by, reader.person("written_by"));
  PRILLBOOK_ASSIGN(const auto place, reader.optional_text("place"));
  if (place) {
    const auto known = custody::place_by_name(set_.connection(), *place);
    if (!known) return reader.placed(known.error());
    fresh.place = *known;
  }
  return fresh;
}

Result<void> Loader::own_metal(RecordReader reader, SampleId sample) {
  custody::NewOwnMetal fresh;
  fresh.sample = sample;
  PRILLBOOK_ASSIGN(fresh.what, reader.text("what"));
  PRILLBOOK_ASSIGN(fresh.fate, reader.text("fate"));
  PRILLBOOK_ASSIGN(fresh.mass, reader.figure("mass", Measure::mass, "mg"));
  PRILLBOOK_ASSIGN(fresh.at, reader.instant("happened_at"));
  PRILLBOOK_ASSIGN(fresh.to_whom, reader.optional_text("to_whom"));
  PRILLBOOK_ASSIGN(fresh.written_by, reader.person("written_by"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  if (const auto made = custody::give_back(set_, fresh); !made) return reader.placed(made.error());
  return reader.finish();
}

Result<void> Loader::told(RecordReader reader, SampleId sample) {
  custody::NewToldFigure fresh;
  fresh.sample = sample;
  PRILLBOOK_ASSIGN(fresh.what, reader.text("what"));
  PRILLBOOK_ASSIGN(fresh.said, reader.text("said"));
  PRILLBOOK_ASSIGN(fresh.to_whom, reader.text("to_whom"));
  PRILLBOOK_ASSIGN(fresh.at, reader.instant("told_at"));
  PRILLBOOK_ASSIGN(fresh.told_by, reader.person("told_by"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  if (const auto made = custody::tell_figure(set_, fresh); !made) return reader.placed(made.error());
  return reader.finish();
}

// What the client asks for, and what is to become of the sample.
Result<void> Loader::as_wanted(RecordReader& reader, SampleId sample) {
  namespace f = fields::sample;
  const RecordId id = sample.value;
  PRILLBOOK_ASSIGN(const Figure gross, reader.figure("gross", Measure::mass, "kg"));
  PRILLBOOK_ASSIGN(const Figure tare, reader.figure("tare", Measure::mass, "kg"));
  if (gross || tare)
    if (const auto weighed = portions::set_gross_and_tare(set_, sample, gross, tare); !weighed)
      return reader.placed(weighed.error());
  PRILLBOOK_ASSIGN(const auto tests, reader.optional_text("tests_wanted"));
  if (tests)
    if (const auto set = custody::set_tests_wanted(set_, sample, *tests); !set) return reader.placed(set.error());
  PRILLBOOK_TRY(flag(reader, f::moisture_wanted, id));
  for (const history::Field* field : {&f::due, &f::retain_until, &f::disposed_at}) PRILLBOOK_TRY(instant(reader, *field, id));
  for (const history::Field* field :
       {&f::price_agreed, &f::price_paid, &f::treatment, &f::treatment_reason, &f::disposal, &f::taken_by, &f::taken_when})
    PRILLBOOK_TRY(text(reader, *field, id));
  return {};
}

}  // namespace prillbook::exchange
