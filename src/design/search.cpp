// SPDX-License-Identifier: MIT
#include "design/search.h"

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <optional>
#include <thread>

#include "layout/layout.h"
#include "proof/proof.h"

namespace bw::design {

namespace {

using catalogue::Catalogue;
using survey::Survey;

constexpr int most_at_once = 8;            ///< plants held in memory side by side
constexpr std::size_t spare_layouts = 14;  ///< for those whose connection is shut, which cost no time

/// Builds, solves, proves and prices one layout; the error says why it could not be built.
bw::Result<Proved> prove(const Survey& survey, const Catalogue& catalogue, const demand::Demand& demand,
                         const demand::Capacity& capacity, const plant::Layout& layout, int threads,
                         piping::PlantCache* before = nullptr) {
    auto built = piping::build(survey, catalogue, demand, capacity, layout, before);
    if (!built) return tl::unexpected(built.error());
    auto estimate = make::estimate(survey, catalogue, built->plant);
    if (!estimate) return tl::unexpected(estimate.error());
    const auto* heater = catalogue.heater(capacity.heater);
    auto hydraulics = network::solve(built->plant, catalogue, {survey, *heater, demand, capacity}, threads);
    auto checks = proof::prove({survey, catalogue, *heater, demand, capacity, layout, *built, hydraulics}, threads);
    return Proved{layout, capacity, std::move(*built), std::move(hydraulics), std::move(checks), std::move(*estimate)};
}

/// Pipe and vent of all services, cut.
double run_of(const plant::Plant& plant) {
    double metres = 0;
    for (const auto& piece : plant.pieces)
        if (piece.part == text::Part::pipe || piece.part == text::Part::vent_pipe) metres += piece.cut;
    return metres;
}

Candidate of(const plant::Layout& layout, const demand::Capacity& capacity) {
    Candidate c;
    c.layout = layout.id;
    c.heater = capacity.heater;
    c.heaters = capacity.installed;
    c.floor_length = layout.floor_length;
    c.floor_area = layout.floor_area;
    return c;
}

Candidate summary(const Proved& proved) {
    Candidate c = of(proved.layout, proved.capacity);
    c.parts_cost = proved.estimate.parts;
    c.total_cost = proved.estimate.total;
    c.run = run_of(proved.built.plant);
    c.tally = tally(proved.checks);
    const auto balance = std::ranges::find(proved.checks, "water.balance", &reason::Check::id);
    if (balance != proved.checks.end() && balance->value) c.shortfall = balance->value->si;
    return c;
}

/// Fewest failures first, then least cost.
bool better(const Proved& a, const Proved& b) {
    return std::pair(tally(a.checks).fail, a.estimate.total) < std::pair(tally(b.checks).fail, b.estimate.total);
}

/// Layouts tried in order, some side by side; what comes of it is as if they had been tried one by one.
class Trial {
public:
    Trial(Result& result, const Catalogue& catalogue, const demand::Capacity& capacity, const Effort& effort)
        : result_(result), catalogue_(catalogue), capacity_(capacity), effort_(effort) {}

    bool run(const std::vector<plant::Layout>& layouts) {
        std::vector<Try> wave;
        for (auto next = layouts.begin(); next != layouts.end() && !enough();) {
            wave.clear();
            for (int open = 0; next != layouts.end() && open < most_in_wave(); ++next) {
                wave.push_back({&*next, piping::shut_connection(result_.survey, *next), {}});
                open += wave.back().why ? 0 : 1;
            }
            if (!build(wave)) return false;
        }
        return true;
    }

private:
    struct Try {
        const plant::Layout* layout;
        std::optional<Error> why;  ///< it was not built
        std::optional<Proved> proved;
    };

    [[nodiscard]] bool passes() const { return result_.chosen && tally(result_.chosen->checks).fail == 0; }
    /// Enough to choose among, unless none of them passes yet.
    [[nodiscard]] bool enough() const {
        return tried_ >= effort_.most_tried || (built_ >= effort_.candidates && passes());
    }
    [[nodiscard]] int most_in_wave() const {
        const int wanted = std::max(1, effort_.candidates - built_);
        return std::min({wanted, effort_.most_tried - tried_, effort_.threads > 1 ? most_at_once : 1});
    }

    bool build(std::vector<Try>& wave) {
        std::vector<Try*> open;
        for (Try& each : wave)
            if (!each.why) open.push_back(&each);
        if (!open.empty() && effort_.go_on && !effort_.go_on(static_cast<int>(result_.candidates.size()))) return false;
        const auto one = [&](std::size_t i) {
            auto proved = prove(result_.survey, catalogue_, result_.demand, capacity_, *open[i]->layout,
                                open.size() == 1 ? effort_.threads : 1);
            if (proved)
                open[i]->proved = std::move(*proved);
            else
                open[i]->why = proved.error();
        };
        if (open.size() == 1) {
            one(0);
        } else if (!open.empty()) {
            tbb::task_arena arena(effort_.threads);
            arena.execute([&] { tbb::parallel_for(std::size_t{0}, open.size(), one); });
        }
        tried_ += static_cast<int>(open.size());
        for (Try& each : wave)
            if (each.proved)
                keep(std::move(*each.proved));
            else
                refuse(*each.layout, *each.why);
        return true;
    }

    void keep(Proved&& proved) {
        ++built_;
        result_.candidates.push_back(summary(proved));
        if (!result_.chosen || better(proved, *result_.chosen)) result_.chosen = std::move(proved);
    }

    void refuse(const plant::Layout& layout, const Error& why) {
        result_.candidates.push_back(of(layout, capacity_));
        result_.candidates.back().refused = units::describe(why);
    }

    Result& result_;
    const Catalogue& catalogue_;
    const demand::Capacity& capacity_;
    const Effort& effort_;
    int built_ = 0, tried_ = 0;
};

}  // namespace

Effort wide() {
    const int cores = static_cast<int>(std::thread::hardware_concurrency());
    return {.candidates = 24, .most_tried = 24, .threads = std::clamp(cores, 1, most_at_once)};
}

bool consider(Result& result, const Catalogue& catalogue, const demand::Capacity& capacity, const Effort& effort) {
    auto layouts = layout::candidates(result.survey, *catalogue.heater(capacity.heater), capacity.installed,
                                      static_cast<std::size_t>(effort.most_tried) + spare_layouts);
    result.weighed += layouts.weighed;
    std::ranges::move(layouts.shortfalls, std::back_inserter(result.shortfalls));
    return Trial(result, catalogue, capacity, effort).run(layouts.candidates);
}

bw::Result<void> take_only(Result& result, const Catalogue& catalogue, const demand::Capacity& capacity,
                           const std::string& layout, int threads, piping::PlantCache* before) {
    auto layouts = layout::candidates(result.survey, *catalogue.heater(capacity.heater), capacity.installed, 1, layout);
    result.shortfalls = std::move(layouts.shortfalls);
    if (layouts.candidates.empty())
        return fail(
            result.shortfalls.empty() ? "the layout " + layout + " does not fit" : result.shortfalls.front().what,
            result.shortfalls.empty() ? "one of those that fit" : result.shortfalls.front().remedy);
    auto proved = prove(result.survey, catalogue, result.demand, capacity, layouts.candidates.front(), threads, before);
    if (!proved) return tl::unexpected(proved.error());
    result.weighed = layouts.weighed;
    result.candidates.push_back(summary(*proved));
    result.chosen = std::move(*proved);
    return {};
}

}  // namespace bw::design
