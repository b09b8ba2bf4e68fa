// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/contents.h"

#include <fmt/format.h>
#include <sodium.h>

#include "core/history/statements.h"

namespace prillbook::history {
namespace {

constexpr std::size_t megabyte = 1'000'000;

std::string megabytes(std::size_t count) { return fmt::format("{:.1f} MB", double(count) / double(megabyte)); }

}  // namespace

Result<std::string> keep_content(store::Connection& connection, std::string_view bytes) {
  if (bytes.empty()) return Error{ErrorCode::missing_key, "content", "there are no bytes to keep", {}};
  if (bytes.size() > most_content_bytes)
    return Error{
        ErrorCode::out_of_range,
        "content",
        fmt::format("{} are more than a notebook takes at once: {}", megabytes(bytes.size()), megabytes(most_content_bytes)),
        {megabytes(bytes.size()), megabytes(most_content_bytes)}};
  const std::string hash = hex_digest(bytes);
  PRILLBOOK_TRY(connection.run(sql::keep_content, {std::string_view(hash), store::Blob{bytes}}));
  return hash;
}

Result<std::string> keep_content(ChangeSet& set, std::string_view bytes) { return keep_content(set.connection(), bytes); }

Result<std::string> content(store::Connection& connection, std::string_view hash) {
  std::optional<std::string> bytes;
  PRILLBOOK_TRY(connection.rows(sql::content, {hash}, [&](const store::Row& row) {
    bytes = row.blob(0);
    return false;
  }));
  if (!bytes)
    return Error{ErrorCode::not_found, "content", fmt::format("there are no bytes under {}", hash), {std::string(hash)}};
  if (hex_digest(*bytes) != hash)
    return Error{
        ErrorCode::damaged, "content", fmt::format("the bytes under {} are not those that were kept", hash), {std::string(hash)}};
  return *std::move(bytes);
}

Result<bool> holds_contents(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto columns, store::columns_of(connection, "content"));
  return !columns.empty();
}

Result<void> each_content(store::Connection& connection,
                          const std::function<Result<void>(const std::string&, const std::string&)>& reader) {
  Result<void> outcome;
  PRILLBOOK_TRY(connection.rows(sql::all_contents, {}, [&](const store::Row& row) {
    outcome = reader(row.text(0), row.blob(1));
    return outcome.ok();
  }));
  return outcome;
}

Result<void> verify_contents(store::Connection& connection, store::FaultList& faults, const VerifyControls& controls) {
  PRILLBOOK_ASSIGN(const bool held, holds_contents(connection));
  if (!held) return {};
  PRILLBOOK_TRY(each_content(connection, [&](const std::string& hash, const std::string& bytes) -> Result<void> {
    if (controls.cancellation && controls.cancellation->requested())
      return Error{ErrorCode::cancelled, "", "the check was stopped", {}};
    if (hex_digest(bytes) != hash) faults.add(fmt::format("content {}", hash), "its bytes do not fit its hash");
    return {};
  }));
  PRILLBOOK_TRY(connection.rows(sql::attachments_without_content, {}, [&](const store::Row& row) {
    faults.add(fmt::format("attachment {}", row.integer(0)), fmt::format("its bytes, {}, are missing", row.text(1)));
    return !faults.is_full();
  }));
  PRILLBOOK_ASSIGN(const auto summaries, store::columns_of(connection, "summary"));
  const auto& lost = summaries.empty() ? sql::contents_without_attachment : sql::contents_without_owner;
  return connection.rows(lost, {}, [&](const store::Row& row) {
    faults.add(fmt::format("content {}", row.text(0)), "belongs to no attachment and no summary");
    return !faults.is_full();
  });
}

std::string base64(std::string_view bytes) {
  std::string text(sodium_base64_encoded_len(bytes.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
  sodium_bin2base64(text.data(), text.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                    sodium_base64_VARIANT_ORIGINAL);
  text.pop_back();  // the zero at the end
  return text;
}

std::optional<std::string> bytes_of_base64(std::string_view text) {
  std::string bytes(text.size() / 4 * 3, '\0');
  std::size_t count = 0;
  const char* end = nullptr;
  const int fault = sodium_base642bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(), text.data(), text.size(),
                                      nullptr, &count, &end, sodium_base64_VARIANT_ORIGINAL);
  if (fault != 0 || end != text.data() + text.size()) return std::nullopt;
  bytes.resize(count);
  return bytes;
}

}  // namespace prillbook::history
