# room(NAME ROOMS below... PACKAGES outside...): one static library for the folder src/NAME.
# A room without sources yet is an empty interface, so that the list can be read as the design.
function(room name)
  cmake_parse_arguments(ROOM "" "" "ROOMS;PACKAGES" ${ARGN})
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/${name}/*.cpp)
  list(REMOVE_ITEM sources ${CMAKE_SOURCE_DIR}/src/main/main.cpp)  # the program itself
  list(TRANSFORM ROOM_ROOMS PREPEND plankwright_)
  if(sources)
    add_library(plankwright_${name} STATIC ${sources})
    target_include_directories(plankwright_${name} PUBLIC ${CMAKE_SOURCE_DIR}/src)
    target_link_libraries(plankwright_${name} PUBLIC ${ROOM_ROOMS} ${ROOM_PACKAGES})
  else()
    add_library(plankwright_${name} INTERFACE)
    target_include_directories(plankwright_${name} INTERFACE ${CMAKE_SOURCE_DIR}/src)
    target_link_libraries(plankwright_${name} INTERFACE ${ROOM_ROOMS} ${ROOM_PACKAGES})
  endif()
endfunction()
