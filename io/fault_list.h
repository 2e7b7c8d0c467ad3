#pragma once
// Faults gathered while a case is read, so that the user sees all of them at once.

#include "io/diagnostics.h"

#include <string>
#include <vector>

namespace interpile::io {

/// Where something stands in the case file; line 0 where it stands nowhere.
struct Place {
    int line = 0;   ///< 1-based
    int column = 1; ///< 1-based, in characters
    int width = 1;  ///< characters
};

class FaultList {
public:
    /// \param file  of the case, as named in messages
    /// \param text  its content, for the quoted lines
    FaultList(std::string file, std::string text) : file_(std::move(file)), text_(std::move(text)) {}

    void add(const Place& place, std::string what, std::string mend = {});
    /// A fault at a place of the case file, still without text.
    Fault at(const Place& place) const { return {file_, place.line, place.column, place.width, {}, {}, {}}; }
    void add(Fault fault) { faults_.push_back(std::move(fault)); }

    bool empty() const { return faults_.empty(); }
    std::size_t count() const { return faults_.size(); }
    const std::string& file() const { return file_; }
    const std::string& text() const { return text_; }

    /// \throws CaseFaults  sorted by line, faults of other files last, each file by itself; returns if there are none
    void throw_if_any() const;

private:
    std::string file_, text_;
    std::vector<Fault> faults_;
};

} // namespace interpile::io
