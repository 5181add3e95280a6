// SPDX-License-Identifier: MIT
#pragma once
// What asks the server: as a program does, and as one that keeps to no rules.

#include <atomic>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <utility>

namespace bw::test {

using Json = nlohmann::json;

struct NoCase {
    using is_transparent = void;
    bool operator()(std::string_view a, std::string_view b) const;
};
using Headers = std::multimap<std::string, std::string, NoCase>;

/// Status 0: no whole answer came.
struct Reply {
    int status = 0;
    std::string body;
    Headers headers;
    [[nodiscard]] Json json() const { return Json::parse(body, nullptr, false); }
    [[nodiscard]] std::string says() const {
        const auto read = json();
        return read.is_object() && read.contains("error") ? read["error"]["says"].get<std::string>() : "";
    }
    [[nodiscard]] std::string header(std::string_view name) const {
        const auto found = headers.find(name);
        return found == headers.end() ? "" : found->second;
    }
    explicit operator bool() const { return status != 0; }
};

/// One connection, kept between requests and made anew where the server closed it.
class Client {
public:
    explicit Client(int port) : port_(port) {}
    ~Client();
    Client(const Client&) = delete;
    Client& operator=(const Client&) = delete;

    Reply Get(const std::string& path, const Headers& headers = {}) { return ask("GET", path, headers); }
    Reply Head(const std::string& path, const Headers& headers = {}) { return ask("HEAD", path, headers); }
    Reply Delete(const std::string& path) { return ask("DELETE", path, {}); }
    Reply Post(const std::string& path, const std::string& body, const std::string& type) {
        return ask("POST", path, {{"Content-Type", type}}, &body);
    }
    Reply Put(const std::string& path, const std::string& body, const std::string& type) {
        return ask("PUT", path, {{"Content-Type", type}}, &body);
    }
    Reply Patch(const std::string& path, const std::string& body, const std::string& type) {
        return ask("PATCH", path, {{"Content-Type", type}}, &body);
    }
    /// Hands on the body as it comes, until that returns false, the body ends, or `leave` is called.
    Reply follow(const std::string& path, const std::function<bool(std::string_view)>& take);
    /// Ends what goes on; from any thread.
    void leave();

private:
    Reply ask(const std::string& method, const std::string& path, const Headers& headers,
              const std::string* body = nullptr);
    bool send(const std::string& method, const std::string& path, const Headers& headers, const std::string* body);
    bool connected();
    void close();

    int port_;
    std::atomic<int> socket_ = -1;
    std::atomic<bool> left_ = false;
};

/// A connection that sends bytes as they are.
class Raw {
public:
    /// `window`: bytes that may wait unread; 0: as many as usual.
    explicit Raw(int port, int window = 0);
    ~Raw();
    Raw(Raw&& other) noexcept : socket_(std::exchange(other.socket_, -1)) {}
    Raw& operator=(Raw&&) = delete;
    Raw(const Raw&) = delete;

    bool send(std::string_view bytes) const;
    /// Sends no more; what comes is still read.
    void hang_up() const;
    /// What comes until the server closes, or nothing more has come for a while.
    [[nodiscard]] std::string answer(int milliseconds = 600);
    /// The first bytes of what comes.
    [[nodiscard]] std::string begin(std::size_t bytes) const;
    /// Whether the server closed, by end or reset, as far as `answer` saw.
    [[nodiscard]] bool closed() const { return closed_; }
    /// Whether the server broke the connection off, though what it sent was not read.
    [[nodiscard]] bool reset() const;
    /// Whether the server has not closed.
    [[nodiscard]] bool still_open() const;

private:
    int socket_ = -1;
    bool closed_ = false;
};

}  // namespace bw::test
