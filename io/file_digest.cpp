#include "io/file_digest.h"

#include "io/diagnostics.h"

#include <fmt/format.h>

#include <fstream>

namespace interpile::io {

void FileDigest::add(std::string_view bytes) {
    constexpr std::uint64_t prime = 0x100000001b3;
    for (const char byte : bytes) {
        value_ ^= static_cast<unsigned char>(byte);
        value_ *= prime;
    }
}

std::string digest_of_file(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    FileDigest digest;
    std::string part(1 << 16, '\0');
    while (in.read(part.data(), static_cast<std::streamsize>(part.size())) || in.gcount() > 0)
        digest.add(std::string_view(part).substr(0, static_cast<std::size_t>(in.gcount())));
    if (!in.eof())
        throw FileTrouble(fmt::format("{} cannot be read.", file.string()));
    return fmt::format("{:016x}", digest.value());
}

} // namespace interpile::io
