// SPDX-License-Identifier: MIT
#include "reason/reason.h"

#include <cmath>

namespace bw::reason {

namespace {

constexpr double tight_below = 0.05;
constexpr double rounding = 1e-12;  // a sum that ends at its limit, or at the share kept from it, is there

/// The number margins are shares of. Kelvin would make every temperature tight, so those count from 0 degC.
double scaled(const Amount& amount) { return amount.kind == units::Kind::temperature ? amount.si - 273.15 : amount.si; }

}  // namespace

const char* name(Status status) {
    switch (status) {
        case Status::pass: return "pass";
        case Status::tight: return "tight";
        case Status::fail: return "fail";
        case Status::refer: return "refer";
    }
    return "refer";
}

const char* name(Standing standing) {
    switch (standing) {
        case Standing::published: return "published";
        case Standing::memory: return "from memory";
        case Standing::computed: return "computed from the published formula";
        case Standing::common_practice: return "common practice, no source";
        case Standing::maker: return "the maker's data";
        case Standing::invented: return "invented for the demo";
        case Standing::given: return "the survey says so";
    }
    return "";
}

std::string print(const Source& source) {
    std::string text = source.document;
    if (!source.edition.empty()) text += (text.empty() ? "" : " ") + source.edition;
    if (!source.clause.empty()) text += (text.empty() ? "" : ", ") + source.clause;
    if (text.empty()) return name(source.standing);
    if (source.standing != Standing::published) text += std::string(" (") + name(source.standing) + ")";
    return text;
}

Check judged(Check check) {
    check.margin.reset();
    if (!check.value || !check.limit || check.sense == Sense::yes || !std::isfinite(check.value->si) ||
        !std::isfinite(check.limit->si)) {
        check.status = Status::fail;
        return check;
    }
    const double value = scaled(*check.value), limit = scaled(*check.limit);
    double room = check.sense == Sense::at_most ? limit - value : value - limit;
    if (std::fabs(room) <= rounding * std::fabs(limit)) room = 0;
    if (limit != 0) check.margin = room / std::fabs(limit);
    if (room < 0)
        check.status = Status::fail;
    else if (check.margin && *check.margin < tight_below - rounding)
        check.status = Status::tight;
    else
        check.status = Status::pass;
    return check;
}

Check proved(Check check, bool holds) {
    check.sense = Sense::yes;
    check.status = holds ? Status::pass : Status::fail;
    return check;
}

Check referred(Check check, std::string who_decides) {
    check.status = Status::refer;
    check.says = std::move(who_decides);
    return check;
}

}  // namespace bw::reason
