#pragma once
// How far a run is, on standard error: one line that is rewritten on a terminal, a line now and then in a
// log.

#include "solver/run_observer.h"

#include <cstdio>
#include <functional>
#include <string>

namespace interpile::io {

/// "pile 3 of 9, stroke 2, re-driving, 12 iterations, 41 % done, 2 min 10 s left"
/// "rest after pile 3 of 9, at 1 h 42 min, 3 iterations, 33 % done, 2 min 10 s left"
///
/// On a terminal the line is rewritten in place, at most ten times a second. Otherwise a line is printed with
/// every pile begun and whenever another 5 % are done. Warnings of the run are printed at once on lines of
/// their own.
class ProgressLine final : public solver::RunObserver {
public:
    using Seconds = std::function<double()>;
    static Seconds steady_clock();

    /// \param stream   must outlive this
    /// \param elapsed  seconds since some instant [s]; a steady clock unless a test gives its own
    /// \param share_begun  0..1, done before by a run that this one continues
    ProgressLine(int pile_count, bool is_terminal, std::FILE* stream, Seconds elapsed = steady_clock(),
                 double share_begun = 0);
    ~ProgressLine() override;
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    void on_increment(const solver::IncrementRecord& record) override;
    void on_warning(const std::string& text) override;

    /// Leave the line as it stands and go to the next one; also done at the end of life.
    void end_line();

private:
    std::string line(const solver::IncrementRecord& record) const;
    void rewrite(const std::string& text);

    int pile_count_;
    bool is_terminal_;
    std::FILE* stream_;
    Seconds elapsed_;
    double begun_s_, share_begun_;
    double shown_s_ = -1;      ///< when the terminal line was last rewritten
    int shown_characters_ = 0; ///< on the terminal line now
    int shown_place_ = 0;      ///< pile of the last line of a log
    int shown_twentieths_ = 0; ///< share done of the last line of a log, in steps of 5 %
};

/// "2 min 10 s", "3 h 05 min", "40 s"
std::string duration_words(double seconds);

} // namespace interpile::io
