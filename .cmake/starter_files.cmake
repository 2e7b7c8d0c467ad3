# Write a source file that holds the files of example folders as text, for the command that starts a new folder.
# starter_files(<output.cpp> <kind>=<folder>...): README files are left out.
function(starter_files output)
  set(rows "")
  foreach(pair IN LISTS ARGN)
    string(REGEX MATCH "^([^=]+)=(.+)$" _ "${pair}")
    set(kind ${CMAKE_MATCH_1})
    set(folder ${PROJECT_SOURCE_DIR}/cases/${CMAKE_MATCH_2})
    file(GLOB files CONFIGURE_DEPENDS ${folder}/*)
    foreach(file IN LISTS files)
      get_filename_component(name ${file} NAME)
      if(name STREQUAL "README.md")
        continue()
      endif()
      set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
      file(READ ${file} text)
      string(APPEND rows "    {\"${kind}\", \"${name}\", R\"~~~~(${text})~~~~\"},\n")
    endforeach()
  endforeach()
  file(CONFIGURE OUTPUT ${output} @ONLY CONTENT [[
// Made by .cmake/starter_files.cmake from the folders in cases/.
#include "io/program/starter_files.h"

namespace interpile::program {

const std::vector<StarterFile>& starter_files() {
    static const std::vector<StarterFile> files = {
@rows@    };
    return files;
}

} // namespace interpile::program
]])
endfunction()
