// The progress line, by a clock of the test's own.

#include "io/observers.h"
#include "io/progress.h"

#include <catch2/catch.hpp>

#include <cstdlib>

using namespace interpile;

namespace {

/// Collects what is printed.
class Printed {
public:
    Printed() : stream_(open_memstream(&text_, &size_)) {}
    ~Printed() {
        std::fclose(stream_);
        std::free(text_);
    }
    Printed(const Printed&) = delete;
    Printed& operator=(const Printed&) = delete;
    std::FILE* stream() const { return stream_; }
    std::string text() const {
        std::fflush(stream_);
        return {text_, size_};
    }

private:
    char* text_ = nullptr;
    std::size_t size_ = 0;
    std::FILE* stream_;
};

solver::IncrementRecord increment(int place, int stroke, solver::Phase phase, int iterations, double share) {
    solver::IncrementRecord record;
    record.place_in_order = place;
    record.stroke = stroke;
    record.phase = phase;
    record.iterations = iterations;
    record.share_done = share;
    return record;
}

} // namespace

TEST_CASE("a terminal shows one line with the time left", "[progress]") {
    const Printed printed;
    double now = 100;
    {
        io::ProgressLine progress(9, true, printed.stream(), [&now] { return now; });
        now = 190.34; // 41 % in 90.34 s: 90.34 * 59 / 41 = 130.0 s to come
        progress.on_increment(increment(3, 2, solver::Phase::Redrive, 12, 0.41));
        const std::string line =
            "\rpile 3 of 9, stroke 2, re-driving, 12 iterations, 41 % done, 2 min 10 s left";
        CHECK(printed.text() == line);

        now += 0.05; // too soon to be read
        progress.on_increment(increment(3, 2, solver::Phase::Redrive, 13, 0.415));
        CHECK(printed.text() == line);

        now += 10; // the end is always shown, and blanks cover the longer line before
        progress.on_increment(increment(9, 0, solver::Phase::Relaxation, 1, 1.0));
        const std::string last = "pile 9 of 9, relaxation, 1 iteration, 100 % done";
        CHECK(printed.text() == line + "\r" + last + std::string(line.size() - 1 - last.size(), ' '));
    }
    CHECK(printed.text().back() == '\n');
}

TEST_CASE("a log gets a line per pile and per 5 %, not per increment", "[progress]") {
    const Printed printed;
    double now = 0;
    io::ProgressLine progress(2, false, printed.stream(), [&now] { return now; });
    for (int i = 1; i <= 1000; ++i) {
        now += 0.01;
        progress.on_increment(increment(i <= 510 ? 1 : 2, 1, solver::Phase::Withdrawal, 3, i / 1000.0));
    }
    const std::string text = printed.text();
    // 20 steps of 5 %, the first increment, and the second pile, which begins between two steps.
    CHECK(std::count(text.begin(), text.end(), '\n') == 22);
    CHECK(text.find('\r') == std::string::npos);
    CHECK(text.substr(0, text.find('\n')) == "pile 1 of 2, stroke 1, withdrawal, 3 iterations, 0 % done");
    CHECK(text.find("pile 2 of 2, stroke 1, withdrawal, 3 iterations, 51 % done, 5 s left\n") !=
          std::string::npos);
}

TEST_CASE("a rest is not told as work on its pile", "[progress]") {
    const Printed printed;
    io::ProgressLine progress(9, false, printed.stream(), [] { return 0.0; });
    auto rest = increment(3, 0, solver::Phase::Rest, 2, 1.0 / 3);
    rest.time_s = 6120;
    progress.on_increment(rest);
    CHECK(printed.text() == "rest after pile 3 of 9, at 1 h 42 min, 2 iterations, 33 % done\n");
}

TEST_CASE("a warning stands on a line of its own", "[progress]") {
    const Printed printed;
    io::ProgressLine progress(1, true, printed.stream(), [] { return 0.0; });
    progress.on_increment(increment(1, 0, solver::Phase::CasingPass, 4, 0.0));
    progress.on_warning("casing pressure above 3 MPa");
    CHECK(printed.text() ==
          "\rpile 1 of 1, casing pass, 4 iterations, 0 % done\nwarning: casing pressure above 3 MPa\n");
}

TEST_CASE("durations in words", "[progress]") {
    CHECK(io::duration_words(0.2) == "0 s");
    CHECK(io::duration_words(59.4) == "59 s");
    CHECK(io::duration_words(59.6) == "1 min 00 s");
    CHECK(io::duration_words(130) == "2 min 10 s");
    CHECK(io::duration_words(3600 + 5 * 60 + 20) == "1 h 05 min");
}

TEST_CASE("several observers see every event, one can stop the run", "[progress]") {
    struct Counter final : solver::RunObserver {
        int increments = 0, stages = 0, warnings = 0;
        bool stop = false;
        void on_increment(const solver::IncrementRecord&) override { ++increments; }
        void on_stage(const solver::StageRecord&) override { ++stages; }
        void on_warning(const std::string&) override { ++warnings; }
        bool stop_requested() override { return stop; }
    } first, second;
    io::Observers both({&first, &second});
    both.on_increment({});
    both.on_stage({});
    both.on_stage({});
    both.on_warning("");
    CHECK_FALSE(both.stop_requested());
    second.stop = true;
    CHECK(both.stop_requested());
    for (const auto* counter : {&first, &second}) {
        CHECK(counter->increments == 1);
        CHECK(counter->stages == 2);
        CHECK(counter->warnings == 1);
    }
}
