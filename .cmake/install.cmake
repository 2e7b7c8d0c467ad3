# What `cmake --install` puts in place: the programs, and the manual page and completion that the first tells itself.
include(GNUInstallDirs)

foreach(pair man-page=interpile.1 completion=interpile.bash)
  string(REGEX MATCH "^([^=]+)=(.+)$" _ ${pair})
  set(told ${PROJECT_BINARY_DIR}/${CMAKE_MATCH_2})
  add_custom_command(OUTPUT ${told} COMMAND interpile ${CMAKE_MATCH_1} > ${told} DEPENDS interpile VERBATIM)
  list(APPEND told_files ${told})
endforeach()
add_custom_target(self_description ALL DEPENDS ${told_files})

install(TARGETS interpile interpile-study-mpi RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(FILES ${PROJECT_BINARY_DIR}/interpile.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${PROJECT_BINARY_DIR}/interpile.bash RENAME interpile
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
