// SPDX-License-Identifier: GPL-3.0-or-later
// Photographs of samples and consignments. The bytes come prepared: scaled, and without the place where they were taken.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/history/journal.h"

namespace prillbook::attachments {

// What a photograph shows: one of the two.
struct Owner {
  SampleId sample;
  ConsignmentId consignment;

  friend bool operator==(const Owner&, const Owner&) = default;
};

// What comes out of the preparing of a file.
struct Prepared {
  std::string bytes;
  std::int64_t width = 0, height = 0;  // pixels
  bool original = false;               // the file as it came, with what the camera wrote in it
};

struct Wish {
  double long_side_px = 2000;  // scaled down to this, never up
  bool keep_original = false;
};

// The way out to a library of images: core has none.
class Preparer {
 public:
  virtual ~Preparer() = default;
  // Errors: out_of_range (too large, with what it has and the limit), damaged (cut short), wrong_type (no image).
  virtual Result<Prepared> prepare(std::string_view file, const Wish& wish) = 0;
};

struct Attachment {
  AttachmentId id;
  Owner owner;
  std::optional<std::string> kind, caption, original_name;
  std::optional<Instant> taken_at;
  std::string hash;
  std::int64_t width = 0, height = 0, byte_count = 0;
  bool original = false;
};

struct NewAttachment {
  Owner owner;
  Prepared picture;
  std::optional<std::string> kind, caption, original_name;
  std::optional<Instant> taken_at;
};

// A file larger than this is not even read: 100 MB.
inline constexpr std::int64_t most_file_bytes = 100'000'000;

// What the lab has set about photographs.
Result<Wish> wish(store::Connection& connection);

// Keeps the bytes once, however often they come, and the record. Errors: inconsistent (no owner or two; no such record),
// out_of_range (no pixels; more bytes than a notebook takes at once), already_exists where the same picture stands with
// this owner already.
Result<AttachmentId> attach(history::Journal& journal, const NewAttachment& fresh);
Result<AttachmentId> attach(history::ChangeSet& set, const NewAttachment& fresh);

// A photograph that does not belong there is struck out, with its reason; the bytes stay. Errors: missing_key without one.
Result<void> strike(history::Journal& journal, AttachmentId id, const std::string& reason);
Result<void> strike(history::ChangeSet& set, AttachmentId id, const std::string& reason);

// Those that stand, in the order they came. A notebook of an older schema has none.
Result<std::vector<Attachment>> attachments_of(store::Connection& connection, const Owner& owner);
Result<Attachment> attachment(store::Connection& connection, AttachmentId id);
// Errors: not_found; damaged where the bytes are not those that were kept.
Result<std::string> bytes_of(store::Connection& connection, const Attachment& attachment);

}  // namespace prillbook::attachments
