// SPDX-License-Identifier: MIT
// What a trial would change beside what is shown.
#include <map>

#include "serve/shown.h"

namespace bw::serve {

using reason::Json;

Json changed(const Shown& was, const Shown& then, units::System system) {
    Json json{{"checks", Json::array()}};
    if (was.result.chosen && then.result.chosen) {
        const double before = was.result.chosen->estimate.total, after = then.result.chosen->estimate.total;
        json["total"] = quantity(units::money(after), system);
        json["by"] = quantity(units::money(after - before), system);
        json["heaters"] = Json{{"was", was.result.capacity.installed}, {"now", then.result.capacity.installed}};
    }
    std::map<std::string_view, const reason::Check*> before;
    for (const auto& check : was.result.checks) before.emplace(check.id, &check);
    for (const auto& check : then.result.checks) {
        const auto found = before.find(check.id);
        const auto* old = found == before.end() ? nullptr : found->second;
        if (old != nullptr && old->status == check.status) continue;
        json["checks"].push_back(Json{{"id", check.id},
                                      {"title", check.title},
                                      {"was", old != nullptr ? Json(reason::name(old->status)) : Json()},
                                      {"now", reason::name(check.status)}});
    }
    std::map<std::string_view, bool> now;
    for (const auto& check : then.result.checks) now.emplace(check.id, true);
    for (const auto& check : was.result.checks)
        if (!now.contains(check.id))
            json["checks"].push_back(
                Json{{"id", check.id}, {"title", check.title}, {"was", reason::name(check.status)}, {"now", nullptr}});
    return json;
}

}  // namespace bw::serve
