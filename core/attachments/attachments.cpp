// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/attachments/attachments.h"

#include <algorithm>

#include "core/base/number.h"
#include "core/history/contents.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/settings.h"
#include "core/readings/entry.h"

namespace prillbook::attachments {
namespace {

namespace attachment_fields = history::fields::attachment;
using history::Entity;
using history::Record;
using readings::cell_of;

Result<Attachment> attachment_of(const Record& record) {
  namespace f = attachment_fields;
  Attachment found;
  found.id = AttachmentId{record.id()};
  found.owner = {record.reference<SampleId>(f::sample), record.reference<ConsignmentId>(f::consignment)};
  found.kind = record.optional_text(f::kind);
  found.caption = record.optional_text(f::caption);
  found.original_name = record.optional_text(f::original_name);
  found.hash = record.text(f::hash);
  found.width = record.whole(f::width);
  found.height = record.whole(f::height);
  found.byte_count = record.whole(f::byte_count);
  found.original = record.whole(f::original) != 0;
  if (const auto at = record.optional_text(f::taken_at)) {
    PRILLBOOK_ASSIGN(found.taken_at, parse_iso(*at));
  }
  return found;
}

Result<void> check(history::ChangeSet& set, const NewAttachment& fresh) {
  if (bool(fresh.owner.sample) == bool(fresh.owner.consignment))
    return Error{ErrorCode::inconsistent, "attachment", "a photograph shows a sample or a consignment", {}};
  if (fresh.picture.width <= 0 || fresh.picture.height <= 0)
    return Error{ErrorCode::out_of_range, "attachment", "the photograph has no pixels", {}};
  PRILLBOOK_ASSIGN(const auto there, attachments_of(set.connection(), fresh.owner));
  const std::string hash = history::hex_digest(fresh.picture.bytes);
  const auto same = std::find_if(there.begin(), there.end(), [&](const Attachment& one) { return one.hash == hash; });
  if (same != there.end())
    return Error{ErrorCode::already_exists, "attachment", "this photograph is there already", {fresh.original_name.value_or("")}};
  return {};
}

}  // namespace

Result<Wish> wish(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(connection));
  return Wish{settings.photograph_long_side_px, settings.keep_original_photographs};
}

Result<AttachmentId> attach(history::ChangeSet& set, const NewAttachment& fresh) {
  namespace f = attachment_fields;
  PRILLBOOK_TRY(check(set, fresh));
  PRILLBOOK_ASSIGN(const std::string hash, history::keep_content(set, fresh.picture.bytes));
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(Entity::attachment, {{f::sample, cell_of(fresh.owner.sample)},
                                                 {f::consignment, cell_of(fresh.owner.consignment)},
                                                 {f::kind, cell_of(fresh.kind)},
                                                 {f::caption, cell_of(fresh.caption)},
                                                 {f::taken_at, cell_of(fresh.taken_at)},
                                                 {f::original_name, cell_of(fresh.original_name)},
                                                 {f::hash, hash},
                                                 {f::width, fresh.picture.width},
                                                 {f::height, fresh.picture.height},
                                                 {f::byte_count, std::int64_t(fresh.picture.bytes.size())},
                                                 {f::original, std::int64_t{fresh.picture.original ? 1 : 0}}}));
  return AttachmentId{id};
}

Result<AttachmentId> attach(history::Journal& journal, const NewAttachment& fresh) {
  return journal.record_for<AttachmentId>("add photograph", [&](history::ChangeSet& set) { return attach(set, fresh); });
}

Result<void> strike(history::ChangeSet& set, AttachmentId id, const std::string& reason) {
  const std::string_view words = trimmed(reason);
  if (words.empty()) return Error{ErrorCode::missing_key, "attachment", "say why it is struck out", {}};
  set.because(std::string(words));
  return set.set(attachment_fields::struck, id.value, std::int64_t{1});
}

Result<void> strike(history::Journal& journal, AttachmentId id, const std::string& reason) {
  return journal.record("strike out photograph", [&](history::ChangeSet& set) { return strike(set, id, reason); });
}

Result<std::vector<Attachment>> attachments_of(store::Connection& connection, const Owner& owner) {
  std::vector<Attachment> list;
  PRILLBOOK_ASSIGN(const bool held, history::holds_contents(connection));
  if (!held) return list;
  const history::Field& reference = owner.sample ? attachment_fields::sample : attachment_fields::consignment;
  const RecordId id = owner.sample ? owner.sample.value : owner.consignment.value;
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, reference, id));
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Attachment one, attachment_of(record));
    list.push_back(std::move(one));
  }
  return list;
}

Result<Attachment> attachment(store::Connection& connection, AttachmentId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::attachment, id.value));
  return attachment_of(record);
}

Result<std::string> bytes_of(store::Connection& connection, const Attachment& attachment) {
  return history::content(connection, attachment.hash);
}

}  // namespace prillbook::attachments
