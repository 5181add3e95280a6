// SPDX-License-Identifier: MIT
#include "client.h"

#include <arpa/inet.h>
#include <poll.h>
#include <strings.h>
#include <sys/socket.h>
#include <unistd.h>

#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/string_body.hpp>

namespace bw::test {
namespace {

namespace http = boost::beast::http;
struct Parser : http::response_parser<http::string_body> {
    explicit Parser(const std::string& method) {
        body_limit(256u << 20);
        eager(true);
        if (method == "HEAD") skip(true);
    }
};

constexpr int longest_wait = 60000;

int connection_to(int port, int window = 0) {
    const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (window > 0) ::setsockopt(socket, SOL_SOCKET, SO_RCVBUF, &window, sizeof window);
    sockaddr_in address{};
    address.sin_family = AF_INET, address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (socket >= 0 && ::connect(socket, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0) return socket;
    if (socket >= 0) ::close(socket);
    return -1;
}

bool send_all(int socket, std::string_view bytes) {
    while (!bytes.empty()) {
        const auto sent = ::send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL);
        if (sent <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
}

/// Bytes received; 0 at the end, -1 where none came in time.
ssize_t receive(int socket, char* to, std::size_t size, int milliseconds) {
    pollfd poll{socket, POLLIN, 0};
    if (::poll(&poll, 1, milliseconds) <= 0) return -1;
    return std::max<ssize_t>(::recv(socket, to, size, 0), 0);
}

/// Feeds the parser until `enough`; false where the answer breaks off before.
template <class Enough>
bool read(int socket, Parser& parser, const Enough& enough) {
    boost::beast::flat_buffer held;
    while (!enough()) {
        const auto room = held.prepare(65536);
        const auto got = receive(socket, static_cast<char*>(room.data()), room.size(), longest_wait);
        boost::system::error_code error;
        if (got <= 0) {
            if (got == 0 && parser.got_some() && !parser.is_done()) parser.put_eof(error);
            return parser.is_done() && !error;
        }
        held.commit(static_cast<std::size_t>(got));
        while (held.size() > 0 && !parser.is_done()) {
            const auto taken = parser.put(held.data(), error);
            held.consume(taken);
            if (error == http::error::need_more) break;
            if (error) return false;
            if (taken == 0) break;
        }
    }
    return true;
}

Reply reply_of(Parser& parser) {
    Reply out;
    out.status = static_cast<int>(parser.get().result_int());
    for (const auto& field : parser.get())
        out.headers.emplace(field.name_string().to_string(), field.value().to_string());
    out.body = std::move(parser.get().body());
    return out;
}

}  // namespace

bool NoCase::operator()(std::string_view a, std::string_view b) const {
    return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                        [](char x, char y) { return std::tolower(x) < std::tolower(y); });
}

Client::~Client() { close(); }

void Client::close() {
    const int socket = socket_.exchange(-1);
    if (socket >= 0) ::close(socket);
}

void Client::leave() {
    left_ = true;
    ::shutdown(socket_, SHUT_RDWR);
}

bool Client::connected() {
    if (left_) return false;
    char byte = 0;
    if (socket_ >= 0 && (::recv(socket_, &byte, 1, MSG_PEEK | MSG_DONTWAIT) >= 0 || errno != EAGAIN)) close();
    if (socket_ < 0) socket_ = connection_to(port_);
    return socket_ >= 0 && !left_;
}

bool Client::send(const std::string& method, const std::string& path, const Headers& headers, const std::string* body) {
    if (!connected()) return false;
    auto text = method + " " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_) + "\r\n";
    for (const auto& [name, value] : headers) text += name + ": " + value + "\r\n";
    if (body != nullptr) text += "Content-Length: " + std::to_string(body->size()) + "\r\n";
    return send_all(socket_, text + "\r\n" + (body != nullptr ? *body : ""));
}

Reply Client::ask(const std::string& method, const std::string& path, const Headers& headers, const std::string* body) {
    send(method, path, headers, body);  // where that broke off, an answer may have come all the same
    Parser parser(method);
    if (socket_ < 0 || !read(socket_, parser, [&] { return parser.is_done(); })) {
        close();
        return {};
    }
    if (!parser.get().keep_alive()) close();
    return reply_of(parser);
}

Reply Client::follow(const std::string& path, const std::function<bool(std::string_view)>& take) {
    if (!send("GET", path, {}, nullptr)) return {};
    Parser parser("GET");
    bool going = true;
    read(socket_, parser, [&] {
        auto& body = parser.get().body();
        if (going && !body.empty()) going = take(body);
        body.clear();
        return !going || left_ || parser.is_done();
    });
    close();
    return parser.is_header_done() ? reply_of(parser) : Reply{};
}

Raw::Raw(int port, int window) : socket_(connection_to(port, window)) {}

Raw::~Raw() {
    if (socket_ >= 0) ::close(socket_);
}

bool Raw::send(std::string_view bytes) const { return send_all(socket_, bytes); }

void Raw::hang_up() const { ::shutdown(socket_, SHUT_WR); }

std::string Raw::answer(int milliseconds) {
    std::string out;
    char block[65536];
    ssize_t got = 0;
    while ((got = receive(socket_, block, sizeof block, milliseconds)) > 0)
        out.append(block, static_cast<std::size_t>(got));
    closed_ = got == 0;
    return out;
}

std::string Raw::begin(std::size_t bytes) const {
    std::string out(bytes, '\0');
    std::size_t held = 0;
    for (ssize_t got = 1; got > 0 && held < bytes; held += static_cast<std::size_t>(std::max<ssize_t>(got, 0)))
        got = receive(socket_, out.data() + held, bytes - held, longest_wait);
    return out.substr(0, held);
}

bool Raw::reset() const {
    pollfd poll{socket_, POLLRDHUP, 0};
    return ::poll(&poll, 1, 0) > 0 && (poll.revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0;
}

bool Raw::still_open() const { return !reset(); }

}  // namespace bw::test
