# room(<name> MAY_INCLUDE <prefix>...): one static library from the folder <name>, headers included as "room/file.h".
# Configuring fails when a file of the room includes a project header outside the allowed prefixes.
function(room name)
  cmake_parse_arguments(ARG "" "" "MAY_INCLUDE" ${ARGN})
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${name}/*.cpp)
  file(GLOB_RECURSE headers CONFIGURE_DEPENDS ${name}/*.h)
  list(FILTER sources EXCLUDE REGEX "io/program/")
  list(FILTER headers EXCLUDE REGEX "io/program/")
  foreach(file IN LISTS sources headers)
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
    file(STRINGS ${file} includes REGEX "^#include \"")
    foreach(line IN LISTS includes)
      string(REGEX REPLACE "^#include \"([^\"]*)\".*" "\\1" path "${line}")
      set(allowed FALSE)
      foreach(prefix IN LISTS ARG_MAY_INCLUDE)
        if(path MATCHES "^${prefix}(/|$)")
          set(allowed TRUE)
        endif()
      endforeach()
      if(NOT allowed)
        message(FATAL_ERROR "${file} includes \"${path}\"; the room '${name}' may include only: ${ARG_MAY_INCLUDE}")
      endif()
    endforeach()
  endforeach()
  add_library(${name} STATIC ${sources})
  add_library(interpile::${name} ALIAS ${name})
  set_target_properties(${name} PROPERTIES OUTPUT_NAME interpile_${name})
  target_include_directories(${name} PUBLIC ${PROJECT_SOURCE_DIR})
  target_compile_definitions(${name} PRIVATE INTERPILE_VERSION="${PROJECT_VERSION}")
  interpile_warnings(${name})
  interpile_precompile(${name})
endfunction()

# Headers that take longest to read, once for a target: of the program in the sanitizer build alone, where the other build
# finds includes that are missing; of tests in both.
function(interpile_precompile target)
  if(INTERPILE_SANITIZE OR "<catch2/catch.hpp>" IN_LIST ARGN)
    target_precompile_headers(${target} PRIVATE <Eigen/Dense> <algorithm> <filesystem> <fstream> <functional> <map>
                                                <optional> <sstream> <string> <vector> ${ARGN})
  endif()
endfunction()

# Warnings are errors; optimization and sanitizers are the same for every target.
function(interpile_warnings target)
  target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Werror)
  if(INTERPILE_SANITIZE)
    # g++ 12 warns falsely of uninitialized members of std::function once the sanitizers have added their code.
    target_compile_options(${target} PRIVATE -O1 -fsanitize=address,undefined -fno-sanitize-recover=all
                                             -Wno-maybe-uninitialized)
    target_link_options(${target} PUBLIC -fsanitize=address,undefined)
  else()
    target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O3>)
    if(INTERPILE_NATIVE AND CMAKE_SYSTEM_PROCESSOR STREQUAL "x86_64")
      # g++ 12 warns falsely of uninitialized values in its own header of 512-bit instructions.
      target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-march=native>
                                               $<$<CONFIG:Release>:-Wno-maybe-uninitialized>
                                               $<$<CONFIG:Release>:-Wno-uninitialized>)
    endif()
  endif()
endfunction()
