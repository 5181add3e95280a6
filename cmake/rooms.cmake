# A room is a folder under src/, a static library bw_<room>, and a namespace. Sources are whatever stands in the folder
# and its sub-rooms.

add_library(bw_warnings INTERFACE)
target_compile_options(bw_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Werror -Wshadow -Wconversion -Wno-sign-conversion -Wnon-virtual-dtor -Wold-style-cast
    # one machine's fused multiply-add would give other bytes than another's
    -ffp-contract=off)

function(bw_settings target)
    target_include_directories(${target} PUBLIC ${CMAKE_SOURCE_DIR}/src)
    target_link_libraries(${target} PUBLIC fmt::fmt PRIVATE bw_warnings)
    if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
        # g++ 12 reports these falsely through optional, variant and string concatenation
        target_compile_options(${target} PRIVATE -Wno-missing-field-initializers -Wno-maybe-uninitialized -Wno-restrict -Wno-array-bounds
                               -Wno-stringop-overflow -Wno-stringop-overread)
    else()
        target_compile_options(${target} PRIVATE -Wno-missing-field-initializers)
    endif()
endfunction()

# bw_precompiled(name header...): an object library whose precompiled header others reuse: the house's own and those named.
set(bw_often <algorithm> <array> <cmath> <map> <memory> <optional> <string> <string_view> <unordered_map> <variant> <vector>
    <tl/expected.hpp> <fmt/format.h> <units/quantity.h>)
function(bw_precompiled name)
    file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/${name}.cpp CONTENT "")
    add_library(${name} OBJECT ${CMAKE_BINARY_DIR}/${name}.cpp)
    bw_settings(${name})
    target_precompile_headers(${name} PRIVATE ${bw_often} ${ARGN})
endfunction()

# One precompiled header for the whole house: the quantity library costs a second in every file without it.
function(bw_precompile target)
    if(NOT TARGET bw_precompiled)
        bw_precompiled(bw_precompiled)
    endif()
    target_precompile_headers(${target} REUSE_FROM bw_precompiled)
endfunction()

# The same for the tests, with the test library's templates, which cost more than the tests; what they test is optimised.
function(bw_precompile_test target)
    if(NOT TARGET bw_precompiled_test)
        bw_precompiled(bw_precompiled_test <gmock/gmock.h> <gtest/gtest.h>)
        target_compile_options(bw_precompiled_test PRIVATE -O0)
        target_link_libraries(bw_precompiled_test PRIVATE GTest::gmock GTest::gtest)
    endif()
    target_compile_options(${target} PRIVATE -O0)
    target_precompile_headers(${target} REUSE_FROM bw_precompiled_test)
endfunction()

# A room marked MODULE is a library of its own that the program loads when it first needs it. It takes from the rooms it uses
# what stands in their headers and links none of them.
function(bw_room room)
    cmake_parse_arguments(ROOM "MODULE" "" "USES;LIBRARIES" ${ARGN})
    file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/${room}/*.cpp)
    if(ROOM_MODULE)
        add_library(bw_${room} MODULE ${sources})
        set_target_properties(bw_${room} PROPERTIES OUTPUT_NAME bankwright_${room} CXX_VISIBILITY_PRESET hidden
                              LIBRARY_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR})
        bw_settings(bw_${room})
        target_link_libraries(bw_${room} PRIVATE ${ROOM_LIBRARIES})
        return()
    endif()
    if(NOT sources)
        add_library(bw_${room} INTERFACE)
        target_include_directories(bw_${room} INTERFACE ${CMAKE_SOURCE_DIR}/src)
        set(scope INTERFACE)
    else()
        add_library(bw_${room} STATIC ${sources})
        bw_settings(bw_${room})
        bw_precompile(bw_${room})
        set(scope PUBLIC)
    endif()
    list(TRANSFORM ROOM_USES PREPEND bw_ OUTPUT_VARIABLE used)
    target_link_libraries(bw_${room} ${scope} ${used} ${ROOM_LIBRARIES})
endfunction()
