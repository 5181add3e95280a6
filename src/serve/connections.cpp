// SPDX-License-Identifier: MIT
#include "serve/connections.h"

#include <fmt/format.h>
#include <sys/resource.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/string_body.hpp>
#include <filesystem>
#include <set>

#include "serve/head.h"
#include "serve/wire.h"
#include "serve/workers.h"

namespace bw::serve {
namespace {

namespace asio = boost::asio;
namespace http = boost::beast::http;
using asio::ip::tcp;
using boost::beast::string_view;
using Clock = std::chrono::steady_clock;
using Trouble = boost::system::error_code;

constexpr std::chrono::milliseconds longest_goodbye{2000}, longest_end{300}, pause_without_files{50};
constexpr std::size_t most_held = 128u << 10;        ///< unread of one peer
constexpr int most_unsent = 256 << 10;               ///< held by the system for one peer; left to itself it takes 4 MB
constexpr std::size_t most_thrown_away = 8u << 20;   ///< of a refused body, so that its sender reads the refusal
constexpr std::size_t most_turned_away = 32;         ///< at once, with a word
constexpr std::size_t other_files = 12, fewest = 4;  ///< the store's, a font, a module
constexpr std::string_view first_words = "retry: 1000\n\n";  // the page's pause before it calls again

/// As many as this process may hold beside its other files.
std::size_t most_of(std::size_t wanted) {
    rlimit files{};
    if (::getrlimit(RLIMIT_NOFILE, &files) != 0 || files.rlim_cur == RLIM_INFINITY) return wanted;
    std::error_code error;
    std::size_t open = other_files;
    for (std::filesystem::directory_iterator at("/proc/self/fd", error), end; at != end; at.increment(error)) ++open;
    const auto may = static_cast<std::size_t>(files.rlim_cur);
    return std::clamp(may > open ? may - open : 0, fewest, std::max(wanted, fewest));
}

std::string text_of(string_view text) { return {text.data(), text.size()}; }

Outcome answered(Site& site, const Request& request) {
    try {
        return site.answer(request);
    } catch (const std::exception&) {
        return {refusal(500, "the program met an error of its own; nothing was changed by this request",
                        "the same again, and if it stays, the survey sent to whoever keeps the program")};
    }
}

}  // namespace

class Connection;

/// All of it lives on one thread, but for what the workers do.
class Connections::Inside {
public:
    Inside(Site& wanted, const Limits& wished) : site(wanted), limits(wished) {}

    Trouble open(int wanted);
    void accept();
    void gone(const std::shared_ptr<Connection>& one);

    Site& site;
    Limits limits;
    Workers quick{limits.quick_work}, lengthy{limits.long_work};
    asio::io_context io{1};
    tcp::acceptor acceptor{io};
    asio::steady_timer pause{io};
    std::set<std::shared_ptr<Connection>> held;
    std::thread thread;
    std::size_t most = 0;
    int port = 0;
    bool finishing = false, ending = false;

private:
    void taken(tcp::socket socket);
    bool end_one();
};

class Connection : public std::enable_shared_from_this<Connection> {
public:
    Connection(Connections::Inside& all, tcp::socket socket) : all_(all), stream_(std::move(socket)) {}

    void begin() {
        Trouble ignored;
        stream_.socket().set_option(tcp::no_delay(true), ignored);
        stream_.socket().set_option(tcp::socket::send_buffer_size(most_unsent), ignored);
        read_head(0);
    }
    void turn_away() { refuse(refusal(503, "too many ask at once", "the same in a moment")); }
    void close();
    /// When it began to wait for its peer; nothing while it is worked for.
    [[nodiscard]] std::optional<Clock::time_point> waiting() const { return waiting_; }
    [[nodiscard]] bool between_requests() const { return waiting_ && held_.size() == 0 && !parser_; }

private:
    using Parser = http::request_parser<http::string_body>;
    auto me() { return shared_from_this(); }

    void read_head(std::size_t seen);
    void got_head(std::size_t size);
    std::optional<Answer> read_request();
    void read_body();
    void work();
    void send(const Answer& answer);
    void refuse(const Answer& answer) {
        after_ = After::close;
        send(answer);
    }
    void say_goodbye();
    void throw_away(std::size_t so_far);
    void write(std::string bytes, std::string more, const std::function<void()>& then);

