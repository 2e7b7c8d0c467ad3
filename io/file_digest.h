#pragma once
// A short number that tells one content of a file from another.

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace interpile::io {

/// FNV-1a, 64 bit: finds changes of a file, but nobody is kept from making another with the same number.
/// Source: constants and steps from memory of Fowler, Noll and Vo, "The FNV non-cryptographic hash algorithm".
class FileDigest {
public:
    void add(std::string_view bytes);
    std::uint64_t value() const { return value_; }

private:
    std::uint64_t value_ = 0xcbf29ce484222325;
};

/// Digest of a file as 16 hexadecimal digits.
/// \throws FileTrouble naming it
std::string digest_of_file(const std::filesystem::path& file);

} // namespace interpile::io
