#include "tests/support/results_difference.h"

#include "io/hdf5.h"

#include <map>
#include <vector>

namespace interpile::testing {

namespace {

using io::hdf5::Handle;

/// Shape and bytes of a dataset as they are stored.
struct Content {
    std::vector<hsize_t> shape;
    std::vector<char> bytes;
    bool operator==(const Content&) const = default;
};

Content content_of(hid_t file, const std::string& path) {
    const Handle dataset(H5Dopen2(file, path.c_str(), H5P_DEFAULT));
    const Handle space(H5Dget_space(dataset.get())), type(H5Dget_type(dataset.get()));
    Content content;
    content.shape.resize(static_cast<std::size_t>(H5Sget_simple_extent_ndims(space.get())));
    H5Sget_simple_extent_dims(space.get(), content.shape.data(), nullptr);
    content.bytes.resize(H5Tget_size(type.get()) *
                         static_cast<std::size_t>(H5Sget_simple_extent_npoints(space.get())));
    if (!content.bytes.empty() &&
        H5Dread(dataset.get(), type.get(), H5S_ALL, H5S_ALL, H5P_DEFAULT, content.bytes.data()) < 0)
        content.bytes.clear();
    return content;
}

std::map<std::string, Content> contents_of(const std::filesystem::path& path) {
    const auto file = io::hdf5::File::open_to_read(path);
    std::map<std::string, Content> contents;
    H5Ovisit2(
        file.id(), H5_INDEX_NAME, H5_ITER_NATIVE,
        [](hid_t root, const char* name, const H5O_info_t* info, void* out) -> herr_t {
            if (info->type == H5O_TYPE_DATASET)
                static_cast<std::map<std::string, Content>*>(out)->emplace(name, content_of(root, name));
            return 0;
        },
        &contents, H5O_INFO_BASIC);
    return contents;
}

} // namespace

std::string first_difference(const std::filesystem::path& one, const std::filesystem::path& other) {
    const auto a = contents_of(one), b = contents_of(other);
    if (a.empty())
        return "no datasets in " + one.string();
    for (const auto& [name, content] : a) {
        const auto there = b.find(name);
        if (there == b.end())
            return name + " is missing";
        if (there->second.shape != content.shape)
            return name + " has another shape";
        if (there->second.bytes != content.bytes)
            return name + " has other values";
    }
    return a.size() == b.size() ? "" : "more datasets";
}

} // namespace interpile::testing
