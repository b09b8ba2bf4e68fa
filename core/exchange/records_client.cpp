// SPDX-License-Identifier: GPL-3.0-or-later
// What the client's pages hold beside the tests: the lab's own words, and the lot that was milled for its owner.
#include <fmt/format.h>

#include "core/exchange/record_loader.h"
#include "core/lab/own_texts.h"
#include "core/milling/milling_lots.h"

namespace prillbook::exchange {

namespace fields = history::fields;

Result<void> Loader::own_text(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string code, reader.text("language"));
  PRILLBOOK_ASSIGN(const std::string key, reader.text("key"));
  PRILLBOOK_ASSIGN(const std::string words, reader.text("words"));
  const wording::LanguageName* language = wording::language_of(code);
  if (!language)
    return reader.input().error(ErrorCode::out_of_range, "language", fmt::format("'{}' is no language of ours", code));
  if (const auto set = lab::set_own_text(set_, language->language, key, words); !set) return reader.placed(set.error());
  return reader.finish();
}

Result<void> Loader::milling_lot(RecordReader reader, SampleId sample) {
  namespace f = fields::milling_lot;
  const auto made = milling::begin_lot(set_, sample);
  if (!made) return reader.placed(made.error());
  const RecordId id = made->value;
  PRILLBOOK_TRY(instant(reader, f::milled_at, id));
  PRILLBOOK_ASSIGN(const PersonId by, reader.person("milled_by"));
  if (by) PRILLBOOK_TRY(set_.set(f::milled_by, id, readings::cell_of(by)));
  PRILLBOOK_TRY(figure(reader, f::mass, id, "kg"));
  for (const history::Field* field : {&f::moisture, &f::owner_share}) PRILLBOOK_TRY(figure(reader, *field, id, "%"));
  for (const history::Field* field : {&f::head, &f::concentrate_gold, &f::tail_gold})
    PRILLBOOK_TRY(figure(reader, *field, id, "g/t"));
  PRILLBOOK_TRY(figure(reader, f::concentrate, id, "kg"));
  for (const history::Field* field : {&f::sponge, &f::bullion}) PRILLBOOK_TRY(figure(reader, *field, id, "g"));
  PRILLBOOK_TRY(figure(reader, f::bullion_fineness, id, "‰"));
  for (const history::Field* field : {&f::agreement, &f::remarks}) PRILLBOOK_TRY(text(reader, *field, id));
  return reader.finish();
}

}  // namespace prillbook::exchange