    void follow(std::shared_ptr<Feed> feed);
    void watch_peer();
    void fetch();
    void fetched(std::optional<std::string> piece);
    void await_quiet();
    void write_piece(std::string piece);

    Connections::Inside& all_;
    boost::beast::tcp_stream stream_;
    boost::beast::flat_buffer held_{most_held};
    std::optional<Parser> parser_;
    Request request_;
    After after_ = After::keep;
    Clock::time_point due_{};  ///< when the request must be there whole
    std::optional<Clock::time_point> waiting_;
    std::array<std::string, 2> out_;
    std::shared_ptr<Feed> feed_;
    bool busy_ = false, again_ = false;  ///< a piece of the feed is on its way; another may be there
    std::optional<asio::steady_timer> quiet_;
};

void Connection::close() {
    Trouble ignored;
    stream_.socket().close(ignored);
    quiet_.reset();
    if (feed_) feed_->on_ready({});
    feed_.reset();
    all_.gone(me());
}

/// Waits for a head to be there whole; `seen` bytes of it were judged before.
void Connection::read_head(std::size_t seen) {
    const std::string_view there(static_cast<const char*>(held_.data().data()), held_.size());
    const auto end = there.find("\r\n\r\n", seen < 3 ? 0 : seen - 3);
    if (end != std::string_view::npos) {
        if (seen == 0) due_ = Clock::now() + all_.limits.request;
        return got_head(end + 4);
    }
    if (const auto no = malformed_so_far(there, seen)) return refuse(*no);
    if (seen == 0) due_ = Clock::now() + (there.empty() ? all_.limits.idle : all_.limits.request);
    if (there.empty() && all_.finishing) return close();
    waiting_ = Clock::now();
    stream_.expires_at(due_);
    stream_.async_read_some(held_.prepare(8192), [self = me(), seen = there.size()](Trouble trouble, std::size_t got) {
        if (trouble) return self->close();
        self->held_.commit(got);
        self->read_head(seen);
    });
}

void Connection::got_head(std::size_t size) {
    if (const auto no = malformed({static_cast<const char*>(held_.data().data()), size})) return refuse(*no);
    parser_.emplace();
    parser_->header_limit(longest_head + 1);
    parser_->body_limit(all_.limits.body);
    Trouble trouble;
    const auto taken = parser_->put(asio::buffer(held_.data(), size), trouble);
    held_.consume(taken);
    if (trouble == http::error::body_limit) return refuse(refusal(413, "the request is larger than a survey can be"));
    if (trouble || !parser_->is_header_done() || taken != size)
        return refuse(refusal(400, "the request is not understood", "HTTP/1.1"));
    if (const auto no = read_request()) return refuse(*no);
    if (parser_->is_done()) return work();
    if (!parser_->get().count(http::field::expect)) return read_body();
    write("HTTP/1.1 100 Continue\r\n\r\n", "", [self = me()] { self->read_body(); });
}

/// What the head asks for, or its refusal.
std::optional<Answer> Connection::read_request() {
    const auto& head = parser_->get();
    const auto field = [&](auto name) { return text_of(head[name]); };
    request_.method = text_of(head.method_string());
    if (head.count(http::field::host) == 1) request_.host = field(http::field::host);
    request_.origin = field(http::field::origin);
    request_.site = field("Sec-Fetch-Site");
    request_.type = field(http::field::content_type);
    request_.encodings = field(http::field::accept_encoding);
    request_.tag = field(http::field::if_none_match);
    request_.has_body = parser_->chunked() || parser_->content_length().value_or(0) > 0;
    // nothing may follow a body whose end others might see elsewhere
    after_ = head.keep_alive() && !parser_->chunked() ? After::keep : After::close;
    if (!read_target({head.target().data(), head.target().size()}, request_))
        return refusal(400, "the address is not understood", "two hexadecimal digits after each percent sign");
    if (auto no = all_.site.refused(request_, all_.port)) return no;
    if (head.count(http::field::expect) &&
        !(request_.has_body && boost::beast::iequals(head[http::field::expect], "100-continue")))
        return refusal(417, "what the request expects is not done here");
    return std::nullopt;
}

void Connection::read_body() {
    waiting_ = Clock::now();
    stream_.expires_at(due_);
    http::async_read(stream_, held_, *parser_, [self = me()](Trouble trouble, std::size_t) {
        if (!trouble) return self->work();
        if (trouble == http::error::body_limit)
            return self->refuse(refusal(413, "the request is larger than a survey can be"));
        const bool broken = trouble.category() == http::make_error_code(http::error::bad_chunk).category() &&
                            trouble != http::error::partial_message && trouble != http::error::end_of_stream;
        if (!broken) return self->close();
        self->refuse(refusal(400, "the request is not understood", "a body in sound chunks"));
    });
}

void Connection::work() {
    request_.body = std::move(parser_->get().body());
    parser_.reset();
    waiting_.reset();
    stream_.expires_never();
    auto& workers = all_.site.lengthy(request_) ? all_.lengthy : all_.quick;
    workers.add([self = me()] {
        const auto outcome = std::make_shared<Outcome>(answered(self->all_.site, self->request_));
        asio::post(self->all_.io, [self, outcome] {
            if (outcome->feed) return self->follow(std::move(outcome->feed));
            if (self->all_.finishing) self->after_ = After::close;
            self->send(outcome->answer);
        });
    });
}

void Connection::write(std::string bytes, std::string more, const std::function<void()>& then) {
    waiting_.reset();
    out_ = {std::move(bytes), std::move(more)};
    const auto size = out_[0].size() + out_[1].size();
    stream_.expires_after(all_.limits.answer + std::chrono::seconds(size / all_.limits.bytes_a_second));
    const std::array<asio::const_buffer, 2> buffers{asio::buffer(out_[0]), asio::buffer(out_[1])};
    asio::async_write(stream_, buffers, [self = me(), then](Trouble trouble, std::size_t) {
        self->out_ = {};
        if (trouble) return self->close();
        then();
    });
}

void Connection::send(const Answer& answer) {
    const auto reason = http::obsolete_reason(static_cast<http::status>(answer.status));
    auto body = request_.method == "HEAD" ? std::string() : answer.body;
    write(head_of(answer, {reason.data(), reason.size()}, after_), std::move(body), [self = me()] {
        if (self->after_ == After::close) return self->say_goodbye();
        self->request_ = {};
        self->read_head(0);
    });
}

/// Closed at once, what is unread would make the peer lose the answer.
void Connection::say_goodbye() {
    Trouble trouble;
    stream_.socket().shutdown(tcp::socket::shutdown_send, trouble);
    if (trouble || all_.finishing) return close();
    waiting_ = Clock::now();
    held_.clear();
    stream_.expires_after(longest_goodbye);
    throw_away(0);
}

void Connection::throw_away(std::size_t so_far) {
    stream_.async_read_some(held_.prepare(65536), [self = me(), so_far](Trouble trouble, std::size_t got) {
        if (trouble || so_far + got > most_thrown_away) return self->close();
        self->throw_away(so_far + got);
    });
}

void Connection::follow(std::shared_ptr<Feed> feed) {
    if (request_.method == "HEAD") return write(head_of_events(), "", [self = me()] { self->say_goodbye(); });
    feed_ = std::move(feed);
    quiet_.emplace(all_.io);
    stream_.expires_never();
    watch_peer();
    feed_->on_ready([weak = weak_from_this(), &io = all_.io] {
        asio::post(io, [weak] {
            if (const auto self = weak.lock()) self->fetch();
        });
    });
    busy_ = true;
    write_piece(head_of_events() + std::string(first_words));
}

/// Whoever follows has nothing more to say: what comes is its end.
void Connection::watch_peer() {
    held_.clear();
    stream_.async_read_some(held_.prepare(512), [self = me()](Trouble, std::size_t) {
        if (self->feed_) self->close();
    });
}

void Connection::fetch() {
    again_ = busy_;
    if (busy_ || !feed_) return;
    busy_ = true;
    all_.quick.add([self = me(), feed = feed_] {
        auto piece = std::make_shared<std::optional<std::string>>(feed->next());
        asio::post(self->all_.io, [self, piece] { self->fetched(std::move(*piece)); });
    });
}

void Connection::fetched(std::optional<std::string> piece) {
    if (!feed_) return;
    if (!piece) return close();
    if (!piece->empty()) return write_piece(std::move(*piece));
    busy_ = false;
    if (again_) return fetch();
    await_quiet();
}

void Connection::await_quiet() {
    quiet_->expires_after(all_.limits.quiet);
    quiet_->async_wait([self = me()](Trouble trouble) {
        if (trouble || !self->feed_ || self->busy_) return;
        self->busy_ = true;
        self->write_piece(":\n\n");
    });
}

void Connection::write_piece(std::string piece) {
    write(std::move(piece), "", [self = me()] {
        self->busy_ = false;
        self->fetch();
    });
}

Trouble Connections::Inside::open(int wanted) {
    Trouble trouble;
    const tcp::endpoint here(asio::ip::address_v4::loopback(), static_cast<std::uint16_t>(wanted));
    acceptor.open(here.protocol(), trouble);
    if (!trouble) acceptor.set_option(tcp::acceptor::reuse_address(true), trouble);
    if (!trouble) acceptor.bind(here, trouble);
    if (!trouble) acceptor.listen(asio::socket_base::max_listen_connections, trouble);
    if (!trouble) port = acceptor.local_endpoint(trouble).port();
    return trouble;
}

void Connections::Inside::accept() {
    acceptor.async_accept([this](Trouble trouble, tcp::socket socket) {
        if (!acceptor.is_open()) return;
        if (!trouble) taken(std::move(socket));
        const bool no_files = trouble == asio::error::no_descriptors || trouble == asio::error::no_buffer_space ||
                              trouble == boost::system::errc::too_many_files_open_in_system ||
                              trouble == asio::error::no_memory;
        if (!no_files) return accept();
        end_one();
        pause.expires_after(pause_without_files);
        pause.async_wait([this](Trouble) { accept(); });
    });
}

void Connections::Inside::taken(tcp::socket socket) {
    const bool full = held.size() >= most && !end_one();
    if (full && held.size() >= most + most_turned_away) return;
    const auto one = *held.insert(std::make_shared<Connection>(*this, std::move(socket))).first;
    full ? one->turn_away() : one->begin();
}

/// Makes room by ending the connection that has waited longest for its peer, those between requests before others;
/// false where all are at work.
bool Connections::Inside::end_one() {
    std::shared_ptr<Connection> longest;
    const auto before = [](const Connection& a, const Connection& b) {
        return std::pair(!a.between_requests(), *a.waiting()) < std::pair(!b.between_requests(), *b.waiting());
    };
    for (const auto& one : held)
        if (one->waiting() && (!longest || before(*one, *longest))) longest = one;
    if (longest) longest->close();
    return longest != nullptr;
}

void Connections::Inside::gone(const std::shared_ptr<Connection>& one) {
    held.erase(one);
    if (ending && held.empty()) io.stop();
}

Connections::Connections() = default;
Connections::~Connections() { stop(); }
int Connections::port() const { return inside_->port; }
std::size_t Connections::most() const { return inside_->most; }

Result<std::unique_ptr<Connections>> Connections::open(Site& site, int port, const Limits& limits) {
    std::unique_ptr<Connections> out(new Connections);
    out->inside_ = std::make_unique<Inside>(site, limits);
    auto& in = *out->inside_;
    if (const auto trouble = in.open(port)) {
        if (trouble == asio::error::access_denied)
            return fail(fmt::format("port {} may not be opened by this user", port),
                        "--port with a number from 1024 on");
        return fail(fmt::format("port {} is taken: another program, perhaps this one, answers there", port),
                    fmt::format("--port with another number, or http://127.0.0.1:{}/ opened in a browser", port));
    }
    in.most = most_of(limits.connections);
    in.accept();
    in.thread = std::thread([&in] {
        while (!in.io.stopped()) try {
                in.io.run();
            } catch (const std::exception&) {
                // one connection ran out of memory; the others go on
            }
    });
    return out;
}

void Connections::finish() {
    asio::post(inside_->io, [in = inside_.get()] {
        in->finishing = true;
        Trouble ignored;
        in->acceptor.close(ignored);
        for (const auto& one : std::set(in->held))
            if (one->between_requests()) one->close();
    });
}

void Connections::stop() {
    if (!inside_ || !inside_->thread.joinable()) return;
    finish();
    inside_->quick.stop(), inside_->lengthy.stop();
    asio::post(inside_->io, [in = inside_.get()] {
        in->ending = true;
        if (in->held.empty()) return in->io.stop();
        in->pause.expires_after(longest_end);
        in->pause.async_wait([in](Trouble trouble) {
            if (!trouble) in->io.stop();
        });
    });
    inside_->thread.join();
}

}  // namespace bw::serve
