// SPDX-License-Identifier: MIT
// What of the network libraries is no template, compiled once.
#include <utility>  // which asio forgets

#include <boost/asio/impl/src.hpp>
#include <boost/beast/src.hpp>
