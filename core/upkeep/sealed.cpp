// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/sealed.h"

#include <fcntl.h>
#include <sodium.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>
#include <vector>

#include "core/store/backup.h"
#include "core/store/part_file.h"

namespace prillbook::upkeep {
namespace {

constexpr std::string_view magic = "PRILLBOOK SEALED 1\n";
constexpr std::size_t piece = std::size_t{1} << 16;  // of the notebook, in bytes; sealed it is seal_bytes longer
constexpr std::size_t seal_bytes = crypto_secretstream_xchacha20poly1305_ABYTES;
constexpr std::uint64_t most_work = 20;
constexpr std::uint64_t most_memory = std::uint64_t{1} << 30;

// What stands before the pieces, in this order and without gaps; part of what the first piece vouches for.
struct Head {
  std::uint64_t work = crypto_pwhash_OPSLIMIT_MODERATE;
  std::uint64_t memory = crypto_pwhash_MEMLIMIT_INTERACTIVE;
  std::array<unsigned char, crypto_pwhash_SALTBYTES> salt{};
  std::array<unsigned char, crypto_secretstream_xchacha20poly1305_HEADERBYTES> stream{};
};
constexpr std::size_t head_size =
    magic.size() + 8 + 8 + crypto_pwhash_SALTBYTES + crypto_secretstream_xchacha20poly1305_HEADERBYTES;
using HeadBytes = std::array<unsigned char, head_size>;

void put(unsigned char*& to, std::uint64_t number) {
  for (int byte = 0; byte < 8; ++byte) *to++ = static_cast<unsigned char>(number >> (8 * byte));
}
std::uint64_t take(const unsigned char*& from) {
  std::uint64_t number = 0;
  for (int byte = 0; byte < 8; ++byte) number |= std::uint64_t{*from++} << (8 * byte);
  return number;
}

HeadBytes bytes_of(const Head& head) {
  HeadBytes bytes{};
  unsigned char* to = std::copy(magic.begin(), magic.end(), bytes.data());
  put(to, head.work);
  put(to, head.memory);
  to = std::copy(head.salt.begin(), head.salt.end(), to);
  std::copy(head.stream.begin(), head.stream.end(), to);
  return bytes;
}

Result<Head> head_of(const HeadBytes& bytes) {
  Head head;
  const unsigned char* from = bytes.data() + magic.size();
  head.work = take(from);
  head.memory = take(from);
  std::copy_n(from, head.salt.size(), head.salt.begin());
  std::copy_n(from + head.salt.size(), head.stream.size(), head.stream.begin());
  const bool sane = head.work >= crypto_pwhash_OPSLIMIT_MIN && head.work <= most_work &&
                    head.memory >= crypto_pwhash_MEMLIMIT_MIN && head.memory <= most_memory;
  if (std::memcmp(bytes.data(), magic.data(), magic.size()) != 0 || !sane)
    return refusal(ErrorCode::out_of_range, "", "this is no sealed copy of a notebook");
  return head;
}

// Wiped when it goes.
struct Key {
  std::array<unsigned char, crypto_secretstream_xchacha20poly1305_KEYBYTES> bytes{};
  ~Key() { sodium_memzero(bytes.data(), bytes.size()); }
  Result<void> derive(std::string_view passphrase, const Head& head) {
    if (crypto_pwhash(bytes.data(), bytes.size(), passphrase.data(), passphrase.size(), head.salt.data(), head.work,
                      std::size_t(head.memory), crypto_pwhash_ALG_ARGON2ID13) != 0)
      return refusal(ErrorCode::conflict, "passphrase", "there is not the memory to make the key");
    return {};
  }
};

struct Close {
  void operator()(std::FILE* file) const { std::fclose(file); }
};
using File = std::unique_ptr<std::FILE, Close>;

Error damaged(const std::string& path) {
  return {ErrorCode::damaged, "", path + ": the sealed copy was changed or cut off", {path}};
}

Result<File> to_read(const std::string& path) {
  File file(std::fopen(path.c_str(), "rb"));
  if (!file) return store::file_fault(errno, path);
  return file;
}

// A new file beside its place, for the eyes of its owner alone; gone again unless it was put in place.
class Part {
 public:
  explicit Part(const std::string& to) : to_(to), path_(to + ".part") {}
  ~Part() {
    if (file_) file_.reset(), store::discard(path_);
  }
  Result<void> open() {
    if (access(to_.c_str(), F_OK) == 0) return store::file_fault(EEXIST, to_);
    store::discard(path_);
    const int descriptor = ::open(path_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0600);
    if (descriptor < 0) return store::file_fault(errno, path_);
    file_.reset(fdopen(descriptor, "wb"));
    return {};
  }
  Result<void> write(const unsigned char* bytes, std::size_t count) {
    if (std::fwrite(bytes, 1, count, file_.get()) != count) return store::file_fault(errno, path_);
    return {};
  }
  Result<void> put_in_place() {
    if (std::fflush(file_.get()) != 0 || fsync(fileno(file_.get())) != 0) return store::file_fault(errno, path_);
    PRILLBOOK_TRY(store::move_into_place(path_, to_, false));
    file_.reset();
    return {};
  }

