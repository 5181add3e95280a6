// SPDX-License-Identifier: MIT
#pragma once
// Flows and potentials of a network: Newton on links and nodes together (the gradient method of Todini and Pilati
// 1988). The structure is analysed once; flows, potentials, laws and openings may change between solutions.

#include <vector>

#include "flow/evaluate.h"
#include "flow/factor.h"
#include "flow/network.h"
#include "units/error.h"

namespace bw::flow {

/// Where Newton starts: the solver's own first flows, or the flows of the last solution.
enum class Start { cold, warm };

struct Options {
    double tolerance = 1e-9;  ///< of the flows: what the last step could still change, over the sum of all flows
    int iterations = 100;
};

/// What a link that may stop flow does in the solution.
enum class State {
    open,
    held,     ///< shut by itself: a one-way link against its way, a regulator whose outlet stands above its setting
    holding,  ///< a regulator at its setting
};

struct Solution {
    std::vector<double> potential;  ///< by node
    std::vector<double> flow;       ///< by link; exactly 0 where closed or held
    std::vector<double> inflow;     ///< by node: given, or found at a fixed potential
    std::vector<State> state;       ///< by link
    int iterations = 0;
    double imbalance = 0;  ///< greatest failure of a node's balance, in flow
};

class Solver {
public:
    /// Refuses, naming the node or link: no nodes, a link without ends or to itself, a law that does not rise, a
    /// number that is not finite, two regulators that hold one node, no fixed potential.
    [[nodiscard]] static Result<Solver> analyse(Network network, Options options = {});

    void set_inflow(int node, double inflow);
    void set_potential(int node, double potential);  ///< of a fixed node
    void set_open(int link, bool open);
    /// A law of any kind but to or from a regulator. Refused like in `analyse`.
    [[nodiscard]] Result<void> set_law(int link, Law law);

    /// Refuses, naming the node or link: a node cut off from every fixed potential, a one-way link that would have to
    /// let flow back, a flow outside a table, a regulator or a solution that does not settle. The solution lives until
    /// the next call.
    [[nodiscard]] Result<const Solution*> solve(Start start = Start::cold);

    [[nodiscard]] const Network& network() const { return network_; }

private:
    struct Line {
        int from, to;  ///< places: unknown nodes in the factor's order, then the fixed
        int slot;      ///< of the pair in the factor, -1 next to a fixed node
    };

    void prepare();
    void prepare_regulator(std::size_t link);
    void set_back(std::size_t link);
    [[nodiscard]] Result<void> connected(bool as_solved) const;
    void first_flows();
    void evaluate();
    void assemble();
    void pin(int link);
    [[nodiscard]] Result<void> find_potentials();
    [[nodiscard]] double take_step();
    [[nodiscard]] double rise_along_step(bool with_turned) const;
    void search(double start, bool with_turned);
    void balance_regulators();
    void shut_fed_from_behind();
    [[nodiscard]] double remaining() const;
    [[nodiscard]] Result<void> newton();
    [[nodiscard]] Error unsettled() const;
    [[nodiscard]] int settle_regulators();
    [[nodiscard]] Result<void> finish();
    [[nodiscard]] Result<void> judge_link(std::size_t link);
    [[nodiscard]] Result<void> judge_nodes();

    Network network_;
    Options options_;
    std::vector<Ready> ready_;
    std::vector<Line> line_;
    std::vector<char> free_;                       ///< by link: it is open and does not hold a node's potential
    std::vector<int> place_;                       ///< by node
    std::vector<int> watched_;                     ///< links that may stop flow or have bounds
    std::vector<int> regulators_;                  ///< links
    std::vector<std::vector<int>> around_outlet_;  ///< by regulator: the other links at its outlet
    Factor factor_;
    bool openings_changed_ = true, have_flows_ = false;
    bool evaluated_ = false;                          ///< losses belong to the flows
    bool balanced_ = false;                           ///< the flows meet every node's balance
    double spread_ = 0;                               ///< the greatest typical loss or gain of any link
    double small_flow_ = 0;                           ///< a flow that counts as none
    double regulators_off_ = 0;                       ///< how far the regulators' flows moved in the last step
    std::vector<double> potential_, right_, inflow_;  ///< by place
    // by link; drop is what the potentials leave for the law to lose, ease is 1/slope of the law
    std::vector<double> flow_, step_, loss_, ease_, drop_, memory_, gain_;
    std::vector<double> back_;  ///< by link: slope against a one-way link, or 0
    std::vector<State> state_;
    Solution solution_;
};

}  // namespace bw::flow
