#pragma once
// Numbers, arrays and texts as bytes of this machine, and back; one description of a structure serves both ways.

#include <Eigen/Core>

#include <cstdint>
#include <cstring>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace interpile::io {

/// Appends what it is given.
class BinaryWriter {
public:
    template <class... Values>
    void operator()(const Values&... values) {
        (put(values), ...);
    }
    const std::string& bytes() const { return bytes_; }

private:
    void put_bytes(const void* from, std::size_t count) {
        bytes_.append(static_cast<const char*>(from), count);
    }
    void put_size(std::size_t size) { put(static_cast<std::uint64_t>(size)); }
    template <class Value>
    requires std::is_arithmetic_v<Value> || std::is_enum_v<Value>
    void put(const Value& value) { put_bytes(&value, sizeof value); }
    template <class Scalar, int Rows, int Columns>
    void put(const Eigen::Array<Scalar, Rows, Columns>& array) {
        put_size(static_cast<std::size_t>(array.rows()));
        put_size(static_cast<std::size_t>(array.cols()));
        put_bytes(array.data(), sizeof(Scalar) * static_cast<std::size_t>(array.size()));
    }
    template <class Scalar, int Rows, int Columns>
    void put(const Eigen::Matrix<Scalar, Rows, Columns>& matrix) {
        put(matrix.array().eval());
    }
    void put(const std::string& text) {
        put_size(text.size());
        put_bytes(text.data(), text.size());
    }
    template <class Value>
    void put(const std::vector<Value>& values) {
        put_size(values.size());
        for (const auto& value : values)
            put(value);
    }
    template <class Structure>
    requires std::is_class_v<Structure>
    void put(const Structure& structure) { exchange(*this, structure); }

    std::string bytes_;
};

/// Takes back, in the same order.
/// \throws std::runtime_error where the bytes end too early
class BinaryReader {
public:
    explicit BinaryReader(std::string_view bytes) : bytes_(bytes) {}
    template <class... Values>
    void operator()(Values&... values) {
        (get(values), ...);
    }
    bool at_end() const { return bytes_.empty(); }

private:
    /// \param size  of each of `count` pieces
    void require(std::size_t count, std::size_t size) const {
        if (count > bytes_.size() / size)
            throw std::runtime_error("the bytes end too early");
    }
    void get_bytes(void* to, std::size_t count) {
        if (count > 0) // an empty array has no address
            std::memcpy(to, bytes_.data(), count);
        bytes_.remove_prefix(count);
    }
    std::size_t get_size() {
        std::uint64_t size = 0;
        get(size);
        return size;
    }
    template <class Value>
    requires std::is_arithmetic_v<Value> || std::is_enum_v<Value>
    void get(Value& value) {
        require(1, sizeof value);
        get_bytes(&value, sizeof value);
    }
    template <class Scalar, int Rows, int Columns>
    void get(Eigen::Array<Scalar, Rows, Columns>& array) {
        const std::size_t rows = get_size(), columns = get_size();
        if (columns > 0)
            require(rows, sizeof(Scalar));
        if (rows > 0)
            require(columns, sizeof(Scalar) * rows);
        if ((Rows != Eigen::Dynamic && rows != static_cast<std::size_t>(Rows)) ||
            (Columns != Eigen::Dynamic && columns != static_cast<std::size_t>(Columns)))
            throw std::runtime_error("an array has another shape");
        array.resize(static_cast<Eigen::Index>(rows), static_cast<Eigen::Index>(columns));
        get_bytes(array.data(), sizeof(Scalar) * rows * columns);
    }
    template <class Scalar, int Rows, int Columns>
    void get(Eigen::Matrix<Scalar, Rows, Columns>& matrix) {
        Eigen::Array<Scalar, Rows, Columns> array;
        get(array);
        matrix = array.matrix();
    }
    void get(std::string& text) {
        const std::size_t size = get_size();
        require(size, 1);
        text.assign(bytes_.substr(0, size));
        bytes_.remove_prefix(size);
    }
    template <class Value>
    void get(std::vector<Value>& values) {
        const std::size_t size = get_size();
        require(size, 1);
        values.resize(size);
        for (auto& value : values)
            get(value);
    }
    template <class Structure>
    requires std::is_class_v<Structure>
    void get(Structure& structure) { exchange(*this, structure); }

    std::string_view bytes_;
};

} // namespace interpile::io
