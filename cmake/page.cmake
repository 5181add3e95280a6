# bw_page(room function): library bw_embedded_page that holds the built page of web/, each file packed by gzip under its
# place in the page ("assets/main.js.gz"), as `std::span<const EmbeddedFile> function();`.
# npm builds it again when a source changed; what npm installs, when package-lock.json did.
function(bw_page function)
    set(web ${CMAKE_SOURCE_DIR}/web)
    set(folder ${CMAKE_BINARY_DIR}/page)
    find_program(NPM npm)
    find_program(NODE NAMES node nodejs)
    if(NOT NPM OR NOT NODE)
        message(FATAL_ERROR "The page is built by npm, with Node 18 or later: install both (Debian: nodejs npm), or build without "
                            "the page by -DBANKWRIGHT_PAGE=OFF.")
    endif()
    file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${web}/src/* ${web}/public/*)
    list(APPEND sources ${web}/index.html ${web}/package.json ${web}/tsconfig.json ${web}/vite.config.ts)
    add_custom_command(OUTPUT ${folder}/installed
        COMMAND ${NPM} ci --no-audit --no-fund --loglevel=error
        COMMAND ${CMAKE_COMMAND} -E make_directory ${folder}
        COMMAND ${CMAKE_COMMAND} -E touch ${folder}/installed
        DEPENDS ${web}/package-lock.json
        WORKING_DIRECTORY ${web} COMMENT "Installing what the page is built with" VERBATIM)
    add_custom_command(OUTPUT ${folder}/page.S ${folder}/page.cpp
        COMMAND ${NPM} run --silent build -- --logLevel warn
        COMMAND ${NODE} ${CMAKE_SOURCE_DIR}/tools/pack_page.mjs ${web}/dist ${folder} ${function}
        DEPENDS ${folder}/installed ${sources} ${CMAKE_SOURCE_DIR}/tools/pack_page.mjs
        WORKING_DIRECTORY ${web} COMMENT "Building the page" VERBATIM)
    add_library(bw_embedded_page STATIC ${folder}/page.S ${folder}/page.cpp)
    target_include_directories(bw_embedded_page PUBLIC ${CMAKE_SOURCE_DIR}/src)
endfunction()

# The program without its page: it still answers under /api/.
function(bw_no_page function)
    string(REGEX REPLACE "::[a-z_]+$" "" space ${function})
    string(REGEX REPLACE "^.*::" "" plain ${function})
    file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/page/no_page.cpp CONTENT "#include <span>
#include \"text/embedded.h\"
namespace ${space} {
std::span<const text::EmbeddedFile> ${plain}() { return {}; }
}
" @ONLY)
    add_library(bw_embedded_page STATIC ${CMAKE_BINARY_DIR}/page/no_page.cpp)
    target_include_directories(bw_embedded_page PUBLIC ${CMAKE_SOURCE_DIR}/src)
endfunction()
