#pragma once
// Several observers of one run.

#include "solver/run_observer.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace interpile::io {

/// Passes every event on to each observer, in the order given; the observers must outlive it.
class Observers final : public solver::RunObserver {
public:
    explicit Observers(std::vector<solver::RunObserver*> observers) : observers_(std::move(observers)) {}

    void on_increment(const solver::IncrementRecord& record) override {
        for (auto* observer : observers_)
            observer->on_increment(record);
    }
    void on_half_stroke(const solver::HalfStrokeRecord& record) override {
        for (auto* observer : observers_)
            observer->on_half_stroke(record);
    }
    void on_stage(const solver::StageRecord& record) override {
        for (auto* observer : observers_)
            observer->on_stage(record);
    }
    void on_warning(const std::string& text) override {
        for (auto* observer : observers_)
            observer->on_warning(text);
    }
    bool wants_restart_point() override {
        return std::any_of(observers_.begin(), observers_.end(),
                           [](auto* observer) { return observer->wants_restart_point(); });
    }
    void on_restart_point(const solver::RunState& state) override {
        for (auto* observer : observers_)
            if (observer->wants_restart_point())
                observer->on_restart_point(state);
    }
    /// One observer that asks for it is enough.
    bool stop_requested() override {
        return std::any_of(observers_.begin(), observers_.end(),
                           [](auto* observer) { return observer->stop_requested(); });
    }

private:
    std::vector<solver::RunObserver*> observers_;
};

} // namespace interpile::io