 private:
  std::string to_, path_;
  File file_;
};

Result<void> seal_pieces(std::FILE* source, const std::string& from, const HeadBytes& head,
                         crypto_secretstream_xchacha20poly1305_state& stream, Part& part) {
  std::vector<unsigned char> plain(piece), sealed(piece + seal_bytes);
  for (bool first = true, last = false; !last; first = false) {
    const std::size_t read = std::fread(plain.data(), 1, piece, source);
    if (std::ferror(source)) return store::file_fault(errno, from);
    const int next = std::fgetc(source);
    last = next == EOF;
    if (!last) std::ungetc(next, source);
    unsigned long long count = 0;
    crypto_secretstream_xchacha20poly1305_push(
        &stream, sealed.data(), &count, plain.data(), read, first ? head.data() : nullptr, first ? head.size() : 0,
        last ? crypto_secretstream_xchacha20poly1305_TAG_FINAL : crypto_secretstream_xchacha20poly1305_TAG_MESSAGE);
    PRILLBOOK_TRY(part.write(sealed.data(), std::size_t(count)));
  }
  return {};
}

Result<void> open_pieces(std::FILE* source, const std::string& from, const HeadBytes& head,
                         crypto_secretstream_xchacha20poly1305_state& stream, Part& part) {
  std::vector<unsigned char> sealed(piece + seal_bytes), plain(piece);
  unsigned char tag = 0;
  for (bool first = true; tag != crypto_secretstream_xchacha20poly1305_TAG_FINAL; first = false) {
    const std::size_t read = std::fread(sealed.data(), 1, sealed.size(), source);
    if (std::ferror(source)) return store::file_fault(errno, from);
    unsigned long long count = 0;
    if (crypto_secretstream_xchacha20poly1305_pull(&stream, plain.data(), &count, &tag, sealed.data(), read,
                                                   first ? head.data() : nullptr, first ? head.size() : 0) != 0)
      return first ? refusal(ErrorCode::conflict, "passphrase", "the passphrase does not open this copy, or it was changed")
                   : damaged(from);
    PRILLBOOK_TRY(part.write(plain.data(), std::size_t(count)));
  }
  if (std::fgetc(source) != EOF) return damaged(from);
  return {};
}

}  // namespace

bool is_sealed(const std::string& path) {
  const auto file = to_read(path);
  std::array<char, magic.size()> begins{};
  return file && std::fread(begins.data(), 1, begins.size(), file->get()) == begins.size() &&
         std::string_view(begins.data(), begins.size()) == magic;
}

Result<void> seal(const std::string& from, const std::string& to, std::string_view passphrase) {
  if (passphrase.size() < shortest_seal)
    return refusal(ErrorCode::too_small, "passphrase", "a passphrase has 8 characters or more");
  if (sodium_init() < 0) return refusal(ErrorCode::conflict, "", "sealing can not be had on this machine");
  PRILLBOOK_ASSIGN(const File source, to_read(from));
  Part part(to);
  PRILLBOOK_TRY(part.open());
  Head head;
  randombytes_buf(head.salt.data(), head.salt.size());
  Key key;
  PRILLBOOK_TRY(key.derive(passphrase, head));
  crypto_secretstream_xchacha20poly1305_state stream;
  crypto_secretstream_xchacha20poly1305_init_push(&stream, head.stream.data(), key.bytes.data());
  const HeadBytes bytes = bytes_of(head);
  PRILLBOOK_TRY(part.write(bytes.data(), bytes.size()));
  PRILLBOOK_TRY(seal_pieces(source.get(), from, bytes, stream, part));
  return part.put_in_place();
}

Result<void> unseal(const std::string& from, const std::string& to, std::string_view passphrase) {
  if (sodium_init() < 0) return refusal(ErrorCode::conflict, "", "sealing can not be had on this machine");
  PRILLBOOK_ASSIGN(const File source, to_read(from));
  HeadBytes bytes{};
  if (std::fread(bytes.data(), 1, bytes.size(), source.get()) != bytes.size())
    return refusal(ErrorCode::out_of_range, "", "this is no sealed copy of a notebook");
  PRILLBOOK_ASSIGN(const Head head, head_of(bytes));
  Part part(to);
  PRILLBOOK_TRY(part.open());
  Key key;
  PRILLBOOK_TRY(key.derive(passphrase, head));
  crypto_secretstream_xchacha20poly1305_state stream;
  if (crypto_secretstream_xchacha20poly1305_init_pull(&stream, head.stream.data(), key.bytes.data()) != 0) return damaged(from);
  PRILLBOOK_TRY(open_pieces(source.get(), from, bytes, stream, part));
  return part.put_in_place();
}

}  // namespace prillbook::upkeep
