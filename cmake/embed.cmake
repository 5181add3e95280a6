# bw_embed(room name glob function): library bw_embedded_<name> that holds the files matching `glob` and defines
#     std::span<const EmbeddedFile> function();
# with EmbeddedFile from text/embedded.h. Linked into bw_<room> where that is a target.
function(bw_embed room name glob function)
    file(GLOB files CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/${glob})
    list(SORT files)
    set(assembly "    .section .rodata\n")
    set(externs "")
    set(rows "")
    set(at 0)
    foreach(file ${files})
        get_filename_component(base ${file} NAME)
        set(symbol "bw_embedded_${name}_${at}")
        string(APPEND assembly "    .global ${symbol}, ${symbol}_end\n${symbol}:\n    .incbin \"${file}\"\n${symbol}_end:\n    .byte 0\n")
        string(APPEND externs "extern \"C\" const char ${symbol}[], ${symbol}_end[];\n")
        string(APPEND rows "        {\"${base}\", {${symbol}, static_cast<std::size_t>(${symbol}_end - ${symbol})}},\n")
        math(EXPR at "${at} + 1")
    endforeach()
    string(APPEND assembly "    .section .note.GNU-stack,\"\",@progbits\n")
    string(REGEX REPLACE "::[a-z_]+$" "" space ${function})
    string(REGEX REPLACE "^.*::" "" plain ${function})
    set(folder ${CMAKE_BINARY_DIR}/embedded)
    file(CONFIGURE OUTPUT ${folder}/${name}.S CONTENT "${assembly}" @ONLY)
    file(CONFIGURE OUTPUT ${folder}/${name}.cpp CONTENT "#include <array>
#include \"text/embedded.h\"
${externs}
namespace ${space} {
std::span<const text::EmbeddedFile> ${plain}() {
    static const std::array<text::EmbeddedFile, ${at}> files{{
${rows}    }};
    return files;
}
}
" @ONLY)
    set_property(SOURCE ${folder}/${name}.S APPEND PROPERTY OBJECT_DEPENDS "${files}")
    add_library(bw_embedded_${name} STATIC ${folder}/${name}.S ${folder}/${name}.cpp)
    target_include_directories(bw_embedded_${name} PUBLIC ${CMAKE_SOURCE_DIR}/src)
    if(TARGET bw_${room})
        get_target_property(kind bw_${room} TYPE)
        if(kind STREQUAL "INTERFACE_LIBRARY")
            target_link_libraries(bw_${room} INTERFACE bw_embedded_${name})
        else()
            target_link_libraries(bw_${room} PUBLIC bw_embedded_${name})
        endif()
    endif()
endfunction()
