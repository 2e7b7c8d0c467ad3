#include "io/progress.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

namespace interpile::io {

namespace {

constexpr double rewrite_interval_s = 0.1;
// Before that the share done says too little about the speed.
constexpr double first_estimate_share = 0.01;
constexpr double first_estimate_s = 1;

} // namespace

std::string duration_words(double seconds) {
    const long s = std::lround(seconds);
    if (s < 60)
        return fmt::format("{} s", s);
    if (s < 3600)
        return fmt::format("{} min {:02} s", s / 60, s % 60);
    return fmt::format("{} h {:02} min", s / 3600, s % 3600 / 60);
}

ProgressLine::ProgressLine(int pile_count, bool is_terminal, std::FILE* stream, Seconds elapsed,
                           double share_begun)
    : pile_count_(pile_count), is_terminal_(is_terminal), stream_(stream), elapsed_(std::move(elapsed)),
      begun_s_(elapsed_()), share_begun_(share_begun) {}

ProgressLine::~ProgressLine() {
    end_line();
}

ProgressLine::Seconds ProgressLine::steady_clock() {
    return [] {
        return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
    };
}

std::string ProgressLine::line(const solver::IncrementRecord& record) const {
    const bool rests = record.phase == solver::Phase::Rest;
    std::string text =
        fmt::format("{}pile {} of {}", rests ? "rest after " : "", record.place_in_order, pile_count_);
    if (rests) // has no strokes, and its name stands in front
        text += fmt::format(", at {}", duration_words(record.time_s));
    else if (record.stroke > 0)
        text += fmt::format(", stroke {}", record.stroke);
    if (!rests)
        text += fmt::format(", {}", solver::in_words(record.phase));
    text += fmt::format(", {} iteration{}, {:.0f} % done", record.iterations,
                        record.iterations == 1 ? "" : "s", std::floor(100 * record.share_done));
    const double elapsed = elapsed_() - begun_s_;
    const double share = record.share_done - share_begun_;
    if (share >= first_estimate_share && record.share_done < 1 && elapsed >= first_estimate_s)
        text += fmt::format(", {} left", duration_words(elapsed * (1 - record.share_done) / share));
    return text;
}

void ProgressLine::on_increment(const solver::IncrementRecord& record) {
    if (is_terminal_) {
        const double now = elapsed_();
        if (shown_s_ >= 0 && now - shown_s_ < rewrite_interval_s && record.share_done < 1)
            return;
        shown_s_ = now;
        rewrite(line(record));
        return;
    }
    const int twentieths = static_cast<int>(std::floor(20 * record.share_done));
    if (record.place_in_order == shown_place_ && twentieths <= shown_twentieths_)
        return;
    shown_place_ = record.place_in_order;
    shown_twentieths_ = twentieths;
    fmt::print(stream_, "{}\n", line(record));
    std::fflush(stream_);
}

void ProgressLine::rewrite(const std::string& text) {
    const int characters = static_cast<int>(text.size()); // ASCII only
    fmt::print(stream_, "\r{:<{}}", text,
               std::max(characters, shown_characters_)); // blanks over a longer line
    std::fflush(stream_);
    shown_characters_ = characters;
}

void ProgressLine::on_warning(const std::string& text) {
    end_line();
    fmt::print(stream_, "warning: {}\n", text);
    std::fflush(stream_);
}

void ProgressLine::end_line() {
    if (shown_characters_ == 0)
        return;
    fmt::print(stream_, "\n");
    std::fflush(stream_);
    shown_characters_ = 0;
}

} // namespace interpile::io
