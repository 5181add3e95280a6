// SPDX-License-Identifier: MIT
#include "serve/answer.h"

#include "serve/writer.h"

namespace bw::serve {

Answer answer(int status, const reason::Json& json) {
    Answer out;
    out.status = status;
    out.body = one_line(json);
    return out;
}

reason::Json error_json(const Error& error) {
    reason::Json json{{"says", error.what}};
    if (!error.expected.empty()) json["expected"] = error.expected;
    if (error.place.line > 0) json["line"] = error.place.line;
    if (error.place.column > 0) json["column"] = error.place.column;
    return json;
}

Answer refusal(int status, const std::string& says, const std::string& expected) {
    return answer(status, {{"error", error_json({says, expected, {}})}});
}

}  // namespace bw::serve
