// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/issue/lab_key.h"

#include <sodium.h>

#include <nlohmann/json.hpp>
#include <optional>

namespace prillbook::issue {
namespace {

constexpr const char* format_name = "prillbook lab key";
constexpr std::uint64_t most_work = 20;
constexpr std::size_t most_memory = std::size_t{1} << 30;

std::string hex_of(const unsigned char* bytes, std::size_t count) {
  std::string text(2 * count + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes, count);
  text.pop_back();
  return text;
}

template <std::size_t count>
std::optional<std::array<unsigned char, count>> bytes_of_hex(std::string_view text) {
  std::array<unsigned char, count> bytes{};
  std::size_t read = 0;
  if (text.size() != 2 * count || sodium_hex2bin(bytes.data(), count, text.data(), text.size(), nullptr, &read, nullptr) != 0 ||
      read != count)
    return std::nullopt;
  return bytes;
}

const unsigned char* raw(std::string_view bytes) { return reinterpret_cast<const unsigned char*>(bytes.data()); }

struct Sealing {
  std::array<unsigned char, crypto_pwhash_SALTBYTES> salt{};
  std::array<unsigned char, crypto_secretbox_NONCEBYTES> nonce{};
  std::uint64_t work = crypto_pwhash_OPSLIMIT_MODERATE;
  std::size_t memory = crypto_pwhash_MEMLIMIT_INTERACTIVE;
};
using SealedSeed = std::array<unsigned char, crypto_sign_SEEDBYTES + crypto_secretbox_MACBYTES>;

// The key of the box; wiped when it goes.
struct BoxKey {
  std::array<unsigned char, crypto_secretbox_KEYBYTES> bytes{};
  ~BoxKey() { sodium_memzero(bytes.data(), bytes.size()); }
  bool derive(std::string_view passphrase, const Sealing& sealing) {
    return crypto_pwhash(bytes.data(), bytes.size(), passphrase.data(), passphrase.size(), sealing.salt.data(), sealing.work,
                         sealing.memory, crypto_pwhash_ALG_ARGON2ID13) == 0;
  }
};

Error no_library() { return refusal(ErrorCode::conflict, "key", "signing can not be had on this machine"); }
Error no_key_file() { return refusal(ErrorCode::out_of_range, "key", "this is no key file"); }

struct KeyFile {
  Sealing sealing;
  SealedSeed seed{};
};

Result<KeyFile> read_key_file(std::string_view text) {
  const auto json = nlohmann::json::parse(text, nullptr, false);
  if (json.is_discarded()) return refusal(ErrorCode::malformed_json, "key", "the key file can not be read");
  const auto word = [&](const char* key) {
    const auto found = json.is_object() ? json.find(key) : json.end();
    return found != json.end() && found->is_string() ? found->get<std::string>() : std::string();
  };
  const auto whole = [&](const char* key) {
    const auto found = json.is_object() ? json.find(key) : json.end();
    return found != json.end() && found->is_number_unsigned() ? found->get<std::uint64_t>() : 0;
  };
  const auto salt = bytes_of_hex<crypto_pwhash_SALTBYTES>(word("salt"));
  const auto nonce = bytes_of_hex<crypto_secretbox_NONCEBYTES>(word("nonce"));
  const auto seed = bytes_of_hex<crypto_sign_SEEDBYTES + crypto_secretbox_MACBYTES>(word("sealed"));
  const std::uint64_t work = whole("work"), memory = whole("memory_bytes");
  if (word("format") != format_name || !salt || !nonce || !seed) return no_key_file();
  if (work < 1 || work > most_work || memory < crypto_pwhash_MEMLIMIT_MIN || memory > most_memory) return no_key_file();
  return KeyFile{{*salt, *nonce, work, std::size_t(memory)}, *seed};
}

}  // namespace

LabKey::~LabKey() { sodium_memzero(secret_.data(), secret_.size()); }
LabKey::LabKey(LabKey&& other) noexcept : public_(other.public_), secret_(other.secret_) {
  sodium_memzero(other.secret_.data(), other.secret_.size());
}

std::string LabKey::public_hex() const { return hex_of(public_.data(), public_.size()); }

std::string LabKey::sign(std::string_view bytes) const {
  std::array<unsigned char, crypto_sign_BYTES> signature{};
  crypto_sign_detached(signature.data(), nullptr, raw(bytes), bytes.size(), secret_.data());
  return hex_of(signature.data(), signature.size());
}

Result<LabKey> new_key() {
  if (sodium_init() < 0) return no_library();
  LabKey key;
  crypto_sign_keypair(key.public_.data(), key.secret_.data());
  return key;
}

Result<LabKey> key_of_seed(std::string_view seed) {
  if (sodium_init() < 0) return no_library();
  if (seed.size() != crypto_sign_SEEDBYTES) return refusal(ErrorCode::out_of_range, "key", "a seed has 32 bytes");
  LabKey key;
  crypto_sign_seed_keypair(key.public_.data(), key.secret_.data(), raw(seed));
  return key;
}

Result<std::string> sealed(const LabKey& key, std::string_view passphrase) {
  if (passphrase.size() < shortest_passphrase)
    return refusal(ErrorCode::too_small, "passphrase", "a passphrase has 8 characters or more");
  Sealing sealing;
  randombytes_buf(sealing.salt.data(), sealing.salt.size());
  randombytes_buf(sealing.nonce.data(), sealing.nonce.size());
  BoxKey box;
  if (!box.derive(passphrase, sealing)) return refusal(ErrorCode::conflict, "key", "there is not the memory to seal the key");
  std::array<unsigned char, crypto_sign_SEEDBYTES> seed{};
  crypto_sign_ed25519_sk_to_seed(seed.data(), key.secret_.data());
  SealedSeed out{};
  crypto_secretbox_easy(out.data(), seed.data(), seed.size(), sealing.nonce.data(), box.bytes.data());
  sodium_memzero(seed.data(), seed.size());
  const nlohmann::ordered_json json{{"format", format_name},
                                    {"public_key", key.public_hex()},
                                    {"work", sealing.work},
                                    {"memory_bytes", sealing.memory},
                                    {"salt", hex_of(sealing.salt.data(), sealing.salt.size())},
                                    {"nonce", hex_of(sealing.nonce.data(), sealing.nonce.size())},
                                    {"sealed", hex_of(out.data(), out.size())}};
  return json.dump(2) + "\n";
}

Result<LabKey> unsealed(std::string_view text, std::string_view passphrase) {
  if (sodium_init() < 0) return no_library();
  PRILLBOOK_ASSIGN(const KeyFile file, read_key_file(text));
  BoxKey box;
  if (!box.derive(passphrase, file.sealing))
    return refusal(ErrorCode::conflict, "key", "there is not the memory to open the key");
  std::array<unsigned char, crypto_sign_SEEDBYTES> seed{};
  if (crypto_secretbox_open_easy(seed.data(), file.seed.data(), file.seed.size(), file.sealing.nonce.data(), box.bytes.data()) !=
      0)
    return refusal(ErrorCode::conflict, "passphrase", "the passphrase does not open this key");
  auto key = key_of_seed({reinterpret_cast<const char*>(seed.data()), seed.size()});
  sodium_memzero(seed.data(), seed.size());
  return key;
}

bool is_signed(std::string_view bytes, std::string_view public_hex, std::string_view signature_hex) {
  const auto key = bytes_of_hex<crypto_sign_PUBLICKEYBYTES>(public_hex);
  const auto signature = bytes_of_hex<crypto_sign_BYTES>(signature_hex);
  return key && signature && crypto_sign_verify_detached(signature->data(), raw(bytes), bytes.size(), key->data()) == 0;
}

}  // namespace prillbook::issue
