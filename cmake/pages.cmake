# embed_pages(TARGET FOLDER): every file of the built pages goes into TARGET as it is, by an assembler
# file of .incbin lines and a table of them (server/pages.h). Without built pages one plain page that
# says how to build them stands in for them.
function(embed_pages target folder)
  if(NOT EXISTS ${folder}/index.html)
    set(folder ${CMAKE_SOURCE_DIR}/src/server/no_pages)
  endif()
  file(GLOB_RECURSE files CONFIGURE_DEPENDS RELATIVE ${folder} ${folder}/*)
  # Looked at again when pages come or go; the glob above watches one folder only.
  file(GLOB appeared CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/dist/index.html)
  set(number 0)
  set(assembly ".section .note.GNU-stack,\"\",%progbits\n.section .rodata\n")
  set(externs "")
  set(entries "")
  foreach(file ${files})
    string(APPEND assembly ".global page_${number}\n.global page_${number}_end\npage_${number}:\n"
                           ".incbin \"${folder}/${file}\"\npage_${number}_end:\n.byte 0\n")
    string(APPEND externs "extern const char page_${number}[];\nextern const char page_${number}_end[];\n")
    string(APPEND entries "    {\"/${file}\", page_${number}, page_${number}_end},\n")
    math(EXPR number "${number} + 1")
  endforeach()
  list(TRANSFORM files PREPEND "${folder}/")
  file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/pages_bytes.S CONTENT "${assembly}" @ONLY)
  file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/pages_table.cpp @ONLY CONTENT
"// Written by cmake/pages.cmake.
#include \"server/pages_table.h\"

extern \"C\" {
${externs}}

namespace plankwright::server {
namespace {
const EmbeddedFile kFiles[] = {
${entries}};
}  // namespace
std::span<const EmbeddedFile> embedded_files() {
  return kFiles;
}
}  // namespace plankwright::server
")
  set_source_files_properties(${CMAKE_BINARY_DIR}/pages_bytes.S PROPERTIES OBJECT_DEPENDS "${files}")
  target_sources(${target} PRIVATE ${CMAKE_BINARY_DIR}/pages_bytes.S ${CMAKE_BINARY_DIR}/pages_table.cpp)
endfunction()
