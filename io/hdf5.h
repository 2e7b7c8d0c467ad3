#pragma once
// HDF5 behind owners: identifiers close themselves, every failure is a FileTrouble that names the file. Only
// what the results file needs: attributes, datasets of fixed size, and datasets that grow row by row.

#include <hdf5.h>

#include <filesystem>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace interpile::io::hdf5 {

/// Owner of one HDF5 identifier of any kind.
class Handle {
public:
    Handle() = default;
    explicit Handle(hid_t id) : id_(id) {}
    Handle(Handle&& other) noexcept : id_(std::exchange(other.id_, H5I_INVALID_HID)) {}
    Handle& operator=(Handle&& other) noexcept {
        std::swap(id_, other.id_);
        return *this;
    }
    ~Handle() {
        if (id_ >= 0)
            H5Idec_ref(id_); // closes the object with its last reference, whatever its kind
    }
    hid_t get() const { return id_; }
    hid_t release() { return std::exchange(id_, H5I_INVALID_HID); }

private:
    hid_t id_ = H5I_INVALID_HID;
};

/// An open file. The library's own printing of errors is switched off with the first one.
class File {
public:
    /// A new file in the newest format, which single-writer multiple-reader mode (SWMR) asks for.
    static File create(const std::filesystem::path& path);
    /// For reading, also while a writer is at work or after it was killed.
    static File open_to_read(const std::filesystem::path& path);

    const std::filesystem::path& path() const { return path_; }
    void renamed_to(const std::filesystem::path& path) {
        path_ = path;
    } ///< for messages; the file stays open
    hid_t id() const { return id_.get(); }

    bool has(const std::string& object) const; ///< whether an object, e.g. "/stage/number", is there
    /// From here on readers may look on: no object or attribute may be added, none but datasets be open.
    void start_swmr_write();
    void sync(); ///< down to the disk (fsync)
    /// The same of what was flushed dataset by dataset; readers may look on.
    void sync_flushed();
    /// Mark the file as being written by this process, until it is closed or the process ends. Readers do not notice: a
    /// lock of the operating system that the library does not use. Without effect where the file system has none.
    void claim();
    /// Whether a file is so marked.
    static bool is_claimed(const std::filesystem::path& path);
    void close(); ///< like the destructor, but tells of a failure
    /// After a failed write: leave the file as a kill at this instant would. An ordinary close would write
    /// on, mark the file as cleanly closed and so make it unreadable.
    void abandon() noexcept;

    /// Pass a result of the library on, or throw.
    /// \param doing  completes "FILE: cannot ...", e.g. "write /stage/number"
    /// \throws FileTrouble with the reason of the operating system where there is one
    template <class Result>
    Result check(Result result, std::string_view doing, std::string_view object = "") const {
        if (result < 0)
            fail(doing, object);
        return result;
    }
    [[noreturn]] void fail(std::string_view doing, std::string_view object) const;

private:
    int descriptor() const; ///< of the operating system
    File(std::filesystem::path path, hid_t id) : path_(std::move(path)), id_(id) {}
    std::filesystem::path path_;
    Handle id_;
};

/// The library's name for a number in memory.
template <class T>
hid_t memory_type() {
    static_assert(std::is_same_v<T, double> || std::is_same_v<T, int>);
    if constexpr (std::is_same_v<T, double>)
        return H5T_NATIVE_DOUBLE;
    else
        return H5T_NATIVE_INT;
}

void write_attribute(const File& file, const std::string& object, const std::string& name,
                     const std::string& utf8);
void write_attribute(const File& file, const std::string& object, const std::string& name, double value);
void write_attribute(const File& file, const std::string& object, const std::string& name, int value);
/// Give an attribute that is already there another value; unlike adding one, possible while readers look on.
void change_attribute(const File& file, const std::string& object, const std::string& name, int value);

bool has_attribute(const File& file, const std::string& object, const std::string& name);
/// \throws FileTrouble if the attribute is missing or of another kind
std::string text_attribute(const File& file, const std::string& object, const std::string& name);
double number_attribute(const File& file, const std::string& object, const std::string& name);

/// UTF-8 text of at most `bytes` bytes per element, padded with zeros.
Handle text_type(const File& file, std::size_t bytes);

/// A dataset, of fixed size or growing along its first axis.
class Dataset {
public:
    using Shape = std::vector<hsize_t>;

    /// How rows that arrive one after another are stored.
    struct Growing {
        hsize_t rows_per_chunk = 1;
        bool compressed = false; ///< shuffle and deflate 1: higher levels gain 1 % in size
        int fill = 0;            ///< what a reader sees in a row that was declared but not yet written
    };

    static Dataset create(const File& file, const std::string& name, hid_t type, const Shape& shape);
    static Dataset create_growing(const File& file, const std::string& name, hid_t type, const Shape& row,
                                  const Growing& how);
    static Dataset open(const File& file, const std::string& name);

    const std::string& name() const { return name_; }
    /// The current shape; sees what a writer has added since.
    Shape shape() const;

    /// All values at once.
    /// \param memory  type of the values in memory
    void write(hid_t memory, const void* values) const;
    template <class T>
    void write(const T* values) const {
        write(memory_type<T>(), values);
    }
    /// Add rows at the end. They reach readers with flush().
    void append(hid_t memory, const void* values, hsize_t rows) const;
    template <class T>
    void append(const T* values, hsize_t rows = 1) const {
        append(memory_type<T>(), values, rows);
    }
    void flush() const;

    /// Read rows first .. first + count - 1.
    void read_rows(hid_t memory, void* values, hsize_t first, hsize_t count) const;
    template <class T>
    void read_rows(T* values, hsize_t first, hsize_t count) const {
        read_rows(memory_type<T>(), values, first, count);
    }
    /// Texts, row by row, of a dataset with one axis (or of a single text).
    std::vector<std::string> read_texts() const;

private:
    Dataset(const File& file, std::string name, hid_t id) : file_(&file), name_(std::move(name)), id_(id) {}
    Handle rows_in_file(hsize_t first, hsize_t count) const;

    const File* file_;
    std::string name_;
    Handle id_;
};

} // namespace interpile::io::hdf5
