#include "io/hdf5.h"

#include "io/diagnostics.h"

#include <algorithm>
#include <fcntl.h>
#include <unistd.h>

namespace interpile::io::hdf5 {

namespace {

// The innermost entry of the error stack quotes the operating system: "... error message = 'No space left
// ...'".
std::string reason_of_operating_system() {
    std::string reason;
    H5Ewalk2(
        H5E_DEFAULT, H5E_WALK_UPWARD,
        [](unsigned, const H5E_error2_t* entry, void* out) -> herr_t {
            const std::string_view text = entry->desc ? entry->desc : "";
            constexpr std::string_view mark = "error message = '";
            const auto begin = text.find(mark);
            if (begin == std::string_view::npos)
                return 0;
            const auto rest = text.substr(begin + mark.size());
            *static_cast<std::string*>(out) = rest.substr(0, rest.find('\''));
            return 1; // stop at the first
        },
        &reason);
    return reason;
}

// No small piece of metadata may cross a page of the operating system: a kill ends a write between two pages,
// and the torn piece, with its checksum wrong, would take its dataset along (seen in 1 of 400 kills before).
constexpr hsize_t page_bytes = 4096;

// A reader that meets a piece of metadata just being rewritten looks again, each time after twice the pause,
// from 1 ns on. 25 attempts end after 20 ms; the library's own 100 would never end where a killed writer left
// a torn piece.
constexpr unsigned read_attempts = 25;

void silence_library() {
    H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}

Handle newest_format() {
    Handle access(H5Pcreate(H5P_FILE_ACCESS));
    H5Pset_libver_bounds(access.get(), H5F_LIBVER_LATEST, H5F_LIBVER_LATEST);
    return access;
}

/// Of an open file description (OFD): other descriptors of this process do not take it along when they are closed.
struct flock whole_file() {
    struct flock lock = {};
    lock.l_type = F_WRLCK;
    lock.l_whence = SEEK_SET;
    return lock;
}

Handle text_of_any_length(const File& file) {
    return text_type(file, H5T_VARIABLE);
}

void write_scalar_attribute(const File& file, const std::string& object, const std::string& name, hid_t type,
                            const void* value) {
    const Handle space(file.check(H5Screate(H5S_SCALAR), "describe a scalar"));
    const Handle attribute(file.check(H5Acreate_by_name(file.id(), object.c_str(), name.c_str(), type,
                                                        space.get(), H5P_DEFAULT, H5P_DEFAULT, H5P_DEFAULT),
                                      "add an attribute to", object));
    file.check(H5Awrite(attribute.get(), type, value), "write an attribute of", object);
}

Handle open_attribute(const File& file, const std::string& object, const std::string& name) {
    return Handle(
        file.check(H5Aopen_by_name(file.id(), object.c_str(), name.c_str(), H5P_DEFAULT, H5P_DEFAULT),
                   "find attribute " + name + " of", object));
}

Handle simple_space(const File& file, const Dataset::Shape& now, const Dataset::Shape& most) {
    if (now.empty())
        return Handle(file.check(H5Screate(H5S_SCALAR), "describe a scalar"));
    return Handle(file.check(H5Screate_simple(static_cast<int>(now.size()), now.data(), most.data()),
                             "describe an array"));
}

hid_t create_dataset(const File& file, const std::string& name, hid_t type, const Handle& space,
                     const Handle& storage) {
    const Handle link(file.check(H5Pcreate(H5P_LINK_CREATE), "prepare", name));
    file.check(H5Pset_create_intermediate_group(link.get(), 1), "prepare the group of", name);
    return file.check(
        H5Dcreate2(file.id(), name.c_str(), type, space.get(), link.get(), storage.get(), H5P_DEFAULT),
        "create", name);
}

} // namespace

File File::create(const std::filesystem::path& path) {
    silence_library();
    const Handle layout(H5Pcreate(H5P_FILE_CREATE));
    H5Pset_file_space_strategy(layout.get(), H5F_FSPACE_STRATEGY_PAGE, false, 1);
    H5Pset_file_space_page_size(layout.get(), page_bytes);
    H5Pset_obj_track_times(layout.get(), false);
    File file(path, H5Fcreate(path.c_str(), H5F_ACC_TRUNC, layout.get(), newest_format().get()));
    file.check(file.id(), "be created");
    return file;
}

File File::open_to_read(const std::filesystem::path& path) {
    silence_library();
    const Handle access = newest_format();
    H5Pset_metadata_read_attempts(access.get(), read_attempts);
    File file(path, H5Fopen(path.c_str(), H5F_ACC_RDONLY | H5F_ACC_SWMR_READ, access.get()));
    file.check(file.id(), "be opened as HDF5");
    // A second opening in one process shares the library's memory of the first; look at the file anew.
    const Handle root(file.check(H5Gopen2(file.id(), "/", H5P_DEFAULT), "open", "/"));
    file.check(H5Grefresh(root.get()), "read again", "/");
    return file;
}

bool File::has(const std::string& object) const {
    for (auto slash = object.find('/', 1);; slash = object.find('/', slash + 1)) {
        if (H5Lexists(id(), object.substr(0, slash).c_str(), H5P_DEFAULT) <= 0)
            return false; // the library wants every step of the way asked for
        if (slash == std::string::npos)
            return true;
    }
}

void File::start_swmr_write() {
    check(H5Fstart_swmr_write(id()), "be opened to readers while it is written");
}

int File::descriptor() const {
    void* where = nullptr;
    check(H5Fget_vfd_handle(id(), H5P_DEFAULT, &where), "be asked for its descriptor");
    return *static_cast<int*>(where);
}

void File::sync() {
    check(H5Fflush(id(), H5F_SCOPE_GLOBAL), "be flushed");
    check(fsync(descriptor()), "be flushed to the disk");
}

void File::sync_flushed() {
    check(fsync(descriptor()), "be flushed to the disk");
}

void File::claim() {
    struct flock lock = whole_file();
    fcntl(descriptor(), F_OFD_SETLK, &lock);
}

bool File::is_claimed(const std::filesystem::path& path) {
    const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (descriptor < 0)
        return false;
    struct flock lock = whole_file();
    const bool known = fcntl(descriptor, F_OFD_GETLK, &lock) == 0;
    ::close(descriptor);
    return known && lock.l_type != F_UNLCK;
}

void File::abandon() noexcept {
    try {
        const int nowhere = ::open("/dev/null", O_RDWR | O_CLOEXEC);
        if (nowhere < 0)
            return;
        dup2(nowhere, descriptor());
        ::close(nowhere);
    } catch (const FileTrouble&) { // without a descriptor there is nothing to let go
    }
}

void File::close() {
    check(H5Fclose(id_.release()), "be closed");
}

void File::fail(std::string_view doing, std::string_view object) const {
    const std::string reason = reason_of_operating_system();
    std::string text = path_.string();
    text.append(": cannot ").append(doing);
    if (!object.empty())
        text.append(" ").append(object);
    throw FileTrouble(reason.empty() ? text : text + ": " + reason);
}

void write_attribute(const File& file, const std::string& object, const std::string& name,
                     const std::string& utf8) {
    const char* text = utf8.c_str();
    write_scalar_attribute(file, object, name, text_of_any_length(file).get(), &text);
}

bool has_attribute(const File& file, const std::string& object, const std::string& name) {
    return file.check(H5Aexists_by_name(file.id(), object.c_str(), name.c_str(), H5P_DEFAULT),
                      "look for attribute " + name + " of", object) > 0;
}

void write_attribute(const File& file, const std::string& object, const std::string& name, double value) {
    write_scalar_attribute(file, object, name, H5T_NATIVE_DOUBLE, &value);
}

void write_attribute(const File& file, const std::string& object, const std::string& name, int value) {
    write_scalar_attribute(file, object, name, H5T_NATIVE_INT, &value);
}

void change_attribute(const File& file, const std::string& object, const std::string& name, int value) {
    const Handle attribute = open_attribute(file, object, name);
    file.check(H5Awrite(attribute.get(), H5T_NATIVE_INT, &value), "change attribute " + name + " of", object);
}

std::string text_attribute(const File& file, const std::string& object, const std::string& name) {
    const Handle attribute = open_attribute(file, object, name);
    const Handle type(file.check(H5Aget_type(attribute.get()), "read attribute " + name + " of", object));
    if (H5Tis_variable_str(type.get()) <= 0)
        file.fail("read as text the attribute " + name + " of", object);
    char* text = nullptr;
    file.check(H5Aread(attribute.get(), text_of_any_length(file).get(), &text),
               "read attribute " + name + " of", object);
    std::string copy = text ? text : "";
    H5free_memory(text);
    return copy;
}

double number_attribute(const File& file, const std::string& object, const std::string& name) {
    const Handle attribute = open_attribute(file, object, name);
    const Handle space(file.check(H5Aget_space(attribute.get()), "read attribute " + name + " of", object));
    if (H5Sget_simple_extent_npoints(space.get()) != 1)
        file.fail("read as one number the attribute " + name + " of", object);
    double value = 0;
    file.check(H5Aread(attribute.get(), H5T_NATIVE_DOUBLE, &value), "read attribute " + name + " of", object);
    return value;
}

Handle text_type(const File& file, std::size_t bytes) {
    Handle type(file.check(H5Tcopy(H5T_C_S1), "describe text"));
    file.check(H5Tset_size(type.get(), bytes), "describe text");
    file.check(H5Tset_cset(type.get(), H5T_CSET_UTF8), "describe text");
    if (bytes != H5T_VARIABLE) // a full element needs no closing zero
        file.check(H5Tset_strpad(type.get(), H5T_STR_NULLPAD), "describe text");
    return type;
}

Dataset Dataset::create(const File& file, const std::string& name, hid_t type, const Shape& shape) {
    const Handle space = simple_space(file, shape, shape);
    const Handle storage(file.check(H5Pcreate(H5P_DATASET_CREATE), "prepare", name));
    file.check(H5Pset_obj_track_times(storage.get(), false), "prepare", name); // equal contents, equal bytes
    return Dataset(file, name, create_dataset(file, name, type, space, storage));
}

Dataset Dataset::create_growing(const File& file, const std::string& name, hid_t type, const Shape& row,
                                const Growing& how) {
    Shape now = row, most = row, chunk = row;
    now.insert(now.begin(), 0);
    most.insert(most.begin(), H5S_UNLIMITED);
    chunk.insert(chunk.begin(), how.rows_per_chunk);

    const Handle space = simple_space(file, now, most);
    const Handle storage(file.check(H5Pcreate(H5P_DATASET_CREATE), "prepare", name));
    file.check(H5Pset_obj_track_times(storage.get(), false), "prepare", name); // equal contents, equal bytes
    file.check(H5Pset_chunk(storage.get(), static_cast<int>(chunk.size()), chunk.data()),
               "divide into chunks", name);
    if (how.fill != 0)
        file.check(H5Pset_fill_value(storage.get(), H5T_NATIVE_INT, &how.fill), "prepare", name);
    if (how.compressed) {
        file.check(H5Pset_shuffle(storage.get()), "compress", name);
        file.check(H5Pset_deflate(storage.get(), 1), "compress", name);
    }
    return Dataset(file, name, create_dataset(file, name, type, space, storage));
}

Dataset Dataset::open(const File& file, const std::string& name) {
    return Dataset(file, name, file.check(H5Dopen2(file.id(), name.c_str(), H5P_DEFAULT), "open", name));
}

Dataset::Shape Dataset::shape() const {
    const hid_t id = id_.get();
    if (unsigned intent = 0; H5Fget_intent(file_->id(), &intent) >= 0 && (intent & H5F_ACC_SWMR_READ))
        file_->check(H5Drefresh(id), "read again", name_);
    const Handle space(file_->check(H5Dget_space(id), "read the shape of", name_));
    Shape shape(
        static_cast<std::size_t>(file_->check(H5Sget_simple_extent_ndims(space.get()), "read", name_)));
    file_->check(H5Sget_simple_extent_dims(space.get(), shape.data(), nullptr), "read the shape of", name_);
    return shape;
}

void Dataset::write(hid_t memory, const void* values) const {
    file_->check(H5Dwrite(id_.get(), memory, H5S_ALL, H5S_ALL, H5P_DEFAULT, values), "write", name_);
}

Handle Dataset::rows_in_file(hsize_t first, hsize_t count) const {
    Handle space(file_->check(H5Dget_space(id_.get()), "read the shape of", name_));
    Shape size(
        static_cast<std::size_t>(file_->check(H5Sget_simple_extent_ndims(space.get()), "read", name_)));
    file_->check(H5Sget_simple_extent_dims(space.get(), size.data(), nullptr), "read the shape of", name_);
    Shape start(size.size(), 0);
    start.at(0) = first;
    size.at(0) = count;
    file_->check(
        H5Sselect_hyperslab(space.get(), H5S_SELECT_SET, start.data(), nullptr, size.data(), nullptr),
        "select rows of", name_);
    return space;
}

void Dataset::append(hid_t memory, const void* values, hsize_t rows) const {
    Shape size = shape();
    const hsize_t first = size.at(0);
    size[0] += rows;
    file_->check(H5Dset_extent(id_.get(), size.data()), "extend", name_);
    const Handle target = rows_in_file(first, rows);
    size[0] = rows;
    const Handle source = simple_space(*file_, size, size);
    file_->check(H5Dwrite(id_.get(), memory, source.get(), target.get(), H5P_DEFAULT, values), "write",
                 name_);
}

void Dataset::flush() const {
    file_->check(H5Dflush(id_.get()), "flush", name_);
}

void Dataset::read_rows(hid_t memory, void* values, hsize_t first, hsize_t count) const {
    if (count == 0)
        return;
    const Handle source = rows_in_file(first, count);
    const auto values_to_read = static_cast<hsize_t>(H5Sget_select_npoints(source.get()));
    const Handle target = simple_space(*file_, {values_to_read}, {values_to_read});
    file_->check(H5Dread(id_.get(), memory, target.get(), source.get(), H5P_DEFAULT, values), "read", name_);
}

std::vector<std::string> Dataset::read_texts() const {
    const Shape size = shape();
    const Handle type(file_->check(H5Dget_type(id_.get()), "read", name_));
    if (H5Tget_class(type.get()) != H5T_STRING || H5Tis_variable_str(type.get()) > 0 || size.size() > 1)
        file_->fail("read as a list of texts", name_);
    const std::size_t width = H5Tget_size(type.get());
    const std::size_t count = size.empty() ? 1 : size[0];
    std::string bytes(count * width, '\0');
    if (count > 0)
        file_->check(H5Dread(id_.get(), type.get(), H5S_ALL, H5S_ALL, H5P_DEFAULT, bytes.data()), "read",
                     name_);
    std::vector<std::string> texts;
    for (std::size_t row = 0; row < count; ++row) {
        const std::string text = bytes.substr(row * width, width);
        texts.push_back(text.substr(0, text.find('\0')));
    }
    return texts;
}

} // namespace interpile::io::hdf5
